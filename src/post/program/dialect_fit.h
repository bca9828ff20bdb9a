/// What of a program a dialect can't take, or takes less exactly than planned: facts and figures. What is
/// said of them stands in program_refusals.h.
#pragma once

#include "post/program/move_words.h"

#include <optional>
#include <string>

namespace lobewright::post {

/// A block whose F is out of the dialect's range.
struct FeedOutOfRange {
    double exact = 0.0;    ///< the number that it needs
    double seconds = 0.0;  ///< that it is to take
};

struct DialectFit {
    double longest_turn = 0.0;               ///< degrees, of a feed block
    double farthest = 0.0;                   ///< degrees, of a rotary word from zero
    std::optional<FeedOutOfRange> too_slow;  ///< the slowest
    std::optional<FeedOutOfRange> too_fast;  ///< the fastest
    double slowed = 0.0;                     ///< most that rounding of F changes a block's time by, relative
    std::string too_long_line;               ///< the first; empty: none

    void add_turn(double degrees);
    void add_rotary_word(double degrees);
    void add_feed(const Dialect& dialect, const FeedNumber& number, double seconds);
};

}  // namespace lobewright::post
