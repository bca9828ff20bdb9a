#include "post/program/dialect_fit.h"

#include <algorithm>
#include <cmath>

namespace lobewright::post {

void DialectFit::add_turn(double degrees) {
    longest_turn = std::max(longest_turn, degrees);
}

void DialectFit::add_rotary_word(double degrees) {
    farthest = std::max(farthest, degrees);
}

void DialectFit::add_feed(const Dialect& dialect, const FeedNumber& number, double seconds) {
    if (number.steps <= 0 || (dialect.feed_lowest && number.printed < *dialect.feed_lowest)) {
        if (!too_slow || number.exact < too_slow->exact) too_slow = {number.exact, seconds};
        return;
    }
    if (dialect.feed_highest && number.printed > *dialect.feed_highest) {
        if (!too_fast || number.exact > too_fast->exact) too_fast = {number.exact, seconds};
    }
    slowed = std::max(slowed, std::abs(number.exact / number.printed - 1.0));
}

}  // namespace lobewright::post
