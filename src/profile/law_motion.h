/// A motion profile as pieces over the period: base circle, ramp, law, dwell, law, ramp, base circle.
#pragma once

#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <vector>

namespace lobewright {

/// From the start of the opening ramp to the end of the closing ramp, α = 0 in the middle of the dwell.
/// Continuous everywhere: lift and velocity (a power polynomial of one power aside, which is not asked for),
/// and with a ramp or not: acceleration too where the law's own starts and ends at 0 (cycloidal, 3-4-5,
/// 4-5-6-7, modified sine and trapezoid, power polynomial of three powers or more) and, at the peak, where
/// opening and closing angle and ramps are alike or a dwell lies between laws that end at 0. The acceleration
/// steps, but stays finite, at both ends of the simple harmonic law and at the peak of the power polynomial.
/// The jerk is continuous at the law's ramp end for 4-5-6-7 only without a ramp; else it steps at the joints.
std::vector<MotionPiece> law_event(const MotionProfile& profile);

/// Constant speed of a ramp, mm/rad: r / (0.875 R).
double ramp_speed(const Ramp& ramp);

/// Fills the rest of the period with the base circle and cuts at ±period/2 what crosses there.
/// Required: `event` joins end to end and is no longer than the period.
std::vector<MotionPiece> around_period(const std::vector<MotionPiece>& event, double period);

}  // namespace lobewright
