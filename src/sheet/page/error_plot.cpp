#include "sheet/page/error_plot.h"

#include "base/elementary/elementary.h"
#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "base/text/markup.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace lobewright::sheet {
namespace {

// The picture in its own units: so few that its letters can be read on a phone.
constexpr double width = 480.0, height = 260.0;
constexpr double left = 72.0, right = 474.0, top = 20.0, bottom = 222.0;
constexpr double standard_errors = 2.0;
constexpr std::size_t most_crosses = 200;

/// A round figure not below `value`, and its half: 1, 2 or 5 times a power of ten.
struct Scale {
    double highest = 1.0;
    int decimals = 0;  ///< that show it
};
Scale scale_over(double value) {
    for (int power = -6; power < 6; ++power) {
        for (const double figure : {1.0, 2.0, 5.0}) {
            const double highest = figure * elementary::power(10.0, power);
            if (highest >= value)
                return {highest, std::max(0, figure == 1.0 || figure == 5.0 ? 1 - power : -power)};
        }
    }
    return {value, 0};
}

std::string at_pixel(double value) {
    return shortest_fixed(value, 1);
}

/// Figures to places in the picture; lengths in mm, as the inspection has them.
class PlotFrame {
  public:
    PlotFrame(Units units, const Scale& scale) : unit_(mm_per(units)), scale_(scale) {}

    [[nodiscard]] std::string x(double degrees) const {
        return at_pixel(left + (degrees + 180.0) / 360.0 * (right - left));
    }
    [[nodiscard]] double height_of(double mm) const {
        const double share = std::clamp(mm / unit_ / scale_.highest, -1.0, 1.0);
        return 0.5 * (top + bottom) - 0.5 * share * (bottom - top);
    }
    [[nodiscard]] std::string y(double mm) const { return at_pixel(height_of(mm)); }
    [[nodiscard]] bool holds(double mm) const { return std::abs(mm / unit_) <= scale_.highest; }
    [[nodiscard]] double highest() const { return scale_.highest * unit_; }
    [[nodiscard]] std::string label(double share) const {
        const std::string figure = shortest_fixed(share * scale_.highest, scale_.decimals);
        return share > 0.0 ? "+" + figure : figure;
    }

