/// Lengths and angles as the bench reads them.
#pragma once

#include "job/typed_length.h"

#include <lobewright/hand.h>

#include <string>

namespace lobewright::hand {

/// "mm" or "in".
std::string unit_word(Units units);
/// With the decimals of a read-out: 3 of a mm, 4 of an inch; no unit.
std::string length_figure(double mm, Units units);
/// Degrees with `decimals` at most, without needless zeros: "12.5".
std::string degrees_figure(double degrees, int decimals = 3);
/// Degrees and minutes: "12° 30'", the minutes with `decimals`.
std::string degrees_and_minutes(double degrees, int decimals);
/// "opening flank", "closing flank", "heel", "facet".
std::string part_name(HandPart part);
/// "opening" or "closing".
std::string flank_word(HandPart flank);
/// "1 cut", "2 cuts": the word with an s where the count asks for it.
std::string counted(long long count, const std::string& word);
/// [0, 360), free of a rounding that shows as 360.
double full_circle_degrees(ShaftAngle angle);

}  // namespace lobewright::hand
