#include "base/text/angle_text.h"

#include "base/elementary/elementary.h"
#include "base/whole_steps.h"

#include <lobewright/number_text.h>

#include <cmath>

namespace lobewright {
namespace {

/// The last of the nine decimals that outputs have: what is nearer than that to a whole turn would show as
/// 360.
constexpr double least_told_degrees = 1e-9;

}  // namespace

std::string short_degrees(double degrees, int decimals) {
    return shortest_fixed(degrees, decimals);
}

std::string degrees_and_minutes(double degrees, int decimals) {
    const double grid = elementary::power(10.0, decimals);
    const double minutes = static_cast<double>(nearest_step(std::abs(degrees) * 60.0 * grid)) / grid;
    const double whole = std::floor(minutes / 60.0);
    const std::string sign = degrees < 0.0 && minutes > 0.0 ? "-" : "";
    return sign + fixed(whole, 0) + "° " + fixed(minutes - 60.0 * whole, decimals) + "'";
}

double full_circle_degrees(ShaftAngle angle) {
    const double degrees = angle.degrees();
    const double rest = degrees - 360.0 * std::floor(degrees / 360.0);
    return rest > 360.0 - least_told_degrees ? 0.0 : rest;
}

std::string sense_words(Sense sense) {
    return sense == Sense::ccw ? "counter-clockwise" : "clockwise";
}

std::string counted(long long count, const std::string& one, const std::string& several) {
    return std::to_string(count) + ' ' + (count == 1 ? one : several);
}

std::string counted(long long count, const std::string& one) {
    return counted(count, one, one + 's');
}

}  // namespace lobewright
