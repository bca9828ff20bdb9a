/// What the cuts of one lobe leave, against its design: ridges, gouges, and the valve's timing.
///
/// This folder holds the judgement of what cuts leave, by whatever method they were made.
#pragma once

#include "hand/outline/hand_contour.h"
#include "hand/outline/touch_map.h"

#include <lobewright/hand.h>

#include <optional>
#include <vector>

namespace lobewright::hand {

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

/// A facet, and where on the map it touches the design.
struct Facet {
    HandCut cut;  ///< lobe's frame
    double way = 0.0;
};

/// The most that stands over the design between the touches of two neighbouring facets, along its normal: the
/// corner where they cross, or, where the blank's outside cuts that off (or they never meet), what it leaves
/// there. A bar no larger than the nose makes that 0 on the nose, and it is never less than 0. Without the
/// blank's radius, nothing where they do not meet. Required: the second way lies after the first.
std::optional<double> ridge_between(const TouchMap& map, const Facet& first, const Facet& second,
                                    std::optional<double> blank_radius);

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

}  // namespace lobewright::hand
