/// Figures for messages, in the user's units; those in a remedy are rounded so that they do cure.
#pragma once

#include <lobewright/job.h>

#include <string>

namespace lobewright {

/// Without needless zeros, with its unit: "2.4 mm", "0.09449 in".
std::string length_words(double mm, Units units);

/// The user's own figure, however small, with its unit.
std::string own_figure(double mm, Units units);

/// A length as the user can type it.
struct TypedLength {
    std::string words;  ///< with its unit
    double mm = 0.0;    ///< what the job reader will make of it
};
/// The next typed length above (or below) `mm`: 4 decimals in mm, 5 in inches.
TypedLength typed_above(double mm, Units units);
TypedLength typed_below(double mm, Units units);

/// Degrees with 3 decimals, the next above or below.
std::string degrees_above(double radians);
std::string degrees_below(double radians);

}  // namespace lobewright
