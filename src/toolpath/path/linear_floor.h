/// Keeps blocks away from radial motion so slow that a controller would run it faster than it is told.
///
/// Some controllers raise a block's feed until its linear motion is as fast as the slowest that they know. A
/// block that turns the shaft far while the radial word hardly moves then runs away with the rotary axis. So
/// each block either has no radial motion at all, or enough of it for its time.
#pragma once

#include "toolpath/path/pass_frame.h"

#include <functional>

namespace lobewright::toolpath {

/// Whether a straight block between two knots may be.
using MayBe = std::function<bool(const GridKnot&, const GridKnot&)>;

class LinearFloor {
  public:
    explicit LinearFloor(const PassFrame& frame)
        : frame_(frame), floor_(frame.setup().grid.least_linear_feed) {}

    /// Knots along the contour none of whose blocks runs away, as far as `may_be` lets them: a knot is moved
    /// to its neighbour's level, or the rise is made on a short stretch of its block, or that is halved
    /// first. The first and the last knot stay. `from`: steps of travel at the knots' zero.
    [[nodiscard]] Knots kept_along_contour(Knots knots, long long from, const MayBe& may_be) const;

    /// The knots of a lead from the first to the last of `knots`, of which none lies lower than they do.
    [[nodiscard]] Knots kept_above(const Knots& knots) const;

  private:
    /// Whether the block would be run faster than its time: its least time, by what accelerations add to it.
    [[nodiscard]] bool runs_away(const GridKnot& a, const GridKnot& b, bool along_contour,
                                 double added) const;
    /// The part of a block's turn within which its rise is fast enough.
    [[nodiscard]] long long fast_turn(const GridKnot& a, const GridKnot& b, bool along_contour,
                                      double added) const;
    [[nodiscard]] std::vector<double> added_times(const Knots& knots) const;

    const PassFrame& frame_;
    double floor_;  // mm/min
};

}  // namespace lobewright::toolpath
