/// How long something takes, in words for people.
#pragma once

#include <string>

namespace lobewright {

/// "48.7 s" below a minute, "28 min 02 s" from there on. Required: seconds is finite and not negative.
std::string duration_words(double seconds);

}  // namespace lobewright
