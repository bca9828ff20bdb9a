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
    const TouchMap::TouchPoint touched = map_.touch(towards);
    return {cutter_radius_ ? round_cut(towards, touched.distance, *cutter_radius_)
                           : flat_cut(towards, touched.distance),
            touched.parameter};
}

std::optional<double> FacetedLobe::ridge(const IndexGrid& grid, long long space, long long next) const {
    return ridge(facet(grid, space % grid.spaces), facet(grid, next % grid.spaces));
}

std::optional<double> FacetedLobe::ridge(Facet first, Facet second) const {
    if (method_.counts == Sense::cw) std::swap(first, second);
    if (second.parameter <= first.parameter) second.parameter += map_.period();
    return ridge_between(map_, first, second, blank_radius_);
}

}  // namespace lobewright::hand
