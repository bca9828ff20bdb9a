/// Where a pass that lies in stock all round begins, and by which way the cutter gets there.
#pragma once

#include "toolpath/path/leads.h"

namespace lobewright::toolpath {

struct WayIn {
    Knots knots;          ///< from the air down; the knot on the surface, the contour's own, is left out
    long long start = 0;  ///< steps of travel, where the contour begins
    long long out = 0;    ///< steps of the lead-out after the contour
};

/// The first way in that begins not before the place `now` of travel: the lead-in on the heel (soonest_start)
/// where it comes down no steeper than 1 in 2. Where the stock is too much for the heel, the cutter comes
/// from the stock's outside along the lobe, over as much of a turn, or as many turns, as it takes to come
/// nearer to the surface by 1 in 5, and nowhere goes down by more than 1 in 2, the lobe's own fall with it;
/// at its end it lies along the surface's tangent on the heel. `drop`: mm over the surface on the heel, from
/// where it begins.
WayIn way_in(const PassFrame& frame, double drop, long long now);

/// The lead-in of a sector of roughing that begins at `start`: aslant from the bar's outside
/// (slanting_lead_in), or, where that would be all but a plunge, along the lobe likewise, from `drop` mm over
/// the ring.
Knots way_into_sector(const PassFrame& frame, long long start, double drop);

}  // namespace lobewright::toolpath
