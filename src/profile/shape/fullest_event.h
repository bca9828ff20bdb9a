/// A fullest profile as a task for the programme, and its solution as pieces of a motion.
#pragma once

#include "profile/fullest/fullest_lift.h"
#include "profile/shape/lobe_shape.h"

#include <vector>

namespace lobewright::profile {

/// The task of the profile with these limits and its own angles; contact_stress is that of the narrowest lobe
/// of the profile. Required: the follower and the load that the limits ask for.
FullestTask fullest_task(const ShapeRequest& request, const FullestProfile& profile,
                         const FullestLimits& limits);

/// From the start of the opening ramp to the end of the closing ramp, α = 0 at the peak; a piece from knot to
/// knot.
std::vector<MotionPiece> fullest_event(const FullestProfile& profile, const LiftSpline& spline);

}  // namespace lobewright::profile
