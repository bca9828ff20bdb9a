/// What work takes, as coarsely as it can be told.
#pragma once

#include <lobewright/units.h>

#include <string>

namespace lobewright::hand {

/// "40 min", "3.5 h": to five minutes, from an hour and a half on to half an hour.
std::string hours_words(double minutes);
/// "0.9 m", "3.1 ft": a way that a tool is fed in all.
std::string run_words(double mm, Units units);

}  // namespace lobewright::hand
