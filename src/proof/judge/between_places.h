/// The proudest planes between two places along the shaft at which a cutter stands whose section shrinks
/// beside its axis.
///
/// What either pass leaves on a ray rises with the plane's distance from its place, so that the ridge between
/// them is highest in the plane where both leave the same: halfway where they do the same, elsewhere where
/// one is deeper than the other.
#pragma once

#include "proof/judge/lobe_planes.h"

#include <optional>

namespace lobewright::proof {

class PlacePair {
  public:
    /// `a` < `b`: neighbouring places; moves at other places, or along the shaft, are left out.
    PlacePair(const MovesAlongShaft& moves, const CutterPart& part, double a, double b, double stock)
        : moves_(moves), part_(part), a_(a), b_(b), stock_(stock) {}

    /// The fixed ray on which the ridge is foretold to be the highest: halfway, by the mean of what both
    /// leave. Nothing where no ray is cut by both.
    [[nodiscard]] std::optional<double> proudest_ray(const std::vector<DesignRay>& rays) const;
    /// The plane in which both leave the same on the ray, to 1e-6 mm; nothing where one is the deeper in all
    /// planes between.
    [[nodiscard]] std::optional<double> ridge_on(double psi) const;

  private:
    [[nodiscard]] double difference(double z, double psi) const;

    const MovesAlongShaft& moves_;
    const CutterPart& part_;
    double a_, b_, stock_;
};

}  // namespace lobewright::proof
