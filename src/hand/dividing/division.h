/// On which grid a shaft's lobes are divided, and at which of its places they get their facets.
#pragma once

#include "hand/dividing/faceted_lobe.h"
#include "hand/facts.h"

#include <vector>

namespace lobewright::hand {

/// Places on the grid by lobe, each ascending.
using FacetPlaces = std::vector<std::vector<long long>>;

struct Division {
    IndexGrid grid;
    FacetPlaces facets;

    /// The spaces from each facet to the next one, once round, over all lobes: narrowest to widest, each
    /// once.
    [[nodiscard]] std::vector<long long> advances() const;
    /// The place after the facet at `index`, unwrapped.
    [[nodiscard]] long long place_after(std::size_t lobe, std::size_t index) const;
};

/// Finer steps than this, 7200 facets a lobe, are a slip of the pen, in the step or in the ridge.
inline constexpr ShaftAngle finest_step = ShaftAngle::from_degrees(0.05);

/// With a wanted step: the nearest places to its multiples, on the grid where the worst is least off. With a
/// wanted ridge: an even step, halved where the contour's curvature asks for it, on the grid that needs the
/// fewest facets. Nothing, with its obstacle, where that can't be. Required: a step or a ridge is wanted;
/// `grids` is not empty.
std::optional<Division> divide(const std::vector<FacetedLobe>& lobes, const HandMethod& method,
                               std::optional<double> cutter_radius, const std::vector<IndexGrid>& grids,
                               Obstacles& obstacles);

}  // namespace lobewright::hand
