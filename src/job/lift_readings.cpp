#include "job/lift_readings.h"

#include "base/columns.h"
#include "job/job_table.h"

#include <lobewright/number_text.h>

#include <cmath>

namespace lobewright {
namespace {

constexpr double largest_angle = 720.0;
const std::vector<std::string> table_columns = {
    "cam_angle",    "shaft_angle", "lift",      "velocity",         "acceleration",  "jerk",
    "polar_radius", "contact_x",   "contact_y", "curvature_radius", "pressure_angle"};

}  // namespace

Outcome<std::vector<Reading>> read_lift_readings(const std::string& text, const std::string& file,
                                                 Units units) {
    const auto columns = read_columns(text, file, {{"cam_angle", "lift"}, table_columns});
    if (!columns) return columns.diagnostics();
    const std::size_t angle = columns->find("cam_angle").value_or(0);
    const std::size_t lift = columns->find("lift").value_or(0);
    std::vector<Reading> readings;
    Diagnostics complaints;
    for (const ColumnRow& row : columns->rows) {
        const Reading reading{CamAngle::from_degrees(row.cells[angle]), row.cells[lift] * mm_per(units),
                              row.place};
        readings.push_back(reading);
        const auto refuse = [&](const std::string& what, const std::string& remedy) {
            complaints.push_back(
                {Fault::bad_input, Severity::error, "out-of-range", what, remedy, row.place});
        };
        if (std::abs(row.cells[angle]) > largest_angle) {
            refuse("the cam angle is " + shortest_fixed(row.cells[angle], 9),
                   "give degrees from -720 to 720");
        }
        if (std::abs(reading.lift) > any_length.highest) {
            refuse("the lift is " + shortest_fixed(row.cells[lift], 9),
                   "give lengths of less than ten metres");
        }
    }
    if (!complaints.empty()) return complaints;
    return readings;
}

}  // namespace lobewright
