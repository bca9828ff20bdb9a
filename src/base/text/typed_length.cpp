#include "base/text/typed_length.h"

#include <lobewright/number_text.h>

#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

/// Rounding's own share of a figure; a limit that is itself a round number counts as just missed.
constexpr double slack = 1e-3;

double steps_in_one(Units units) {
    return units == Units::mm ? 1e4 : 1e5;
}

TypedLength typed(double steps, Units units) {
    const double value = steps / steps_in_one(units);
    return {with_unit(shortest_fixed(value, sentence_decimals.of(units)), units), value * mm_per(units)};
}

double steps_of(double mm, Units units) {
    return mm / mm_per(units) * steps_in_one(units);
}

double thousandths_of_a_degree(double radians) {
    return radians * (180e3 / std::numbers::pi);
}

}  // namespace

TypedLength typed_above(double mm, Units units) {
    return typed(std::ceil(steps_of(mm, units) + slack), units);
}
TypedLength typed_below(double mm, Units units) {
    return typed(std::floor(steps_of(mm, units) - slack), units);
}

std::string degrees_above(double radians) {
    return shortest_fixed(std::ceil(thousandths_of_a_degree(radians) + slack) / 1e3, 3);
}
std::string degrees_below(double radians) {
    return shortest_fixed(std::floor(thousandths_of_a_degree(radians) - slack) / 1e3, 3);
}

}  // namespace lobewright
