#include "profile/follower/flat_face.h"

#include "base/elementary/elementary.h"

#include <cmath>

namespace lobewright::profile {

FlatFace::FlatFace(const Follower& follower, double base) : base_radius(base) {
    if (follower.kind != FollowerKind::pivoted || !follower.pad_depth) {
        tilt = follower.face_tilt.radians();
        tilt_cosine = tilt == 0.0 ? 1.0 : elementary::cos(tilt);
        return;
    }
    arm = follower.arm_length;
    side = sign_of(follower.side);
    depth = *follower.pad_depth;
    const double ahead = base + depth, c = follower.pivot_radius;
    pivot = {ahead, -side * std::sqrt((c - ahead) * (c + ahead))};
}

double FlatFace::lift_at_height(double height) const {
    if (!on_arm()) return (height - base_radius) / tilt_cosine;
    const double c = length(pivot);
    return arm * (elementary::acos(pivot.x / c) - elementary::acos((height + depth) / c));
}

bool face_reaches(const Follower& follower, double base_radius, double lift) {
    if (follower.kind != FollowerKind::pivoted) return true;
    const double ahead = base_radius + *follower.pad_depth, c = follower.pivot_radius;
    if (!(std::abs(ahead) < c)) return false;
    return elementary::acos(ahead / c) - lift / follower.arm_length > 0.0;
}

}  // namespace lobewright::profile
