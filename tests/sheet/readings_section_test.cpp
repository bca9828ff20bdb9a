/// What the page shows of readings.
#include "basalt.h"
#include "job_kit.h"
#include "sheet/page/error_plot.h"

#include <lobewright/sheet.h>

#include <nlohmann/json.hpp>

#include <cmath>
#include <numbers>

using namespace lobewright;

namespace {

struct Read {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat());
    std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
    SheetParts parts{judge(job, lobes), {}, std::nullopt};

    /// A few micrometres of wave, a reading every so many degrees, and slips of the pen at two of them.
    explicit Read(double every, std::optional<double> tolerance = 0.004, double slip = 0.3) {
        MeasuredLobe measured;
        const int count = static_cast<int>(std::lround(360.0 / every));
        for (int i = 0; i < count; ++i) {
            const CamAngle angle = CamAngle::from_degrees(-180.0 + every * i);
            const double wave = 0.003 * std::sin(5.0 * angle.radians()) + 0.0004 * (i % 3 - 1);
            const bool slipped = i == count / 5 || i == count / 2 + 7;
            measured.readings.push_back({angle,
                                         lobes[0].motion.at(angle).lift + wave + (slipped ? slip : 0.0),
                                         {"readings.csv", i + 2, 1}});
        }
        InspectRequest request;
        request.tolerance = tolerance;
        parts.inspections = {taken(inspect_lobe(job, lobes, measured, request))};
    }
};

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++count;
    return count;
}
bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("readings have a section of their own, with what the fit says and what it takes as known") {
    const Read read(2.0);
    const std::string page = sheet_page(read.job, read.lobes, read.parts);
    const std::size_t at = page.find("<section id=\"readings\">");
    REQUIRE(at != std::string::npos);
    CHECK(at > page.find("<section id=\"lobes\">"));
    const std::string section = page.substr(at, page.find("</section>", at) - at);
    for (const char* part : {"<svg class=\"errors\"", "2 set aside as outliers", "Phase: the lobe comes",
                             "Base circle: its radius", "What this rests on",
                             "Taken as known: the probe is a flat", "crosses those set aside"}) {
        INFO(part);
        CHECK(holds(section, part));
    }
    const Read none(2.0);
    SheetParts without = none.parts;
    without.inspections.clear();
    CHECK_FALSE(holds(sheet_page(none.job, none.lobes, without), "<section id=\"readings\">"));
}

TEST_CASE("outliers are marked by their shape, and an arrow points to one beyond the plot's edge") {
    const Read read(2.0);
    const sheet::ErrorPlot plot = sheet::error_plot(read.parts.inspections[0], "<lobe>", Units::mm);
    CHECK(count_of(plot.svg, "<circle") == 178);
    CHECK(count_of(plot.svg, "data-beyond=\"1\"") == 2);
    CHECK(holds(plot.svg, "&lt;lobe&gt;"));
    const Read near(2.0, 0.05, 0.04);  // the tolerance's band takes them into the plot
    const sheet::ErrorPlot inside = sheet::error_plot(near.parts.inspections[0], "lobe", Units::mm);
    CHECK(count_of(inside.svg, "m-5 -5l10 10m0 -10l-10 10") == 2);
    CHECK_FALSE(holds(inside.svg, "data-beyond"));
}

TEST_CASE("a reading stands in the plot where its angle and its error are") {
    const Read read(2.0, 0.01);
    const LobeInspection& found = read.parts.inspections[0];
    const sheet::ErrorPlot plot = sheet::error_plot(found, "lobe", Units::mm);
    // The scale ends at 0.02 mm, the next of 1, 2 and 5 over 1.2 times the tolerance.
    CHECK(holds(plot.svg, ">+0.02</text>"));
    CHECK(holds(plot.svg, ">-0.02</text>"));
    for (const JudgedReading& each : found.readings) {
        if (each.set_aside) continue;
        const double x = 72.0 + (each.cam_angle.degrees() + 180.0) / 360.0 * 402.0;
        const double y = 121.0 - each.error / 0.02 * 101.0;
        bool there = false;
        for (std::size_t at = plot.svg.find("<circle cx=\""); at != std::string::npos && !there;
             at = plot.svg.find("<circle cx=\"", at + 1)) {
            const double cx = std::stod(plot.svg.substr(at + 12));
            const double cy = std::stod(plot.svg.substr(plot.svg.find("cy=\"", at) + 4));
            there = std::abs(cx - x) < 0.06 && std::abs(cy - y) < 0.06;
        }
        REQUIRE(there);
    }
}

TEST_CASE(
    "of many readings some are drawn, and the caption says how many; without a tolerance there is no band") {
    const Read read(0.25, std::nullopt);
    const sheet::ErrorPlot plot = sheet::error_plot(read.parts.inspections[0], "lobe", Units::inch);
    CHECK(count_of(plot.svg, "<circle") <= sheet::most_dots);
    CHECK(holds(plot.caption, "(720 of 14"));
    CHECK_FALSE(holds(plot.svg, "class=\"tolerance\""));
    CHECK_FALSE(holds(plot.caption, "tolerance"));
    CHECK(holds(plot.svg, ">in</text>"));
}

TEST_CASE("the model holds every reading, and its errors in the job's units") {
    const Read read(2.0);
    const auto model = nlohmann::json::parse(sheet_model(read.job, read.lobes, read.parts));
    const auto& readings = model.at("readings").at(0);
    CHECK(readings.at("lobe") == "lobe");
    CHECK(readings.at("points").size() == 3 * 180);
    CHECK_THAT(readings.at("tolerance").get<double>(), Near(0.004, 1e-12));
    int aside = 0;
    for (std::size_t i = 2; i < readings.at("points").size(); i += 3)
        aside += readings.at("points").at(i).get<int>();
    CHECK(aside == 2);
    REQUIRE(readings.at("course").size() == 3 * 361);
    const LobeInspection& found = read.parts.inspections[0];
    CHECK_THAT(readings.at("course").at(1).get<double>(), Near(found.lift_course[0].error.value, 1e-7));
    SheetParts none = read.parts;
    none.inspections.clear();
    CHECK(nlohmann::json::parse(sheet_model(read.job, read.lobes, none)).at("readings").empty());
}

TEST_CASE("the course of the lift error follows what neighbouring readings have in common") {
    const Read read(1.0);
    const LobeInspection& found = read.parts.inspections[0];
    REQUIRE(found.lift_course.size() == 361);
    // The scatter made above repeats every three readings, so that three together are without it.
    for (std::size_t i = 1; i + 1 < found.readings.size(); ++i) {
        const JudgedReading *before = &found.readings[i - 1], *here = before + 1, *after = here + 1;
        if (before->set_aside || here->set_aside || after->set_aside) continue;
        const double mean = (before->error + here->error + after->error) / 3.0;
        const auto step = static_cast<std::size_t>(std::lround(here->cam_angle.degrees() + 180.0));
        const ErrorPlace& place = found.lift_course[step];
        REQUIRE_THAT(place.cam_angle.degrees(), Near(here->cam_angle.degrees(), 1e-9));
        REQUIRE_THAT(place.error.value, Near(mean, 0.0004));
        REQUIRE(place.error.error > 0.0);
        REQUIRE(place.error.error < 0.0006);
    }
}
