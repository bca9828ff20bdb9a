/// Doubles to decimal digits and back by whole numbers alone: exact in every case, and so the same
/// everywhere. Not every standard library has std::to_chars and std::from_chars of doubles.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace lobewright {

/// d.ddd times ten to the power of `exponent`, without trailing zeros; zero has one digit.
struct ShortestDecimal {
    std::string digits;
    int exponent = 0;
};

/// Of |value| the fewest digits from which `nearest_double` makes it again; of several numbers with as many,
/// the nearest. Required: value is finite.
ShortestDecimal shortest_decimal(double value);

/// The shortest decimal as "-1.25e-07": two digits of the exponent at least.
std::string scientific_text(double value);

/// `value` with exactly `decimals` places, not negative, rounded to the nearest, a tie of the double's exact
/// value to the even digit. Required: value is finite.
std::string exactly_fixed(double value, int decimals);

/// The whole of `text`, "-12.5", ".5", "5." or "1.25e-7", as the double nearest to it, a tie to the even one;
/// nothing where it is no number, is larger than every double, or comes to zero without being zero.
std::optional<double> nearest_double(std::string_view text);

}  // namespace lobewright
