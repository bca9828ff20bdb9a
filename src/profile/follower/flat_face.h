/// A flat face that touches the lobe: where it lies at a lift, and where it touches.
#pragma once

#include "base/taylor.h"

#include <lobewright/job.h>
#include <lobewright/plane.h>

namespace lobewright::profile {

/// A follower whose flat face touches the lobe, in the facing frame. The face's outward normal stands in the
/// direction ψ(l) and the face h(l) from the axis along it. Translating: ψ = ε, the face's tilt, h = b + l
/// cos ε. On an arm: ψ = -σ l / L, h = P·N(ψ) - q, q the depth of the face under the pivot P = (b + q, -σ
/// sqrt(c² - (b + q)²)), so that it touches the base circle on +x. (Derived; tests hold it to a brute-force
/// envelope.)
struct FlatFace {
    /// Required: an arm's pivot is further from the axis than b + q.
    FlatFace(const Follower& follower, double base_radius);

    double base_radius = 0.0;
    double tilt = 0.0;  ///< ε, radians
    double tilt_cosine = 1.0;
    double arm = 0.0;    ///< L; 0 for a translating one
    double side = 1.0;   ///< σ
    double depth = 0.0;  ///< q
    Vec2 pivot;          ///< P

    [[nodiscard]] bool on_arm() const { return arm > 0.0; }
    /// ψ by the lift.
    [[nodiscard]] double turn_by_lift() const { return on_arm() ? -side / arm : 0.0; }
    /// From the foot of the pivot on the face to the contact at zero lift; 0 for a translating one.
    [[nodiscard]] double heel_lever() const { return -side * pivot.y; }
    /// The lift at which the face lies so far from the axis.
    [[nodiscard]] double lift_at_height(double height) const;
};

/// Whether a follower's face can stand on the base circle, and be lifted so far.
bool face_reaches(const Follower& follower, double base_radius, double lift);

/// What a contact of the face tells, by the lift and its first two derivatives by β. With u = β + ψ, the
/// direction of the contour's normal, the contour's support function is h: contact h N + t T, t = dh/du, arc
/// length ds/dβ = h u' + t'.
template <class S>
struct FaceContact {
    S height;  ///< h
    S aside;   ///< t, along the face
    S turn;    ///< u'
    S speed;   ///< ds/dβ
    S lever;   ///< on an arm: from the foot of the pivot on the face to the contact; else 1

    FaceContact(const FlatFace& face, const S& l, const S& v, const S& a)
        : height(face.base_radius + face.tilt_cosine * l),
          aside(face.tilt_cosine * v),
          turn(1.0),
          speed(height + face.tilt_cosine * a),
          lever(1.0) {
        if (face.on_arm()) place_on_arm(face, l, v, a);
    }

  private:
    void place_on_arm(const FlatFace& face, const S& l, const S& v, const S& a) {
        const double w = face.turn_by_lift();
        const auto [sine, cosine] = sine_and_cosine(w * l);
        const S along_normal = face.pivot.x * cosine + face.pivot.y * sine;
        const S along_face = face.pivot.y * cosine - face.pivot.x * sine;
        height = along_normal - face.depth;
        turn = 1.0 + w * v;
        const S slope = w * (along_face * v);
        const S bend = w * (along_face * a) - w * w * (along_normal * (v * v));
        aside = slope / turn;
        speed = height * turn + (bend * turn - w * (slope * a)) / (turn * turn);
        lever = face.side * (aside - along_face);
    }
};

}  // namespace lobewright::profile
