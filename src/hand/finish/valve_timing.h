/// When the valve opens and shuts on what the cuts leave of a lobe.
#pragma once

#include "hand/outline/outline.h"

#include <lobewright/hand.h>

namespace lobewright::hand {

/// The valve clearance that timing is judged at, mm of the follower's lift: the lobe's own in [engine]; a
/// twentieth of the lift where there is none.
double judged_lift(const Job& job, const SolvedLobe& lobe);

/// The valve's events on an outline, at a lift that it is judged at.
struct TimingError {
    bool shuts = true;    ///< false: ridges hold it open, and the angles mean nothing
    bool opens = true;    ///< false: so much is cut away that it never opens; likewise
    CamAngle opens_late;  ///< how much later than designed
    CamAngle closes_late;
};
TimingError timing_error(const SolvedLobe& lobe, const Outline& outline, double judged_at);

/// Timing into the finish of a lobe, in crank angles: see HandFinish.
void put_timing(const Job& job, const SolvedLobe& lobe, const Outline& outline, HandFinish& finish);

/// Cam angle by crank angle of the job's engine; a half where it has none.
double cam_per_crank(const Job& job);
CrankAngle crank_angle(const Job& job, CamAngle angle);

}  // namespace lobewright::hand
