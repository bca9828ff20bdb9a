#include "hand/dividing/faceted_lobe.h"

#include <utility>

namespace lobewright::hand {

FacetedLobe::FacetedLobe(const SolvedLobe& lobe, const HandMethod& method,
                         std::optional<double> cutter_radius, std::optional<double> blank_radius)
    : lobe_(lobe),
      method_(method),
      map_(lobe.contour, cutter_radius),
      cutter_radius_(cutter_radius),
      blank_radius_(blank_radius) {}

ShaftAngle FacetedLobe::facing(const IndexGrid& grid, long long space) const {
    return method_.zero + sign_of(method_.counts) * grid.angle(space);
}

Facet FacetedLobe::facet(const IndexGrid& grid, long long space) const {
    const ShaftAngle towards = wrapped(facing(grid, space) - lobe_.at);
    const double distance = map_.cutter_distance(towards);
    return {cutter_radius_ ? round_cut(towards, distance, *cutter_radius_) : flat_cut(towards, distance),
            map_.touch(towards).parameter};
}

std::optional<double> FacetedLobe::ridge(const IndexGrid& grid, long long space, long long next) const {
    Facet first = facet(grid, space % grid.spaces), second = facet(grid, next % grid.spaces);
    if (method_.counts == Sense::cw) std::swap(first, second);
    if (second.parameter <= first.parameter) second.parameter += map_.period();
    return ridge_between(map_, first, second, blank_radius_);
}

bool FacetedLobe::ridge_within(const IndexGrid& grid, long long space, long long next, double highest) const {
    const auto height = ridge(grid, space, next);
    return height && *height <= highest;
}

}  // namespace lobewright::hand
