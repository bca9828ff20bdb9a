/// From the follower's lift to the valve's and back: a constant ratio, or a rocker's curve as it was
/// measured.
#pragma once

#include <lobewright/job.h>

namespace lobewright {

/// What the valve train lifts at a lift of the follower, mm, no clearance taken off: valve_ratio × lift, or
/// the curve through Follower::valve_lift, a cubic from point to point that rises all the way with a
/// continuous slope (Fritsch and Carlson, Monotone Piecewise Cubic Interpolation, SIAM J. Numer. Anal. 17,
/// 1980; its mean of slopes by Brodlie's weights, from memory). Beyond the last point it goes on straight.
double valve_lift_of(const Follower& follower, double lift);

/// The lift of the follower at which the valve train lifts so much, mm; the inverse of valve_lift_of to the
/// last bits.
double lift_for_valve(const Follower& follower, double valve_lift);

/// Movement of the valve by that of the follower at a lift of the follower.
double valve_ratio_at(const Follower& follower, double lift);

}  // namespace lobewright
