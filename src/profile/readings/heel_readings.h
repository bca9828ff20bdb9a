/// Where a lift table lies on the base circle, and how it lies there.
#pragma once

#include "profile/readings/ordered_readings.h"
#include "profile/readings/reading_limits.h"

namespace lobewright::profile {

/// What readings on the base circle may be off it and still be taken for scatter, of the lobe's height.
inline constexpr double most_scatter = 0.01;

/// Readings side by side round the ring.
struct ReadingRun {
    std::size_t first = 0;  ///< index of the first, and
    std::size_t count = 0;  ///< how many; the last may lie past the ring's end
    double span = 0.0;      ///< radians, gaps without readings within it too
    double low = 0.0;       ///< least and greatest lift, mm
    double high = 0.0;

    [[nodiscard]] bool holds(std::size_t i, std::size_t ring) const {
        return (i + ring - first) % ring < count;
    }
};

struct Heel {
    enum class State {
        none,       ///< the lift only touches its least: the lobe has no base circle
        at_zero,    ///< the readings there are zero, within the limit
        scattered,  ///< they stand about zero, some of them (those in `off`) farther than the limit
        off_zero,   ///< they agree within the limit, about another lift than zero
        uneven      ///< they do not agree within the limit
    };
    State state = State::none;
    ReadingRun run;                ///< the readings on the base circle
    std::vector<std::size_t> off;  ///< scattered: which, ascending from the run's first
};

/// The base circle is at least a twelfth of the period, and its readings lie within a hundredth of the lobe's
/// height; what scatters more than the limit allows must go on for a sixth, so that the slow bottom of an
/// eccentric's lift (within a hundredth of its height for 23 degrees) is not taken for it. In a number of
/// steps that grows with the readings.
Heel heel_of(const ReadingRing& ring, const ReadingLimits& limits);

}  // namespace lobewright::profile
