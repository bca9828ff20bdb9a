/// More knots where long blocks would make an axis's speed jump at their joint.
#pragma once

#include "toolpath/path/block_timing.h"
#include "toolpath/tunnel/grid_path.h"

#include <functional>

namespace lobewright::toolpath {

/// The block between two knots of a path, for its speeds at the wanted feed.
using BlockBetween = std::function<PathBlock(const GridKnot&, const GridKnot&)>;

/// As path_on_grid; and where limits.radial_jump or rotary_jump is given, with knots enough that at the
/// wanted feed no axis's speed steps by more at a joint, as far as the path's own bends make it step. A step
/// is as long as the blocks beside it, and these as the root of the tunnel's width: so the tunnel is drawn in
/// by the square of the excess where a joint exceeds, and the path is sought again. Blocks are not made
/// shorter than blocks_per_second allows, nor the tunnel narrower than the grid; half a step of the grid is
/// left free for eased().
std::optional<std::vector<GridKnot>> path_with_small_jumps(const std::vector<Gate>& gates,
                                                           const GridRules& rules, const BlockBetween& block,
                                                           const AxisLimits& limits);

/// Where the wanted speed itself steps (at a change of the lobe's curvature the same feed asks for another
/// speed of turning; and from rest, before the first block and after the last), the blocks beside the joint
/// are cut into short ones, over which the feed can ebb and rise (see block_times) instead of over the whole
/// of them. Without limits on jumps, the path as it is. `may_be`: whether a block may be, where that is not
/// sure; knots whose rounding makes one that may not are left out.
using BlockMayBe = std::function<bool(const GridKnot&, const GridKnot&)>;
std::vector<GridKnot> eased(const std::vector<GridKnot>& path, const BlockBetween& block,
                            const AxisLimits& limits, Steps steps, const BlockMayBe& may_be = {});

}  // namespace lobewright::toolpath
