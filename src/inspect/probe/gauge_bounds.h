/// Extremes of what gauges find on a lobe, bounded and not sampled.
#pragma once

#include "inspect/probe/contour_probe.h"
#include "profile/follower/lobe_curve.h"

#include <lobewright/lobe.h>

#include <optional>
#include <vector>

namespace lobewright::inspection {

/// The place where a gauge finds its most: radians, the direction in the lobe's frame that faces it.
struct GaugePlace {
    double ray = 0.0;
    double value = 0.0;  ///< mm
};

/// What of a lobe does not depend on the probe that asks for it.
///
/// Every probe's highest reading stands over the contour's point farthest from the axis, and is its distance
/// over the base circle: no point is reached further out than it lies, and that one is when the probe stands
/// over it. That point and the anvil's reach are extremes of figures of the contact (LobeCurve).
class GaugeBounds {
  public:
    /// Required: `lobe` and `anvil`, which is a flat probe on its contour, outlive this.
    GaugeBounds(const SolvedLobe& lobe, const ContourProbe& anvil);

    /// The direction of the point farthest from the axis: the nose itself where it is one of several.
    [[nodiscard]] double farthest() const;

    /// How far from its middle an anvil touches, at most: |P·T| over all points P that it touches, T their
    /// tangent. A hollow that it bridges has none, only the two ends of the bridge.
    [[nodiscard]] double anvil_reach() const;

    /// The greatest size between parallel anvils, to `across_margin`, and one of the anvils (the nose's where
    /// that is one of several). Between two directions less than half a turn apart the lobe lies inside the
    /// corner that the anvils there make (its support function is convex), which bounds the size; stretches
    /// are halved until none can hold a greater one.
    [[nodiscard]] GaugePlace across() const;
    static constexpr double across_margin = 1e-8;  ///< mm

    /// Where the probe stands on the base circle, no more than `over` mm above it: stretches of rays, `high`
    /// running on. Nothing where it does so all round, or nowhere. The points that lift it are those farther
    /// out than base radius and `over`, each over a stretch round its own direction: what they lift between
    /// two of their stretches begins at either end of the gap, so that the rest of it is one stretch.
    [[nodiscard]] std::vector<Interval> stretches_on_base(const ContourProbe& probe, double over) const;

  private:
    struct AnvilPair;
    [[nodiscard]] double direction_of_contact(double cam_angle) const;
    [[nodiscard]] double cam_angle_touched(double direction) const;
    [[nodiscard]] std::vector<Interval> touched_by_anvil() const;
    [[nodiscard]] std::vector<Interval> rays_over(double radius) const;
    [[nodiscard]] AnvilPair pair_at(double ray) const;
    void look_between(const AnvilPair& a, const AnvilPair& b, GaugePlace& best) const;

    const SolvedLobe& lobe_;
    const ContourProbe& anvil_;
    profile::LobeCurve curve_;
};

}  // namespace lobewright::inspection
