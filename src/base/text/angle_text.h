/// Angles, senses and counts as text.
#pragma once

#include <lobewright/angle.h>

#include <string>

namespace lobewright {

/// Degrees with `decimals` at most, without needless zeros, the figure alone: "12.5".
std::string short_degrees(double degrees, int decimals = 3);
/// Degrees and minutes: "12° 30'", the minutes with `decimals`.
std::string degrees_and_minutes(double degrees, int decimals);
/// [0, 360), free of a rounding that would show as 360.
double full_circle_degrees(ShaftAngle angle);

/// "counter-clockwise" or "clockwise".
std::string sense_words(Sense sense);

/// "1 cut", "2 cuts", "3 passes".
std::string counted(long long count, const std::string& one, const std::string& several);
/// Likewise of a word that takes an s.
std::string counted(long long count, const std::string& one);

}  // namespace lobewright
