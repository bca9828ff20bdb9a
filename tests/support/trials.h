/// How many random cases a test tries.
#pragma once

#include <algorithm>
#include <cstdlib>

#if defined(NDEBUG) && !defined(__SANITIZE_ADDRESS__)
inline constexpr bool at_full_speed = true;
#else
inline constexpr bool at_full_speed = false;  // debug and sanitizer builds take ten times as long
#endif

/// All that are asked for; in the slow builds a fifteenth of them, but five at least.
constexpr int trials(int all) {
    return at_full_speed ? all : std::max(std::min(all, 5), all / 15);
}

/// The same where each case takes seconds: in the slow builds, which ask other things, one may be all.
constexpr int costly_trials(int all) {
    return at_full_speed ? all : std::max(1, all / 15);
}

/// So many, or what the environment's variable asks for: the same test as a campaign of hours.
inline int campaign(const char* variable, int ordinary) {
    const char* asked = std::getenv(variable);
    return asked != nullptr ? std::max(1, std::atoi(asked)) : ordinary;
}
