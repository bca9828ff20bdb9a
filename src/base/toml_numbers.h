/// Numbers as people write them that a TOML text can't have.
#pragma once

#include <string>
#include <string_view>

namespace lobewright {

/// The decimals of a fraction, "1/2" or "17 1/2"; empty where it is none.
std::string decimals_of(std::string_view fraction);

/// More digits than a whole number of 64 bits has, or an exponent, "e400", behind a number that no double
/// holds.
bool is_too_large(std::string_view digits, std::string_view after);

}  // namespace lobewright
