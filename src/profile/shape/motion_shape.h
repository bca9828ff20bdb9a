/// The common end of all shapes whose motion is known: the contour follows from it.
#pragma once

#include "profile/shape/cure.h"
#include "profile/shape/lobe_shape.h"

#include <vector>

namespace lobewright::profile {

/// The lobe that gives the request's follower these pieces of motion, which fill the period, over
/// choice.base_radius; refused with what cures it, by `works`.
Outcome<SolvedLobe> shape_from_motion(const ShapeRequest& request, const ShapeChoice& choice,
                                      const Works& works, bool lift_may_change,
                                      std::vector<MotionPiece> pieces, CamAngle action);

}  // namespace lobewright::profile
