/// Knots from retracted to retracted, with the room that each stretch of them has.
#pragma once

#include "toolpath/path/pass_frame.h"

#include <functional>
#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// Radial words between two, in steps.
struct WordRange {
    long long least = 0, most = 0;
};

/// Where else the knots of a stretch may lie. Places are those of travel, in steps.
struct Room {
    long long from = 0, to = 0;
    /// Whether a straight block between two knots may be; the knots' own words are within words().
    std::function<bool(const GridKnot&, const GridKnot&)> may_be;
    /// Words that a knot at a place may have, if any.
    std::function<std::optional<WordRange>(long long)> words;
    /// Whether the tolerance ends at its walls. If not, a word may lie off a straight block by its rounding.
    bool is_tolerance = false;
};

/// The knots, `by` steps of travel further on.
Knots moved_on(Knots knots, long long by);

struct KnotChain {
    Knots knots;
    std::vector<Room> rooms;  ///< in their order; a block lies within one of them
};

/// Within the tunnel, whose zero stands at `from`: from there to `to`.
Room room_in_tunnel(std::vector<Gate> gates, const GridRules& rules, long long from, long long to);

/// Not below the knots, no higher than the highest of them, and nowhere steeper than they are. `longest`:
/// steps of travel of a block; 0: any.
Room room_above(const Knots& knots, long long longest);

}  // namespace lobewright::toolpath
