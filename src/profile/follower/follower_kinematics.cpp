#include "profile/follower/follower_kinematics.h"

#include "base/elementary/elementary.h"

#include <cmath>
#include <numbers>

namespace lobewright::profile {
namespace {

Vec2 times_i(Vec2 a) {
    return quarter_turn(a);
}

Touch flat_touch(const FlatFace& face, double beta, const Lift& lift) {
    const FaceContact<double> contact(face, lift.lift, lift.velocity, lift.acceleration);
    const Vec2 normal = unit(beta + face.tilt + face.turn_by_lift() * lift.lift);
    const Vec2 along = quarter_turn(normal);
    Vec2 motion = unit(beta);
    if (face.on_arm()) {
        const Vec2 way = contact.lever * normal + face.side * face.depth * along;
        motion = way / length(way);
    }
    return {{contact.height * normal + contact.aside * along, normal, contact.turn / contact.speed,
             contact.speed},
            motion};
}

Touch round_touch(const RoundFollower& follower, double beta, const Lift& lift) {
    const Centre c = follower.at(lift.lift);
    const Vec2 d1 = times_i(c.k) + lift.velocity * c.k1;
    const Vec2 d2 = -c.k + 2.0 * lift.velocity * times_i(c.k1) + lift.velocity * lift.velocity * c.k2 +
                    lift.acceleration * c.k1;
    const double pace = length(d1);
    const Vec2 normal = -times_i(d1) / pace;
    const double curvature = cross(d1, d2) / (pace * pace * pace);
    const double shrink = 1.0 - follower.radius * curvature;
    const Vec2 by = unit(beta);
    return {
        {turned(c.k - follower.radius * normal, by), turned(normal, by), curvature / shrink, pace * shrink},
        turned(c.k1, by)};
}

}  // namespace

Lift by_other_angle(const Lift& lift, Sense turns) {
    const double s = -sign_of(turns);
    return {lift.lift, s * lift.velocity, lift.acceleration, s * lift.jerk};
}

RoundFollower::RoundFollower(const Follower& follower, double base_radius)
    : radius(follower.radius), heel_distance(base_radius + follower.radius), offset(follower.offset) {
    const double rp = heel_distance;
    if (follower.kind != FollowerKind::pivoted) {
        heel_height = std::sqrt((rp - offset) * (rp + offset));
        return;
    }
    arm = follower.arm_length;
    side = sign_of(follower.side);
    const double c = follower.pivot_radius;
    pivot = c * unit(-side * elementary::acos((c * c + rp * rp - arm * arm) / (2.0 * c * rp)));
    heel_angle = elementary::acos((c * c + arm * arm - rp * rp) / (2.0 * c * arm));
    arm_direction = direction(Vec2{rp, 0.0} - pivot);
}

Centre RoundFollower::at(double lift) const {
    if (!pivoted()) return {{heel_height + lift, offset}, {1.0, 0.0}, {}, {}};
    const Vec2 along = unit(arm_direction - side * lift / arm);
    const Vec2 across = -side * times_i(along);
    return {pivot + arm * along, across, -along / arm, -across / (arm * arm)};
}

double RoundFollower::lift_at_distance(double distance) const {
    if (!pivoted()) return std::sqrt((distance - offset) * (distance + offset)) - heel_height;
    const double c = length(pivot);
    return arm * (elementary::acos((c * c + arm * arm - distance * distance) / (2.0 * c * arm)) - heel_angle);
}

RoundFollower round_part(const Follower& follower, double base_radius) {
    if (!follower.has_flat_face()) return RoundFollower(follower, base_radius);
    Follower knife;
    knife.kind = FollowerKind::knife;
    return RoundFollower(knife, base_radius);
}

std::optional<FlatFace> flat_part(const Follower& follower, double base_radius) {
    return follower.has_flat_face() ? std::optional(FlatFace(follower, base_radius)) : std::nullopt;
}

Kinematics::Kinematics(const Follower& follower, double base_radius)
    : face_(flat_part(follower, base_radius)), round_(round_part(follower, base_radius)) {}

Touch Kinematics::touch(double beta, const Lift& lift) const {
    return face_ ? flat_touch(*face_, beta, lift) : round_touch(round_, beta, lift);
}

}  // namespace lobewright::profile
