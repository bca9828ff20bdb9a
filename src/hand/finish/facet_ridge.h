/// The ridge between two neighbouring facets of a lobe.
#pragma once

#include "hand/outline/hand_cut.h"
#include "hand/outline/touch_map.h"

#include <optional>

namespace lobewright::hand {

/// A cut that touches the design, and where on its map.
struct Facet {
    HandCut cut;  ///< lobe's frame
    double parameter = 0.0;
};

/// The bar, where it is known, and what the facets are to leave on the design along its normal.
struct FacetStock {
    std::optional<double> blank_radius;
    double allowance = 0.0;
};

/// The most that stands over the design with its allowance between the touches of two neighbouring facets,
/// along its normal: the
/// corner where they cross, or, where the blank's outside cuts that off (or they never meet), what it leaves
/// there. A bar no larger than the nose makes that 0 on the nose, and it is never less than 0. Without the
/// blank's radius, nothing where they do not meet. Required: the second parameter lies after the first.
std::optional<double> ridge_between(const TouchMap& map, const Facet& first, const Facet& second,
                                    FacetStock stock);

}  // namespace lobewright::hand
