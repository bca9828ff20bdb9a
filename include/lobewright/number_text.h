/// Numbers to text and back, the same in every locale and on every machine.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace lobewright {

/// `value` with exactly `decimals` places, rounded to nearest, a tie (to within rounding noise) away from
/// zero; no exponent, never "-0". Required: value is finite; to print one that isn't is a bug of the
/// caller's, thrown as std::logic_error.
std::string fixed(double value, int decimals);

/// As `fixed`, without trailing zeros (and without a bare point): "12", "0.5". For reports, csv and json, 9
/// by examples/job-file.md.
std::string shortest_fixed(double value, int most_decimals);

/// An integer count of 10^-decimals as a decimal number: digits(-12345, 4) is "-1.2345". Exact, whatever the
/// size.
std::string digits(long long steps, int decimals);

/// The whole of `text` as a decimal number (optional sign, no exponent, no "inf" or "nan"); nothing if it is
/// not one.
std::optional<double> parse_decimal(std::string_view text);

}  // namespace lobewright
