/// The error along the normal at the places of a lobe that a lowering has its coefficients for.
#pragma once

#include "inspect/verdict/examined_lobe.h"

#include <optional>
#include <vector>

namespace lobewright::inspection {

/// A place of the design on a ray from the axis.
struct SurfaceNode {
    double direction = 0.0;  ///< radians, lobe's frame
    ContourPoint at;         ///< of the design
    bool on_heel = false;
    /// mm, of the surface over the design with its allowance, base circle's error included; nothing where the
    /// probe can't touch, or no readings are near.
    std::optional<Estimate> error;
    double of_cutting = 0.0;  ///< mm of it, less what the first program left by itself

    [[nodiscard]] double radius() const { return length(at.point); }
    /// Cosine of the angle between the normal and the ray.
    [[nodiscard]] double lean() const { return dot(at.normal, at.point) / radius(); }
};

/// What the probe would read of the first program's own leavings (see CorrectionRequest) is taken off each
/// reading before readings are put together.
///
/// `count` places, evenly round from -pi on. Nothing where the readings lie too far apart to be put together.
/// On the heel, where they agree but for their scatter (or a quarter of `tolerance`), all have their mean.
std::optional<std::vector<SurfaceNode>> surface_seen(const SolvedLobe& lobe, const ExaminedLobe& examined,
                                                     double allowance, double tolerance,
                                                     const std::vector<double>& programmed,
                                                     std::size_t count);

}  // namespace lobewright::inspection
