/// The rays on which one plane is compared: the design's fixed ones, and those through the points of what was
/// swept where ridges and sharp dips begin and end.
#pragma once

#include "proof/judge/design_rays.h"
#include "proof/sweep/plane_sweep.h"

#include <vector>

namespace lobewright::proof {

/// Rays nearer to each other than this are one, radians: at any lobe's radius below a hundredth of what is
/// told.
inline constexpr double same_ray = 1e-7;

/// Finds the design's ray before a direction, through a table of equal sectors.
class RayFinder {
  public:
    explicit RayFinder(const std::vector<DesignRay>& rays);

    /// The same direction, within the turn that the rays cover.
    [[nodiscard]] double in_turn(double psi) const;
    /// Index of the ray at or before `psi`, which lies within the turn; never the last.
    [[nodiscard]] std::size_t before(double psi) const;

  private:
    static constexpr std::size_t sectors = 1024;
    const std::vector<DesignRay>& rays_;
    std::vector<std::size_t> first_;
};

class PlaneRays {
  public:
    /// `fixed`: see Design::rays. `near`: mm; points that lie higher over the design have no ray.
    PlaneRays(const PlaneSweep& sweep, const Design& design, const std::vector<DesignRay>& fixed, double near)
        : sweep_(sweep), design_(design), fixed_(fixed), finder_(fixed), near_(near) {}

    /// In how many parts the rays come, so that those of a long program needn't all stand in memory.
    [[nodiscard]] std::size_t parts() const;
    /// The rays of a part, `psi` ascending; the parts follow each other round the turn.
    [[nodiscard]] std::vector<DesignRay> part(std::size_t index) const;

  private:
    /// Gaps between neighbouring fixed rays, by the index of the ray before.
    struct Gaps {
        std::size_t begin, end;
    };

    void add_rays_of_steps(Gaps gaps, std::vector<DesignRay>& rays) const;
    void add_corner_rays(const PlaneSection& section, const SweepStep& step, Gaps gaps,
                         std::vector<DesignRay>& rays) const;
    void add_ray_through(Vec2 point, Gaps gaps, std::vector<DesignRay>& rays) const;

    const PlaneSweep& sweep_;
    const Design& design_;
    const std::vector<DesignRay>& fixed_;
    RayFinder finder_;
    double near_;
};

}  // namespace lobewright::proof
