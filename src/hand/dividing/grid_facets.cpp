#include "hand/dividing/grid_facets.h"

namespace lobewright::hand {

bool GridFacets::ridge_within(long long space, long long next, double highest) {
    const auto height = lobe_.ridge(facet(space % grid_.spaces), facet(next % grid_.spaces));
    return height && *height <= highest;
}

const Facet& GridFacets::facet(long long space) {
    const auto known = facets_.find(space);
    if (known != facets_.end()) return known->second;
    return facets_.emplace(space, lobe_.facet(grid_, space)).first->second;
}

}  // namespace lobewright::hand
