/// Figures of the contact between lobe and follower as closed forms of the lift and its derivatives, for
/// numbers, intervals and series alike.
#pragma once

#include "base/elementary/elementary.h"
#include "base/taylor.h"
#include "profile/follower/follower_kinematics.h"

#include <cmath>
#include <optional>

namespace lobewright::profile {

/// What is the same all round a lobe.
struct ContactFrame {
    /// Required: as Kinematics'.
    ContactFrame(const Follower& follower, double base, Sense turns);

    std::optional<FlatFace> face;  ///< nothing for a round follower
    double sense;                  ///< s: +1 where the shaft turns counter-clockwise
    RoundFollower round;           ///< with a flat face: not asked for
};

/// In the frame of a round follower's own way, x along the way in which it lifts: centre K = p + i q, curve
/// of the centre C' = w + i p with w = v - q, v = dl/dβ = -s dl/dα. Normal N = (p - i w) / |C'|, so that the
/// pressure angle has the tangent -w / p; turn of the curve dψ/dβ = 1 + τ v + (w p' - p w') / |C'|², p' = v
/// (1 + τ q), w' = a + τ p v, τ the turn of the way by the lift: 0, or -σ / L for an arm. (Derived from
/// Touch's formulas; a test holds them to it.)
template <class S>
class ContactFigures {
  public:
    ContactFigures(const ContactFrame& frame, const S& l, const S& v, const S& a, const S& j)
        : lift(l), velocity(v), acceleration(a), jerk(j), frame_(&frame) {
        const S by_beta = -frame.sense * velocity;
        if (frame.face) {
            face_ = FaceContact<S>(*frame.face, lift, by_beta, acceleration);
            return;
        }
        place_centre();
        const double r = frame.round.radius;
        drift_ = by_beta - aside_;
        const S pace_squared = square(ahead_) + square(drift_);
        using std::sqrt;
        pace_ = sqrt(pace_squared);
        const double twist = frame.round.pivoted() ? -frame.round.side / frame.round.arm : 0.0;
        const S ahead_slope = by_beta * (1.0 + twist * aside_);
        const S drift_slope = acceleration + twist * (ahead_ * by_beta);
        turn_ = 1.0 + twist * by_beta + (drift_ * ahead_slope - ahead_ * drift_slope) / pace_squared;
        speed_ = pace_ - r * turn_;
    }

    S lift, velocity, acceleration, jerk;  ///< by the cam angle, in mm and radians
    [[nodiscard]] bool has_flat_face() const { return face_.has_value(); }

    /// Tangent of the pressure angle, as FollowerContact's.
    [[nodiscard]] S pressure_tangent() const {
        if (frame_->face) return face_pressure_tangent(*frame_->face);
        return -frame_->sense * (drift_ / ahead_);
    }
    /// 1 / cosine of the pressure angle.
    [[nodiscard]] S pressure_secant() const {
        return frame_->face ? face_pressure_secant(*frame_->face) : S(pace_ / ahead_);
    }
    /// Of the contour at the contact, ds/dβ; <= 0 is an undercut.
    [[nodiscard]] S speed() const { return frame_->face ? face_->speed : speed_; }
    /// Turn of the contour's normal dψ/dβ.
    [[nodiscard]] S turn() const { return frame_->face ? face_->turn : turn_; }
    /// Of the contour at the contact, 1/mm.
    [[nodiscard]] S curvature() const { return turn() / speed(); }
    /// The contact's distance from the axis along its normal, mm.
    [[nodiscard]] S outward() const {
        return frame_->face ? face_->height : S(centre_outward() - frame_->round.radius);
    }
    /// A flat face on an arm: from the foot of the pivot on the face to the contact, mm; not above 0 it jams.
    /// 1 for every other follower.
    [[nodiscard]] S lever() const { return frame_->face ? face_->lever : S(1.0); }
    /// A flat face: how far the contact has run along it from where zero lift has it, mm; else 0.
    [[nodiscard]] S slide() const {
        if (!frame_->face) return S(0.0);
        return frame_->face->on_arm() ? S(face_->lever - frame_->face->heel_lever()) : face_->aside;
    }
    /// Of the contact from the axis, mm².
    [[nodiscard]] S distance_squared() const {
        if (frame_->face) return square(face_->height) + square(face_->aside);
        const double r = frame_->round.radius;
        return square(ahead_) + square(aside_) - 2.0 * r * centre_outward() + r * r;
    }

  private:
    void place_centre() {
        const RoundFollower& round = frame_->round;
        ahead_ = round.heel_height + lift, aside_ = S(round.offset);
        if (!round.pivoted()) return;
        const auto [sine, cosine] = sine_and_cosine(round.arm_direction - round.side / round.arm * lift);
        ahead_ = round.side * (round.pivot.x * sine - round.pivot.y * cosine);
        aside_ = round.side * (round.pivot.x * cosine + round.pivot.y * sine + round.arm);
    }
    /// A tilted face is pushed askew by its tilt, one on an arm by the depth of the face over the lever.
    [[nodiscard]] S face_pressure_tangent(const FlatFace& face) const {
        if (face.on_arm()) return -frame_->sense * face.side * face.depth / face_->lever;
        return S(face.tilt == 0.0 ? 0.0 : frame_->sense * elementary::sin(face.tilt) / face.tilt_cosine);
    }
    [[nodiscard]] S face_pressure_secant(const FlatFace& face) const {
        using std::sqrt;
        if (!face.on_arm()) return S(1.0 / face.tilt_cosine);
        return sqrt(1.0 + square(face.depth / face_->lever));
    }
    /// K·N.
    [[nodiscard]] S centre_outward() const { return (square(ahead_) - aside_ * drift_) / pace_; }

    const ContactFrame* frame_;
    S ahead_{}, aside_{}, drift_{};  // p, q, w
    S pace_{}, turn_{}, speed_{};    // |C'|, dψ/dβ, ds/dβ
    std::optional<FaceContact<S>> face_;
};

}  // namespace lobewright::profile
