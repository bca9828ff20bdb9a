/// What the cuts of one lobe leave, against its design: ridges, gouges, and the valve's timing.
#pragma once

#include "hand/hand_contour.h"
#include "hand/touch_map.h"

#include <lobewright/job.h>
#include <lobewright/lobe.h>

#include <optional>
#include <vector>

namespace lobewright {

/// Along the design's outward normal, mm.
struct Deviations {
    double highest_ridge = 0.0;  ///< of the corners that stand between neighbouring cuts
    double deepest = 0.0;        ///< <= 0
    double proudest = 0.0;       ///< >= 0
};

/// The lobe's radius of an arcs contour cut by swept arcs, in the shaft's frame. `noses` have been filed.
/// Extremes of the flanks and noses to about 1e-9 mm; corners exact.
Deviations deviations_of_arcs(const SolvedLobe& lobe, const std::vector<HandCut>& cuts, double blank_radius,
                              const std::vector<FiledNose>& noses, const Outline& outline);

/// Height over the design of the corner between two neighbouring facets that touch it at two places of the
/// map (way ascending); nothing where they do not meet within the blank. All in the lobe's frame.
std::optional<double> ridge_between(const TouchMap& map, const HandCut& first, double first_way,
                                    const HandCut& second, double second_way, double blank_radius);

/// The valve clearance that timing is judged at, mm of the follower's lift: the lobe's own in [engine]; a
/// twentieth of the lift where there is none.
double judged_lift(const Job& job, const SolvedLobe& lobe);

/// How much later than designed the valve opens and closes at that lift; nothing where ridges hold it open.
struct TimingError {
    CamAngle opens_late;
    CamAngle closes_late;
};
std::optional<TimingError> timing_error(const SolvedLobe& lobe, const Outline& outline, double judged_at);

}  // namespace lobewright
