#include "profile/fullest/lift_limits.h"

#include "profile/follower/contact_figures.h"
#include "profile/judge/contact_load.h"
#include "profile/judge/hertz.h"

#include <cmath>

namespace lobewright::profile {
namespace {

/// Value and slope along one of lift, velocity, acceleration.
using Slope = Taylor<double, 1>;
using Figures = ContactFigures<Slope>;

LiftLimit linear_limit(FullestLimit name, double constant, const LiftWeights& slopes) {
    return {name, true, [constant, slopes](const Lift& lift) {
                return Excess{constant + slopes[0] * lift.lift + slopes[1] * lift.velocity +
                                  slopes[2] * lift.acceleration + slopes[3] * lift.jerk,
                              slopes};
            }};
}

/// Of `formula`, which takes ContactFigures, by three directions.
template <class Formula>
LiftLimit contact_limit(FullestLimit name, bool linear, const ContactFrame& frame, Formula formula) {
    return {name, linear, [frame, formula](const Lift& lift) {
                Excess excess;
                for (std::size_t i = 0; i < 3; ++i) {
                    Slope l(lift.lift), v(lift.velocity), a(lift.acceleration);
                    (i == 0 ? l : i == 1 ? v : a).c[1] = 1.0;
                    const Slope value = formula(Figures(frame, l, v, a, Slope(lift.jerk)));
                    excess.value = value.c[0], excess.slopes[i] = value.c[1];
                }
                return excess;
            }};
}

/// Magnitudes on both sides.
void add_magnitude(std::vector<LiftLimit>& all, FullestLimit name, std::size_t order, double most) {
    for (const double sense : {1.0, -1.0}) {
        LiftWeights slopes{};
        slopes[order] = sense / most;
        all.push_back(linear_limit(name, -1.0, slopes));
    }
}

/// Curvature κ = turn / speed of no more than 1 / R, wherever the lobe isn't hollow: R turn - speed <= 0.
LiftLimit radius_limit(double least, const LimitedFollower& on, bool flat) {
    const ContactFrame frame(*on.follower, on.base_radius, on.turns);
    return contact_limit(FullestLimit::smallest_radius, flat, frame,
                         [least](const Figures& at) { return (least * at.turn() - at.speed()) / least; });
}

/// Hertz: p² = Q F sec (κ + κf) <= S², so Q F sec (turn + κf speed) / S² - speed <= 0.
LiftLimit stress_limit(double most, const LimitedFollower& on, bool flat) {
    const ContactFrame frame(*on.follower, on.base_radius, on.turns);
    const ContactLoad& load = *on.load;
    const double own = on.follower->has_flat_face() ? 0.0 : 1.0 / on.follower->radius;
    const double modulus = contact_modulus(load.cam_material, load.follower_material);
    const double size = squared_pressure(1.0, on.width, 1.0, modulus) / (most * most);
    const auto formula = [=, speed = on.cam_speed, base = on.base_radius](const Figures& at) {
        const Slope force = contact_force(load, at.lift, at.acceleration, speed) * at.pressure_secant();
        return (size * (force * (at.turn() + own * at.speed())) - at.speed()) / base;
    };
    return contact_limit(FullestLimit::contact_stress, flat, frame, formula);
}

/// Spring and inertia together press until that speed: -(F₀ + c l) - m ω² a <= 0, by the size of m ω² D.
LiftLimit float_limit(double crank_speed, double deceleration, const LimitedFollower& on) {
    const ContactLoad& load = *on.load;
    const double speed = crank_speed / load.crank_speed * on.cam_speed;
    const double size = inertia_per_acceleration(load, speed) * deceleration;
    return linear_limit(FullestLimit::float_speed, -load.spring_preload / size,
                        {-load.spring_rate / size, 0.0, -1.0 / deceleration, 0.0});
}

}  // namespace

std::vector<LiftLimit> lift_limits(const FullestLimits& limits, const LimitedFollower& on) {
    std::vector<LiftLimit> all;
    add_magnitude(all, FullestLimit::jerk, 3, limits.jerk);
    all.push_back(
        linear_limit(FullestLimit::deceleration, -1.0, {0.0, 0.0, -1.0 / limits.deceleration, 0.0}));
    if (limits.velocity) add_magnitude(all, FullestLimit::velocity, 1, *limits.velocity);
    if (limits.acceleration) {
        all.push_back(
            linear_limit(FullestLimit::acceleration, -1.0, {0.0, 0.0, 1.0 / *limits.acceleration, 0.0}));
    }
    const bool flat = on.follower != nullptr && on.follower->kind == FollowerKind::flat;
    if (limits.smallest_radius) all.push_back(radius_limit(*limits.smallest_radius, on, flat));
    if (limits.contact_stress) all.push_back(stress_limit(*limits.contact_stress, on, flat));
    if (limits.float_speed) all.push_back(float_limit(*limits.float_speed, limits.deceleration, on));
    return all;
}

}  // namespace lobewright::profile
