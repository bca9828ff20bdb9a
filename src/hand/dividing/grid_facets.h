/// The facets of one lobe on one grid, each found once.
#pragma once

#include "hand/dividing/faceted_lobe.h"

#include <map>

namespace lobewright::hand {

/// Even steps are tried and halved until the ridges do, so the same places come again and again. Lobe and
/// grid outlive it.
class GridFacets {
  public:
    GridFacets(const FacetedLobe& lobe, const IndexGrid& grid) : lobe_(lobe), grid_(grid) {}

    /// Whether the ridge between the facets at two places is known to be no higher than that.
    [[nodiscard]] bool ridge_within(long long space, long long next, double highest);
    [[nodiscard]] const IndexGrid& grid() const { return grid_; }

  private:
    [[nodiscard]] const Facet& facet(long long space);

    const FacetedLobe& lobe_;
    const IndexGrid& grid_;
    std::map<long long, Facet> facets_;
};

}  // namespace lobewright::hand
