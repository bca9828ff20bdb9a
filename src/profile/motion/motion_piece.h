/// Pieces of a motion from formulas of the lift. This room holds motions as such, whatever made them: their
/// pieces, their rises, falls and rests.
#pragma once

#include "base/taylor.h"

#include <lobewright/motion.h>

#include <string>

namespace lobewright::profile {

/// Radians. Angles that the file gives are one where they differ by less: a turn's last bits are 4e-16 of it,
/// and an event is the sum of half a dozen of them.
inline constexpr double angle_rounding = 1e-12;

/// The lift by the cam angle with what a motion tells of it, and with what bounds it.
using LiftSeries = Taylor<double, 3>;
using LiftBoundSeries = Taylor<Interval, std::tuple_size_v<LiftBounds> - 1>;

Lift lift_of(const LiftSeries& series);
LiftBounds bounds_of(const LiftBoundSeries& series);

/// A piece whose lift is `formula`, which takes either series of the cam angle in radians and gives the
/// lift's.
template <class Formula>
MotionPiece piece_of(std::string name, double start, double end, Formula formula) {
    return {
        std::move(name), start, end,
        [formula](double alpha) { return lift_of(formula(LiftSeries::variable(alpha))); },
        [formula](const Interval& alpha) { return bounds_of(formula(LiftBoundSeries::variable(alpha))); }};
}

/// The follower stands still.
MotionPiece standing_piece(std::string name, double start, double end, double lift);

/// The piece with its angle counted anew: at α it does what `piece` does at sense × (α - from). sense: +1 or
/// -1, which runs it backwards.
MotionPiece recounted(const MotionPiece& piece, double sense, double from);

}  // namespace lobewright::profile
