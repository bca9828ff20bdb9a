/// Keeps blocks away from linear motion so slow that a controller would run it
/// faster than it is told.
///
/// Some controllers raise a block's feed until its linear motion is as fast as
/// the slowest that they know. A block that turns the shaft far while the
/// radial word hardly moves then runs away with the rotary axis, and so does a
/// short one that the controller's block rate holds up. So each block either
/// has no linear motion at all, or enough of it for its time.
#pragma once

#include "toolpath/path/joint_jumps.h"
#include "toolpath/path/knot_chain.h"

#include <limits>
#include <vector>

namespace lobewright::toolpath {

/// What a chain's times depend on.
struct ChainTiming {
    std::vector<PathBlock> before;  ///< blocks that come before its first knot
    BlockBetween block;
    BlockBetween laid;  ///< the same at the feed for which knots are laid out
    ChainRules rules;
    Steps steps;
    double floor = 0.0;  ///< mm/min, of the linear motion of a block; 0: any
    double radius = std::numeric_limits<double>::infinity();  ///< mm, of the lobe where it is smallest
};

/// The knots of the chain, eased (see joint_jumps.h), so that by their times none of their blocks runs away,
/// or as few as can be found: round those that would, other knots are looked for in the room that they have,
/// which make the quickest way without such blocks; what that changes in the times of the blocks beside them
/// is looked at again. The first and the last knot of each room stay, and those between two level blocks.
Knots kept_over_floor(KnotChain chain, const ChainTiming& timing);

/// What no other knots could cure.
struct RunsAway {
    std::size_t lobe = 0;  ///< index in the solved lobes, of the first
    int blocks = 0;
};
std::optional<RunsAway> runs_away(const Toolpath& path);

}  // namespace lobewright::toolpath