  private:
    double unit_;
    Scale scale_;
};

/// What the plot must reach, mm.
double reach_of(const LobeInspection& found) {
    double most = found.request.tolerance.value_or(0.0) * 1.2;
    for (const JudgedReading& each : found.readings)
        if (!each.set_aside) most = std::max(most, std::abs(each.error));
    for (const ErrorPlace& each : found.lift_course)
        most = std::max(most, std::abs(each.error.value) + standard_errors * each.error.error);
    return most;
}

std::string text_at(const std::string& x, const std::string& y, const std::string& anchor,
                    const std::string& text) {
    return "<text x=\"" + x + "\" y=\"" + y + "\" text-anchor=\"" + anchor + "\">" + escaped(text) +
           "</text>";
}

std::string line_between(const std::string& x1, const std::string& y1, const std::string& x2,
                         const std::string& y2, const std::string& kind) {
    return "<line class=\"" + kind + "\" x1=\"" + x1 + "\" y1=\"" + y1 + "\" x2=\"" + x2 + "\" y2=\"" + y2 +
           "\"/>";
}

std::string axes(const PlotFrame& frame, Units units) {
    std::string svg;
    for (const double share : {1.0, 0.5, 0.0, -0.5, -1.0}) {
        const double mm = share * frame.highest();
        const std::string y = frame.y(mm);
        svg += line_between(frame.x(-180.0), y, frame.x(180.0), y, share == 0.0 ? "zero" : "rule");
        svg += text_at(at_pixel(left - 5.0), at_pixel(frame.height_of(mm) + 5.0), "end", frame.label(share));
    }
    for (const int degrees : {-180, -90, 0, 90, 180}) {
        const std::string x = frame.x(degrees);
        svg += line_between(x, at_pixel(top), x, at_pixel(bottom), "rule");
        const std::string anchor = degrees == 180 ? "end" : degrees == -180 ? "start" : "middle";
        svg += text_at(x, at_pixel(bottom + 17.0), anchor, std::to_string(degrees) + "°");
    }
    svg += text_at(at_pixel(left), at_pixel(top - 6.0), "start", unit_word(units));
    return svg + text_at(frame.x(0.0), at_pixel(height - 4.0), "middle", "cam angle");
}

std::string tolerance_band(const PlotFrame& frame, const LobeInspection& found) {
    if (!found.request.tolerance) return "";
    const double tolerance = *found.request.tolerance;
    const std::string from = frame.x(-180.0), to = frame.x(180.0);
    const std::string high = frame.y(tolerance), low = frame.y(-tolerance);
    return "<path class=\"tolerance\" d=\"M" + from + ' ' + high + 'H' + to + 'V' + low + 'H' + from +
           "Z\"/>" + line_between(from, high, to, high, "limit") + line_between(from, low, to, low, "limit");
}

/// Stretches of the course without gaps.
std::vector<std::pair<std::size_t, std::size_t>> runs_of(const std::vector<ErrorPlace>& course) {
    constexpr double gap = 1.5;  // degrees
    std::vector<std::pair<std::size_t, std::size_t>> runs;
    for (std::size_t i = 0; i < course.size(); ++i) {
        const bool joins = i > 0 && (course[i].cam_angle - course[i - 1].cam_angle).degrees() < gap;
        if (joins)
            runs.back().second = i + 1;
        else
            runs.emplace_back(i, i + 1);
    }
    return runs;
}

std::string course(const PlotFrame& frame, const LobeInspection& found) {
    std::string svg;
    for (const auto& [first, last] : runs_of(found.lift_course)) {
        std::string over, under, middle;
        for (std::size_t i = first; i < last; ++i) {
            const ErrorPlace& place = found.lift_course[i];
            const std::string x = frame.x(place.cam_angle.degrees()) + ' ';
            const double off = standard_errors * place.error.error;
            over += (over.empty() ? "M" : "L") + x + frame.y(place.error.value + off);
            middle += (middle.empty() ? "M" : "L") + x + frame.y(place.error.value);
            under.insert(0, "L" + x + frame.y(place.error.value - off));
        }
        svg +=
            "<path class=\"sure\" d=\"" + over + under + "Z\"/><path class=\"course\" d=\"" + middle + "\"/>";
    }
    return svg;
}

/// A dot; a triangle at the edge where the plot ends before it.
std::string dot_mark(const PlotFrame& frame, const JudgedReading& reading) {
    const std::string x = frame.x(reading.cam_angle.degrees()), y = frame.y(reading.error);
    if (frame.holds(reading.error)) return "<circle cx=\"" + x + "\" cy=\"" + y + "\" r=\"1.6\"/>";
    return "<path d=\"M" + x + ' ' + y + "l-4 " + (reading.error > 0.0 ? "8" : "-8") + "h8Z\"/>";
}

std::string cross_mark(const PlotFrame& frame, const JudgedReading& reading) {
    const std::string x = frame.x(reading.cam_angle.degrees()), y = frame.y(reading.error);
    std::string mark = "<path d=\"M" + x + ' ' + y + "m-5 -5l10 10m0 -10l-10 10\"/>";
    if (frame.holds(reading.error)) return mark;
    // Beyond the edge: an arrow that points there.
    const std::string way = reading.error > 0.0 ? "1" : "-1";
    return "<path d=\"M" + x + ' ' + y + "v" + (reading.error > 0.0 ? "13" : "-13") + "m-4 " +
           (reading.error > 0.0 ? "-8l4 -5l4 5" : "8l4 5l4 -5") + "\" data-beyond=\"" + way + "\"/>";
}

struct Drawn {
    std::string svg;
    std::size_t dots = 0, kept = 0, crosses = 0;
};

Drawn readings(const PlotFrame& frame, const LobeInspection& found) {
    std::vector<const JudgedReading*> kept, aside;
    for (const JudgedReading& each : found.readings)
        (each.set_aside ? aside : kept).push_back(&each);
    Drawn drawn{"<g class=\"kept\">", std::min(kept.size(), most_dots), kept.size(), aside.size()};
    for (std::size_t i = 0; i < drawn.dots; ++i)
        drawn.svg += dot_mark(frame, *kept[i * kept.size() / drawn.dots]);
    drawn.svg += "</g><g class=\"aside\">";
    for (std::size_t i = 0; i < std::min(aside.size(), most_crosses); ++i)
        drawn.svg += cross_mark(frame, *aside[i]);
    drawn.svg += "</g>";
    return drawn;
}

std::string caption_of(const LobeInspection& found, const Drawn& drawn, Units units) {
    std::string said =
        "Over the cam angle, measured less design, with phase and level as fitted: dots are readings";
    if (drawn.dots < drawn.kept)
        said += " (" + std::to_string(drawn.dots) + " of " + std::to_string(drawn.kept) + " drawn)";
    if (drawn.crosses > 0)
        said += ", crosses those set aside as outliers (an arrow where one lies beyond the edge)";
    if (!found.lift_course.empty())
        said +=
            "; the line is the follower's lift error that neighbouring readings say together, the band about "
            "it "
            "two standard errors";
    if (found.request.tolerance)
        said += "; the broad band is the tolerance of " + length_words(*found.request.tolerance, units);
    return said + ".";
}

}  // namespace

ErrorPlot error_plot(const LobeInspection& found, const std::string& lobe, Units units) {
    const PlotFrame frame(units, scale_over(std::max(reach_of(found) / mm_per(units), 1e-6)));
    const Drawn drawn = readings(frame, found);
    const std::string name = "lift error of lobe " + lobe + " over the cam angle";
    return {"<svg class=\"errors\" viewBox=\"0 0 " + at_pixel(width) + ' ' + at_pixel(height) +
                "\" role=\"img\" aria-label=\"" + escaped(name) + "\">\n" + tolerance_band(frame, found) +
                axes(frame, units) + course(frame, found) + drawn.svg + "</svg>\n",
            caption_of(found, drawn, units)};
}

}  // namespace lobewright::sheet
