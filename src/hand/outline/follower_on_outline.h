/// The lift of a follower that rides on a contour cut by hand, exactly: on its arcs, flats, hollows and
/// corners.
#pragma once

#include "hand/outline/outline.h"

#include <lobewright/job.h>

namespace lobewright::hand {

/// Lift in mm above a base circle of `base_radius`, with shaft direction `facing` towards the follower: the
/// largest at which the follower touches. A flat face is taken as wide enough; a knife is a roller of no
/// radius. For a translating round follower the centre runs along the line `offset` beside the axis; for a
/// pivoted one along its arm's arc, and the lift is the length of that arc. Required: the follower reaches
/// the outline from outside (true of every lobe that was solved for it).
double lift_on_outline(const Outline& outline, const Follower& follower, double base_radius,
                       ShaftAngle facing);

}  // namespace lobewright::hand
