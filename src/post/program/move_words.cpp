#include "post/program/move_words.h"

#include "base/whole_steps.h"
#include "post/program/program_lines.h"

#include <cmath>

namespace lobewright::post {
namespace {

int decimals_of(const AxisWord& word, Units units) {
    return units == Units::mm ? word.decimals_mm : word.decimals_inch;
}

long long power_of_ten(int exponent) {
    long long power = 1;
    for (int i = 0; i < exponent; ++i)
        power *= 10;
    return power;
}

/// The way of a block in the unit that F counts by under feed per minute: units of length, degrees, or both
/// mixed.
double counted_way(FeedCounts counts, Units units, const WordGrid& grid, const Words& from, const Words& to) {
    const double radial = static_cast<double>(to.radial - from.radial) * grid.radial_step / mm_per(units);
    const double axial = static_cast<double>(to.axial - from.axial) * grid.axial_step / mm_per(units);
    const double rotary = static_cast<double>(to.rotary - from.rotary) * grid.rotary_step;
    const double linear = radial * radial + axial * axial;
    if (counts == FeedCounts::mixed) return std::sqrt(linear + rotary * rotary);
    return linear > 0.0 ? std::sqrt(linear) : std::abs(rotary);
}

}  // namespace

AxisWords::AxisWords(const Dialect& dialect, Units units)
    : dialect_(dialect),
      units_(units),
      axes_{dialect.radial, dialect.axial, dialect.rotary},
      decimals_{decimals_of(dialect.radial, units), decimals_of(dialect.axial, units),
                dialect.rotary.decimals_mm},
      turn_(360 * power_of_ten(dialect.rotary.decimals_mm)) {}

std::vector<std::string> AxisWords::move_to(const Words& to) {
    if (to == at_) return {};
    const long long rotary_to = to.rotary == at_.rotary ? 0 : rotary_number(at_.rotary, to.rotary);
    std::vector<std::string> words = {word(0, to.radial), word(1, to.axial),
                                      to.rotary == at_.rotary
                                          ? (dialect_.repeat_axis_words ? printed_[2] : std::string())
                                          : word(2, rotary_to)};
    at_ = to;
    return words;
}

std::string AxisWords::radial(long long steps) {
    at_.radial = steps;
    return word(0, steps);
}

std::string AxisWords::axial(long long steps) {
    at_.axial = steps;
    return word(1, steps);
}

std::string AxisWords::side(double shift) const {
    if (!dialect_.side) return {};
    const AxisWord& axis = dialect_.side->word;
    const int decimals = decimals_of(axis, units_);
    const double word = (dialect_.side->positive == Sense::ccw ? shift : -shift) / mm_per(units_);
    const long long steps = nearest_step(word * static_cast<double>(power_of_ten(decimals)));
    return axis.letter + number_token(steps, decimals, dialect_);
}

void AxisWords::forget_places() {
    printed_[0].clear();
    printed_[1].clear();
}

std::string AxisWords::rotary(long long steps) {
    const long long number = rotary_number(steps - 1, steps);
    at_.rotary = steps;
    printed_[2].clear();
    return word(2, number);
}

long long AxisWords::rotary_number(long long from, long long to) const {
    if (dialect_.rotary_range == RotaryRange::runs_on) return to;
    const long long direction = ((to % turn_) + turn_) % turn_;
    if (dialect_.at_fold == RotaryFold::shorter_way) return direction;
    const long long not_zero = direction == 0 ? turn_ : direction;  // no sign shows on a zero
    return to > from ? not_zero : -not_zero;
}

std::string AxisWords::word(std::size_t axis, long long number) {
    std::string token = axes_[axis].letter + number_token(number, decimals_[axis], dialect_);
    if (token == printed_[axis] && !dialect_.repeat_axis_words) return {};
    printed_[axis] = token;
    return token;
}

FeedNumber feed_number(const Dialect& dialect, Units units, const WordGrid& grid, const Words& from,
                       const Words& to, double seconds) {
    const bool in_seconds =
        dialect.feed_mode == FeedMode::inverse_time && dialect.inverse_unit == InverseUnit::seconds;
    FeedNumber feed;
    if (in_seconds) {
        feed.exact = seconds;
    } else if (dialect.feed_mode == FeedMode::inverse_time) {
        feed.exact = 60.0 / seconds;
    } else {
        feed.exact = counted_way(*dialect.feed_counts, units, grid, from, to) / (seconds / 60.0);
    }
    const double unit = static_cast<double>(power_of_ten(dialect.feed_decimals));
    const double steps = feed.exact * unit;
    feed.steps = in_seconds ? step_above(steps) : step_below(steps);
    feed.printed = static_cast<double>(feed.steps) / unit;
    return feed;
}

}  // namespace lobewright::post
