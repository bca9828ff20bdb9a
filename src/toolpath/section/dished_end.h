/// A radial end mill whose end is hollow: its teeth rise from the corner towards the axis by `end_dish`, as
/// those of most end mills do, so that the corner leads.
///
/// The end is a cone that runs on from the corner's rounding along its tangent. With δ the dish, r the
/// corner's radius and w = R - r, a slice at the distance y from the cutter's axis stands over the tip by
///
///     f(x) = (w - √(x² + y²)) tan δ - r (1/cos δ - 1),      √(x² + y²) <= w - r sin δ.
///
/// It is lowest, and cuts deepest, where y is largest: in the lobe's faces. There a chord under f, over all
/// that the contact runs to the side, is the straight line of an inclined section: it touches as a flat does,
/// turned by its own angle, and never cuts too deep. What the lobe's middle (y = 0) then stands over it is
/// least beside the cutter's axis, where √(x² + y²) - |x| is small: that is what side_shift is for.
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/setup.h"

#include <lobewright/lobe.h>

#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// Whether the job's cutter stands radially and has a hollow end.
bool has_dished_end(const Setup& setup);

struct DishedEnd {
    PlaneSection section;  ///< inclined
    double proud = 0.0;    ///< mm that the lobe's middle stands over it at worst
};

/// The heel of a lobe runs under the middle of a square end, where the teeth stand all but still: it rubs, or
/// does not cut at all.
struct DeadMiddle {
    double least_shift = 0.0;    ///< mm of side_shift with which the heel keeps off it
    double off_all_round = 0.0;  ///< mm with which the whole lobe does
};
/// Nothing for other cutters, for those with a hollow end, and where the job's side_shift does it.
std::optional<DeadMiddle> dead_middle(const Setup& setup, const std::vector<SolvedLobe>& lobes);

/// The section with which the cutter's end touches this lobe from over its middle. DishTooDeep where it
/// would leave more than `allowed` mm, or the contact comes to the axis or to the corner.
Possible<DishedEnd> dished_end(const Setup& setup, const SolvedLobe& lobe, double allowed);

}  // namespace lobewright::toolpath
