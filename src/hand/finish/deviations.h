/// What the cuts of one lobe leave, against its design: the ridges between them, gouges, what is left on.
///
/// This folder holds the judgement of what cuts leave, by whatever method they were made.
#pragma once

#include "hand/outline/filed_nose.h"

#include <vector>

namespace lobewright::hand {

/// Along the design's outward normal, mm.
struct Deviations {
    double highest_ridge = 0.0;  ///< of the corners that stand between neighbouring cuts
    double deepest = 0.0;        ///< <= 0
    double proudest = 0.0;       ///< >= 0
};

/// By how much the extremes of flanks and noses may be missed, mm; corners are exact.
inline constexpr double deviation_error = 1e-9;

/// The bar that the lobe is cut from, and what the cuts are to leave on it along the normal.
struct HandStock {
    double blank_radius = 0.0;
    double allowance = 0.0;
};

/// An arcs contour cut by swept arcs, in the shaft's frame, against the design with its allowance. `noses`
/// have been filed.
Deviations deviations_of_arcs(const SolvedLobe& lobe, const std::vector<HandCut>& cuts, HandStock stock,
                              const std::vector<FiledNose>& noses, const Outline& outline);

}  // namespace lobewright::hand
