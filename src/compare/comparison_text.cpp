#include "base/elementary/elementary.h"
#include "base/text/column_layout.h"
#include "base/text/csv.h"
#include "base/text/json_text.h"
#include "base/text/length_text.h"
#include "base/text/markdown.h"
#include "base/text/wrapped.h"

#include <lobewright/compare.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <numbers>

namespace lobewright {
namespace {

constexpr double per_degree = std::numbers::pi / 180.0;
constexpr double per_degree2 = per_degree * per_degree;

/// A figure of every row: its name for programs, its head for people (none where they need no column for it),
/// and its value in the job's units.
struct Figure {
    const char* name;
    const char* head;
    std::optional<double> (*value)(const ComparedLobe& lobe, double scale);
};

template <class Frame>
std::optional<double> degrees(const std::optional<Angle<Frame>>& angle) {
    return angle ? std::optional(angle->degrees()) : std::nullopt;
}

/// Infinite, and so without a value, where the acceleration jumps.
std::optional<double> jerk(const ComparedLobe& lobe, double scale) {
    if (lobe.acceleration_jump > 0.0) return std::nullopt;
    return lobe.report->max_jerk.value * scale * per_degree2 * per_degree;
}

std::optional<double> stress(const ComparedLobe& lobe, double /*scale*/) {
    const auto& found = lobe.report->max_contact_stress_mpa;
    return found ? std::optional(found->value) : std::nullopt;
}

/// Required of all but duration and overlap: lobe.report is there.
const std::vector<Figure>& figures() {
    using Lobe = const ComparedLobe&;
    using Value = std::optional<double>;
    static const std::vector<Figure> all{
        {"lift", "lift", [](Lobe l, double s) { return Value(l.report->lift * s); }},
        {"area", "area", [](Lobe l, double s) { return Value(l.report->area * s / per_degree); }},
        {"max_velocity", "velocity",
         [](Lobe l, double s) { return Value(l.report->max_velocity.value * s * per_degree); }},
        {"max_acceleration", "accel.",
         [](Lobe l, double s) { return Value(l.report->max_acceleration.value * s * per_degree2); }},
        {"min_acceleration", "decel.",
         [](Lobe l, double s) { return Value(l.report->min_acceleration.value * s * per_degree2); }},
        {"acceleration_jump", nullptr,
         [](Lobe l, double s) { return Value(l.acceleration_jump * s * per_degree2); }},
        {"max_jerk", "jerk", jerk},
        {"min_curvature_radius", "radius",
         [](Lobe l, double s) { return Value(l.report->min_curvature_radius.value * s); }},
        {"max_pressure_angle", "angle",
         [](Lobe l, double) { return Value(l.report->max_pressure_angle.value / per_degree); }},
        {"max_contact_stress_mpa", "MPa", stress},
        {"float_speed_rpm", "floats", [](Lobe l, double) { return l.report->float_speed_rpm; }},
        {"duration", "open", [](Lobe l, double) { return degrees(l.duration); }},
        {"overlap", "overlap", [](Lobe l, double) { return degrees(l.overlap); }},
    };
    return all;
}

std::optional<double> value_of(const Figure& figure, const ComparedLobe& lobe, Units units) {
    if (!lobe.report) return std::nullopt;
    return figure.value(lobe, 1.0 / mm_per(units));
}

std::optional<std::string> message_of(const ComparedLobe& lobe) {
    if (lobe.report) return std::nullopt;
    return sentence_of(lobe.complaints.front());
}

/// Three figures, as people read them.
std::string significant(std::optional<double> value) {
    if (!value) return {};
    if (*value == 0.0) return "0";
    return shortest_fixed(*value, std::clamp(2 - elementary::decimal_exponent(*value), 0, 9));
}

std::string csv_text(const std::vector<ComparedLobe>& lobes, Units units) {
    std::vector<std::string> heads{"profile", "law", "lobe"};
    for (const Figure& figure : figures())
        heads.emplace_back(figure.name);
    heads.emplace_back("message");
    std::string text = csv_line(heads);
    for (const ComparedLobe& lobe : lobes) {
        std::vector<std::string> cells{lobe.profile, lobe.law, lobe.lobe};
        for (const Figure& figure : figures()) {
            const auto value = value_of(figure, lobe, units);
            cells.push_back(value ? shortest_fixed(*value, 9) : std::string());
        }
        cells.push_back(message_of(lobe).value_or(""));
        text += csv_line(cells);
    }
    return text;
}

std::string json_text(const std::vector<ComparedLobe>& lobes, Units units) {
    JsonText json;
    json.object().member("units", units_key(units)).array("rows");
    for (const ComparedLobe& lobe : lobes) {
        json.object().member("profile", lobe.profile);
        json.member("law", lobe.law.empty() ? std::nullopt : std::optional(lobe.law));
        json.member("lobe", lobe.lobe);
        for (const Figure& figure : figures())
            json.member(figure.name, value_of(figure, lobe, units));
        json.member("message", message_of(lobe)).end();
    }
    json.end().end();
    return json.text();
}

/// Heads and cells for people: what is compared, then its figures; columns that no row fills are left out.
std::vector<std::vector<std::string>> cells_for_people(const std::vector<ComparedLobe>& lobes, Units units) {
    const bool laws = std::any_of(lobes.begin(), lobes.end(), [](const auto& l) { return !l.law.empty(); });
    std::vector<std::vector<std::string>> rows{{laws ? "law" : "profile", "lobe"}};
    for (const ComparedLobe& lobe : lobes)
        rows.push_back({laws ? lobe.law : lobe.profile, lobe.lobe});
    for (const Figure& figure : figures()) {
        if (figure.head == nullptr) continue;
        std::vector<std::string> column;
        for (const ComparedLobe& lobe : lobes) {
            const auto value = value_of(figure, lobe, units);
            const bool infinite = lobe.report && figure.value == jerk && !value;
            column.push_back(infinite ? "infinite" : significant(value));
        }
        const bool says_nothing = std::all_of(column.begin(), column.end(), [](const std::string& cell) {
            return cell.empty() || cell == "0";
        });
        if (says_nothing) continue;
        rows.front().emplace_back(figure.head);
        for (std::size_t i = 0; i < column.size(); ++i)
            rows[i + 1].push_back(std::move(column[i]));
    }
    return rows;
}

std::string legend(Units units) {
    return std::string("lengths in ") + units_noun(units) +
           ", the lift's derivatives by the degree of cam angle; area: lift × degrees; radius: the smallest; "
           "angle: of pressure, at most; floats: above that many rev/min of the crank; open, overlap: crank "
           "degrees where the timing card holds";
}

/// "cycloidal: ...", for each that can't be.
std::vector<std::string> reasons(const std::vector<ComparedLobe>& lobes) {
    std::vector<std::string> all;
    for (const ComparedLobe& lobe : lobes) {
        const auto message = message_of(lobe);
        if (message) all.push_back((lobe.law.empty() ? lobe.profile : lobe.law) + ": " + *message);
    }
    return all;
}

std::string markdown_text(const std::vector<ComparedLobe>& lobes, Units units) {
    const auto rows = cells_for_people(lobes, units);
    MarkdownTable table(rows.front());
    for (std::size_t i = 1; i < rows.size(); ++i)
        table.row(rows[i]);
    std::string text = paragraph(legend(units)) + '\n' + table.text();
    const std::vector<std::string> can_t_be = reasons(lobes);
    if (!can_t_be.empty()) text += '\n';
    for (const std::string& reason : can_t_be)
        text += bullet(reason);
    return text;
}

}  // namespace

std::string comparison_text(const Job& job, const std::vector<ComparedLobe>& lobes, TableFormat format) {
    if (format == TableFormat::csv) return csv_text(lobes, job.units);
    if (format == TableFormat::json) return json_text(lobes, job.units);
    return markdown_text(lobes, job.units);
}

std::string comparison_columns(const Job& job, const std::vector<ComparedLobe>& lobes) {
    const auto rows = cells_for_people(lobes, job.units);
    std::vector<ColumnStyle> styles(rows.front().size(), {Flush::right});
    styles[0].flush = styles[1].flush = Flush::left;
    std::string text = report_lines(legend(job.units), 0) + '\n' + in_columns(rows, styles);
    for (const std::string& reason : reasons(lobes))
        text += report_lines(reason, 2);
    return text;
}

}  // namespace lobewright
