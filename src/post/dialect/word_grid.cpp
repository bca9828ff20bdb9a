#include "base/elementary/elementary.h"

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

}  // namespace

WordGrid word_grid(const Dialect& dialect, Units units, double blend) {
    const auto last_decimal = [](int decimals) { return elementary::power(10.0, -decimals); };
    const auto step = [&](const AxisWord& word) {
        const double one =
            last_decimal(units == Units::mm ? word.decimals_mm : word.decimals_inch) * mm_per(units);
        return word.diameter ? one / 2.0 : one;
    };
    WordGrid grid;
    grid.radial_step = step(dialect.radial);
    grid.axial_step = step(dialect.axial);
    grid.rotary_step = last_decimal(dialect.rotary.decimals_mm);
    grid.longest_rotary_block = dialect.longest_rotary_block;
    grid.largest_rotary = largest_rotary_of(dialect);
    if (dialect.feed_mode == FeedMode::inverse_time)
        grid.least_linear_feed = dialect.least_linear_feed * mm_per(units);
    grid.blend_tolerance = dialect.blend_word.empty() ? 0.0 : blend;
    return grid;
}

}  // namespace lobewright
