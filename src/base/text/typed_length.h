/// Figures that the user can type; those in a remedy are rounded so that they do cure.
#pragma once

#include "base/text/length_text.h"

#include <string>

namespace lobewright {

/// A length as the user can type it.
struct TypedLength {
    std::string words;  ///< with its unit
    double mm = 0.0;    ///< what the job reader will make of it
};
/// The next typed length above (or below) `mm`, of sentence_decimals.
TypedLength typed_above(double mm, Units units);
TypedLength typed_below(double mm, Units units);

/// Degrees with 3 decimals, the next above or below.
std::string degrees_above(double radians);
std::string degrees_below(double radians);

}  // namespace lobewright
