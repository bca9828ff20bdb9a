#include "base/text/csv.h"
#include "base/text/json_text.h"
#include "base/text/length_text.h"
#include "base/text/markdown.h"

#include <lobewright/lift_table.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

namespace lobewright {
namespace {

constexpr double per_degree = std::numbers::pi / 180.0;

/// mm: no cutter and no gauge can tell so large a radius from a straight line.
constexpr double straight_beyond = 1e9;

/// Degrees: a last step shorter than this is none, but the rounding of the steps before it.
constexpr double sliver = 1e-9;

LiftRow row_at(const SolvedLobe& lobe, CamAngle angle) {
    const FollowerContact follower = contact_at(lobe, angle);
    LiftRow row;
    row.cam_angle = angle;
    row.shaft_angle = follower.facing;
    row.lift = follower.lift;
    row.polar_radius = lobe.contour.polar_radius(follower.facing - lobe.at);
    row.contact = follower.contact.point;
    const double curvature = follower.contact.curvature;
    row.curvature_radius = std::abs(curvature) * straight_beyond < 1.0
                               ? std::numeric_limits<double>::infinity()
                               : 1.0 / curvature;
    row.pressure_angle = follower.pressure_angle;
    return row;
}

/// One column: its name in csv and json (examples/job-file.md), what it holds (in degrees or in `units`), and
/// what a reader can use of it.
struct Column {
    const char* name;
    bool is_length;
    int decimals_mm;  // in markdown; one more for inches
    double (*value)(const LiftRow&);
};

// clang-format off
constexpr std::array<Column, 11> columns{{
    {"cam_angle",        false, 2, [](const LiftRow& r) { return r.cam_angle.degrees(); }},
    {"shaft_angle",      false, 2, [](const LiftRow& r) { return r.shaft_angle.degrees(); }},
    {"lift",             true,  4, [](const LiftRow& r) { return r.lift.lift; }},
    {"velocity",         true,  5, [](const LiftRow& r) { return r.lift.velocity * per_degree; }},
    {"acceleration",     true,  6, [](const LiftRow& r) { return r.lift.acceleration * per_degree * per_degree; }},
    {"jerk",             true,  7, [](const LiftRow& r) { return r.lift.jerk * per_degree * per_degree * per_degree; }},
    {"polar_radius",     true,  4, [](const LiftRow& r) { return r.polar_radius; }},
    {"contact_x",        true,  4, [](const LiftRow& r) { return r.contact.x; }},
    {"contact_y",        true,  4, [](const LiftRow& r) { return r.contact.y; }},
    {"curvature_radius", true,  3, [](const LiftRow& r) { return r.curvature_radius; }},
    {"pressure_angle",   false, 2, [](const LiftRow& r) { return r.pressure_angle / per_degree; }},
}};
// clang-format on

/// In the job's units; nothing for the radius of a straight line.
std::optional<double> told(const Column& column, const LiftRow& row, Units units) {
    const double value = column.value(row);
    if (std::isinf(value)) return std::nullopt;
    return value / (column.is_length ? mm_per(units) : 1.0);
}

std::vector<std::string> column_names() {
    std::vector<std::string> names;
    for (const Column& column : columns)
        names.emplace_back(column.name);
    return names;
}

std::string csv(const std::vector<LiftRow>& rows, Units units) {
    std::string text = csv_line(column_names());
    for (const LiftRow& row : rows) {
        std::vector<std::string> fields;
        for (const Column& column : columns) {
            const auto value = told(column, row, units);
            fields.push_back(value ? shortest_fixed(*value, 9) : std::string());
        }
        text += csv_line(fields);
    }
    return text;
}

std::string json(const std::vector<LiftRow>& rows, const SolvedLobe& lobe, Units units) {
    JsonText json;
    json.object().member("lobe", lobe.name).member("units", units_key(units)).array("rows");
    for (const LiftRow& row : rows) {
        json.object({}, JsonText::Layout::one_line);
        for (const Column& column : columns)
            json.member(column.name, told(column, row, units));
        json.end();
    }
    json.end().end();
    return json.text();
}

/// The name without what would end a heading's line or a cell.
std::string one_line(std::string name) {
    std::replace_if(
        name.begin(), name.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
    return name;
}

std::string markdown(const std::vector<LiftRow>& rows, const SolvedLobe& lobe, Units units) {
    MarkdownTable table(column_names());
    for (const LiftRow& row : rows) {
        std::vector<std::string> cells;
        for (const Column& column : columns) {
            const auto value = told(column, row, units);
            const int decimals = column.decimals_mm + (column.is_length && units == Units::inch ? 1 : 0);
            cells.push_back(value ? fixed(*value, decimals) : std::string());
        }
        table.row(std::move(cells));
    }
    return heading(one_line(lobe.name)) + "Lengths in " + units_noun(units) +
           "; velocity, acceleration and jerk per degree of cam angle, its square and its cube; angles in " +
           "degrees.\n\n" + table.text();
}

}  // namespace

std::vector<LiftRow> lift_table(const SolvedLobe& lobe, CamAngle every) {
    std::vector<LiftRow> rows;
    for (int i = 0; i * every.degrees() < 360.0 - sliver; ++i) {
        rows.push_back(row_at(lobe, CamAngle::from_degrees(-180.0 + i * every.degrees())));
    }
    rows.push_back(row_at(lobe, CamAngle::from_degrees(180.0)));
    return rows;
}

std::string lift_table_text(const std::vector<LiftRow>& rows, const SolvedLobe& lobe, Units units,
                            TableFormat format) {
    switch (format) {
        case TableFormat::csv:
            return csv(rows, units);
        case TableFormat::json:
            return json(rows, lobe, units);
        case TableFormat::markdown:
            return markdown(rows, lobe, units);
    }
    return {};
}

}  // namespace lobewright
