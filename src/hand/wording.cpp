#include "hand/wording.h"

#include "base/elementary/elementary.h"
#include "base/whole_steps.h"

#include <lobewright/number_text.h>

#include <cmath>

namespace lobewright::hand {

std::string unit_word(Units units) {
    return units == Units::mm ? "mm" : "in";
}

std::string length_figure(double mm, Units units) {
    return fixed(mm / mm_per(units), units == Units::mm ? 3 : 4);
}

std::string degrees_figure(double degrees, int decimals) {
    return shortest_fixed(degrees, decimals);
}

std::string degrees_and_minutes(double degrees, int decimals) {
    const double grid = elementary::power(10.0, decimals);
    const double minutes = static_cast<double>(nearest_step(std::abs(degrees) * 60.0 * grid)) / grid;
    const double whole = std::floor(minutes / 60.0);
    const std::string sign = degrees < 0.0 && minutes > 0.0 ? "-" : "";
    return sign + fixed(whole, 0) + "° " + fixed(minutes - 60.0 * whole, decimals) + "'";
}

std::string counted(long long count, const std::string& word) {
    return std::to_string(count) + ' ' + word + (count == 1 ? "" : "s");
}

double full_circle_degrees(ShaftAngle angle) {
    const double degrees = angle.degrees();
    const double rest = degrees - 360.0 * std::floor(degrees / 360.0);
    return rest > 360.0 - 1e-9 ? 0.0 : rest;
}

}  // namespace lobewright::hand
