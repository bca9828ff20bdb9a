/// A segments profile as pieces of a motion.
#pragma once

#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <vector>

namespace lobewright::profile {

/// From where the follower first leaves the base circle to where it comes back to it for good; what is
/// continuous where stands at SegmentsProfile. Stays on the base circle in between are called that.
/// Required: some segment lifts, the last lift is 0.
std::vector<MotionPiece> segment_event(const SegmentsProfile& profile);

}  // namespace lobewright::profile
