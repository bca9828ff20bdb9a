/// Where a motion jumps from one piece to the next.
#pragma once

#include <lobewright/motion.h>

#include <vector>

namespace lobewright::profile {

/// Jumps of one derivative over the period: at how many joints, and the largest of them (the first of equal
/// ones).
struct JointSteps {
    int joints = 0;
    double largest = 0.0;  ///< in size; mm/rad or mm/rad²
    CamAngle at;
};

/// Jumps of the velocity: the acceleration is infinite there. A jump counts from `seen` of the derivative's
/// size (its largest at sixteenths of the pieces), so that the formulas' rounding is none.
JointSteps velocity_steps(const std::vector<MotionPiece>& pieces);
/// Jumps of the acceleration: the jerk is infinite there.
JointSteps acceleration_steps(const std::vector<MotionPiece>& pieces);
inline constexpr double seen = 1e-9;

}  // namespace lobewright::profile
