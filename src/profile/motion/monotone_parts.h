/// Where a motion rises, falls and rests.
#pragma once

#include <lobewright/motion.h>

#include <cstddef>
#include <vector>

namespace lobewright::profile {

/// Of a motion: the lift grows, falls, or stays.
enum class Phase { rise, fall, dwell };

/// A part of one piece on which the lift only rises, only falls, or stays.
struct MonotonePart {
    std::size_t piece = 0;
    Interval angles;  ///< radians
    Phase phase = Phase::dwell;
};

/// All parts, in the order of time, joined end to end. Proven by the pieces' bounds, and the turning points
/// found as roots of the velocity; a stretch of less than `shortest_turning`, in which the follower all but
/// stands, counts as what it does in its middle.
std::vector<MonotonePart> monotone_parts(const std::vector<MotionPiece>& pieces);
inline constexpr double shortest_turning =
    1e-6;  ///< radians: what lies in it moves the lift by less than `turning_lift`
inline constexpr double turning_lift = 1e-10;  ///< of the greatest lift

/// The greatest lift, and where it is first (there is always a place).
FigureAt highest_lift(const std::vector<MotionPiece>& pieces);

/// A piece's bounds on a stretch, made tight by the values in its middle: each derivative stays as near to
/// that as the next one allows.
LiftBounds tight_bounds(const MotionPiece& piece, const Interval& angles, const LiftBounds& in_middle);

}  // namespace lobewright::profile
