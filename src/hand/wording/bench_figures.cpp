#include "hand/wording/bench_figures.h"

#include "base/elementary/elementary.h"
#include "base/whole_steps.h"

#include <lobewright/number_text.h>

#include <cmath>

namespace lobewright::hand {
namespace {

/// The last of the nine decimals that outputs have: what is nearer than that to a whole turn would show as
/// 360.
constexpr double least_told_degrees = 1e-9;

}  // namespace

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

std::string part_name(HandPart part) {
    switch (part) {
        case HandPart::heel:
            return "heel";
        case HandPart::facet:
            return "facet";
        default:
            return flank_word(part) + " flank";
    }
}

std::string flank_word(HandPart flank) {
    return flank == HandPart::opening_flank ? "opening" : "closing";
}

std::string counted(long long count, const std::string& word) {
    return std::to_string(count) + ' ' + word + (count == 1 ? "" : "s");
}

double full_circle_degrees(ShaftAngle angle) {
    const double degrees = angle.degrees();
    const double rest = degrees - 360.0 * std::floor(degrees / 360.0);
    return rest > 360.0 - least_told_degrees ? 0.0 : rest;
}

}  // namespace lobewright::hand
