#include "base/elementary/elementary.h"
#include "base/whole_steps.h"
#include "post/dialect/blend_decimals.h"

#include <lobewright/dialect.h>

#include <algorithm>

namespace lobewright {
namespace {

/// What the controller takes, and what of it single precision holds; a folded word never grows.
double largest_rotary_of(const Dialect& dialect) {
    const double largest = dialect.largest_rotary;
    if (dialect.reckoning != Reckoning::single_precision || dialect.rotary_range == RotaryRange::folded)
        return largest;
    return largest > 0.0 ? std::min(largest, single_precision_reach) : single_precision_reach;
}

double last_decimal_of(int decimals) {
    return elementary::power(10.0, -decimals);
}

/// As much of it as the word for it tells, which is never more.
double blend_in_words(double blend, Units units) {
    const double step = last_decimal_of(blend_decimals.of(units)) * mm_per(units);
    return static_cast<double>(step_below(blend / step)) * step;
}

}  // namespace

double last_decimal(const AxisWord& word, Units units) {
    return last_decimal_of(units == Units::mm ? word.decimals_mm : word.decimals_inch) * mm_per(units);
}

WordGrid word_grid(const Dialect& dialect, Units units, double blend) {
    const auto step = [&](const AxisWord& word) {
        const double one = last_decimal(word, units);
        return word.diameter ? one / 2.0 : one;
    };
    WordGrid grid;
    grid.radial_step = step(dialect.radial);
    grid.axial_step = step(dialect.axial);
    grid.rotary_step = last_decimal_of(dialect.rotary.decimals_mm);
    grid.longest_rotary_block = dialect.longest_rotary_block;
    grid.largest_rotary = largest_rotary_of(dialect);
    if (dialect.feed_mode == FeedMode::inverse_time)
        grid.least_linear_feed = dialect.least_linear_feed * mm_per(units);
    if (!dialect.blend_word.empty()) grid.blend_tolerance = blend_in_words(blend, units);
    return grid;
}

}  // namespace lobewright
