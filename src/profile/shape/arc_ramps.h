/// Ramps that lead from a base circle that is cut deeper to the flanks of arcs.
#pragma once

#include "profile/shape/cannot_be.h"

#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <variant>
#include <vector>

namespace lobewright::profile {

/// `event`, whose flanks begin and end at the lift that the deeper base circle adds, with a ramp on either
/// side: each flank is left where it is, from where it runs at its ramp's speed, and the ramp's run is its
/// tangent there, back to the quarter in which the ramp takes up its speed.
std::variant<std::vector<MotionPiece>, ArcRampTooFast> with_ramps(const std::vector<MotionPiece>& event,
                                                                  const ArcRamps& ramps);

}  // namespace lobewright::profile
