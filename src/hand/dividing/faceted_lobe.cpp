#include "hand/dividing/faceted_lobe.h"

#include <utility>

namespace lobewright::hand {

namespace {

/// What is left on keeps a round cutter as far off as a larger one would be.
std::optional<double> reach_of(std::optional<double> cutter_radius, double left_on) {
    return cutter_radius ? std::optional(*cutter_radius + left_on) : std::nullopt;
}

}  // namespace

FacetedLobe::FacetedLobe(const SolvedLobe& lobe, const HandMethod& method,
                         std::optional<double> cutter_radius, std::optional<double> blank_radius,
                         double left_on)
    : lobe_(lobe),
      method_(method),
      map_(lobe.contour, reach_of(cutter_radius, left_on)),
      cutter_radius_(cutter_radius),
      blank_radius_(blank_radius),
      left_on_(left_on) {}

ShaftAngle FacetedLobe::facing(const IndexGrid& grid, long long space) const {
    return method_.zero + sign_of(method_.counts) * grid.angle(space);
}

Facet FacetedLobe::facet(const IndexGrid& grid, long long space) const {
    const ShaftAngle towards = wrapped(facing(grid, space) - lobe_.at);
    const TouchMap::TouchPoint touched = map_.touch(towards);
    const double distance = touched.distance + (cutter_radius_ ? 0.0 : left_on_);
    return {cutter_radius_ ? round_cut(towards, distance, *cutter_radius_) : flat_cut(towards, distance),
            touched.parameter};
}

std::optional<double> FacetedLobe::ridge(const IndexGrid& grid, long long space, long long next) const {
    return ridge(facet(grid, space % grid.spaces), facet(grid, next % grid.spaces));
}

std::optional<double> FacetedLobe::ridge(Facet first, Facet second) const {
    if (method_.counts == Sense::cw) std::swap(first, second);
    if (second.parameter <= first.parameter) second.parameter += map_.period();
    return ridge_between(map_, first, second, {blank_radius_, left_on_});
}

}  // namespace lobewright::hand
