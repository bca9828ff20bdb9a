/// A motion profile as pieces over the period: base circle, ramp, law, dwell, law, ramp, base circle.
#pragma once

#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <vector>

namespace lobewright::profile {

/// From the start of the opening ramp to the end of the closing ramp, α = 0 in the middle of the dwell; what
/// is continuous where stands at MotionProfile.
std::vector<MotionPiece> law_event(const MotionProfile& profile);

/// Constant speed of a ramp, mm/rad: r / (0.875 R).
double ramp_speed(const Ramp& ramp);

/// Fills the rest of the period with the base circle and cuts at ±period/2 what crosses there.
/// Required: `event` joins end to end and is no longer than the period.
std::vector<MotionPiece> around_period(const std::vector<MotionPiece>& event, double period);

}  // namespace lobewright::profile
