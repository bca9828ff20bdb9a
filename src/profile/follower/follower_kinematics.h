/// How a follower moves over the lobe: where its centre lies at a lift, and what that makes of motion and
/// contour.
///
/// Frame of the facing direction: x along the direction that faces the follower, y 90 degrees ccw of it. In
/// the lobe's frame that direction is β = -s·α, and this frame is the lobe's turned by β.
///
/// This room holds what lobe and follower make of each other: contact, contour, and the extremes of both.
#pragma once

#include "profile/follower/flat_face.h"

#include <lobewright/contour.h>
#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <optional>

namespace lobewright::profile {

/// The lift with derivatives by β instead of by the cam angle α, or back again: β = -s·α.
Lift by_other_angle(const Lift& lift, Sense turns);

/// Centre K of a round follower at a lift, mm in the facing frame, and its derivatives by the lift.
struct Centre {
    Vec2 k, k1, k2, k3;
};

/// A round follower: roller, dome, knife (radius 0), roller or pad on an arm. Its centre is Rp = base radius
/// + radius from the axis at zero lift. Translating: K = (sqrt(Rp² - e²) + l) + i e. Pivoted: K = P + L
/// e^{iθ}, P = c e^{-iσδ}, cos δ = (c² + Rp² - L²) / (2 c Rp), θ = θ₀ - σ l / L.
struct RoundFollower {
    /// Required: the centre reaches its place at zero lift: |e| < Rp; arm, pivot radius and Rp make a
    /// triangle.
    RoundFollower(const Follower& follower, double base_radius);
    [[nodiscard]] Centre at(double lift) const;
    /// The lift at which the centre lies so far from the axis; NaN where it never does.
    [[nodiscard]] double lift_at_distance(double distance) const;
    [[nodiscard]] bool pivoted() const { return arm > 0.0; }

    double radius = 0.0;         ///< r
    double heel_distance = 0.0;  ///< Rp
    double offset = 0.0;         ///< e, translating
    double heel_height = 0.0;    ///< sqrt(Rp² - e²), translating
    Vec2 pivot;                  ///< P
    double arm = 0.0;            ///< L; 0 for a translating one
    double side = 1.0;           ///< σ: +1 where the centre lies ccw of the line from the axis to the pivot
    double heel_angle = 0.0;     ///< angle at the pivot between axis and centre at zero lift
    double arm_direction = 0.0;  ///< θ₀
};

/// A flat face has no centre: a knife over the same base circle stands in for what is never asked.
RoundFollower round_part(const Follower& follower, double base_radius);
/// Nothing for a round follower.
std::optional<FlatFace> flat_part(const Follower& follower, double base_radius);

/// Where the follower touches the lobe that its motion asks for.
struct Touch {
    ContourPoint contact;  ///< lobe's frame; the parameter is β, so `speed` is ds/dβ
    Vec2 motion;  ///< unit, lobe's frame: the way the follower (a pivoted one's centre) moves as it lifts
};

/// One follower of either kind over a base circle.
class Kinematics {
  public:
    /// Required: as RoundFollower's.
    Kinematics(const Follower& follower, double base_radius);
    /// Contact at β; `lift` has derivatives by β.
    /// A flat face: see FaceContact; square to its way, point = h n + h' t and radius of curvature h + h'', h
    /// = base radius + lift. Round: the inner parallel curve of the centre's curve C = e^{iβ} K: point = C -
    /// r N, N = -i C' / |C'|, curvature κ / (1
    /// - r κ), κ = Im(conj(C') C'') / |C'|³. `speed` <= 0 is an undercut.
    [[nodiscard]] Touch touch(double beta, const Lift& lift) const;

  private:
    std::optional<FlatFace> face_;
    RoundFollower round_;
};

}  // namespace lobewright::profile
