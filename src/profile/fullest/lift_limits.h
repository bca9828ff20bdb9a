/// What a lift must keep everywhere, as functions of lift, velocity, acceleration and jerk at one angle.
///
/// This room holds the lift with the largest area under limits: the programme, its solver, and what would do
/// where limits stand in the way.
#pragma once

#include "profile/fullest/lift_spline.h"

#include <lobewright/job.h>
#include <lobewright/lobe.h>

#include <functional>
#include <vector>

namespace lobewright::profile {

/// By how much a limit is exceeded at an angle, as a part of it (0 or less: kept), and what that changes by
/// with lift, velocity, acceleration and jerk.
struct Excess {
    double value = 0.0;
    LiftWeights slopes{};
};

struct LiftLimit {
    FullestLimit name = FullestLimit::jerk;
    bool linear = true;  ///< the slopes are the same everywhere
    std::function<Excess(const Lift&)> excess;
};

/// Whose limits they are.
struct LimitedFollower {
    const Follower* follower = nullptr;
    double base_radius = 0.0;
    double width = 0.0;  ///< mm, of the contact
    Sense turns = Sense::ccw;
    const ContactLoad* load = nullptr;  ///< for contact_stress and float_speed
    double cam_speed = 0.0;             ///< rad/s at the load's crank speed
    double cam_per_crank = 0.5;
};

/// All that are given. Linear are those of the motion itself and of the float, as the spring's force and the
/// inertia's are; radius and stress under a flat face square to its way or tilted, whose speed ds/dβ goes by
/// b + (l + a) cos ε; the others by ContactFigures. Required: a follower for smallest_radius and
/// contact_stress (no knife), a load for contact_stress and float_speed.
std::vector<LiftLimit> lift_limits(const FullestLimits& limits, const LimitedFollower& on);

}  // namespace lobewright::profile
