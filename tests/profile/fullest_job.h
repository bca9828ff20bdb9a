/// Random jobs of one fullest lobe, and what its limits say of a lift by their definitions.
#pragma once

#include "largest_area.h"
#include "random_lobe.h"

namespace fullest_job {

using namespace lobewright;

constexpr double degrees = 180.0 / std::numbers::pi;

inline double moving_inertia(const Job& job, double crank_speed) {
    const double cam = crank_speed * std::numbers::pi / 60.0;  // rad/s: half the crank's
    return job.contact->moving_mass * 1e-3 * cam * cam;
}

inline FullestProfile& fullest(Job& job) {
    return std::get<FullestProfile>(job.profiles.at("profile"));
}
inline const FullestProfile& fullest(const Job& job) {
    return std::get<FullestProfile>(job.profiles.at("profile"));
}

/// Limits about those of a lift that deceleration alone allows, so that any of them may bind and some lifts
/// can't be.
inline Job draw(random_lobe::Source& random, const Follower& follower) {
    FullestProfile p;
    const double lift = random.between(2.0, 9.0);
    p.opening_angle = basalt::cam_degrees(random.between(50.0, 95.0));
    p.closing_angle = basalt::cam_degrees(random.between(50.0, 95.0));
    if (random.chance(0.5)) p.lift = lift;
    p.opening_ramp = random_lobe::draw_ramp(random, lift);
    p.closing_ramp = random_lobe::draw_ramp(random, lift);
    const double shorter = std::min(p.opening_angle.degrees(), p.closing_angle.degrees());
    const double deceleration = random.between(1.1, 2.2) * 2.0 * lift / (shorter * shorter);  // per degree²
    p.limits.deceleration = deceleration * degrees * degrees;
    p.limits.jerk = p.limits.deceleration / random.between(3.0, 12.0) * degrees;
    if (random.chance(0.7)) p.limits.acceleration = random.between(1.5, 5.0) * p.limits.deceleration;
    if (random.chance(0.5)) p.limits.velocity = random.between(1.3, 2.2) * lift / shorter * degrees;
    p.base_radius = std::max(8.0, p.limits.deceleration - lift + random.between(0.0, 8.0));
    p.follower = "follower";
    if (random.chance(0.5)) p.limits.smallest_radius = random.between(0.5, 5.0);
    Job job = basalt::job(Profile{}, follower);
    job.contact = basalt::load(0.0, 0.0, 0.1, 6000.0);
    const double inertia = moving_inertia(job, 6000.0);
    job.contact->spring_preload = inertia * p.limits.deceleration * random.between(0.6, 1.1);
    job.contact->spring_rate = inertia * random.between(0.2, 1.5);
    if (random.chance(0.4)) p.limits.float_speed = 6000.0 * random.between(0.9, 1.1);
    job.profiles["profile"] = p;
    return job;
}

/// A limit as weights of lift, velocity, acceleration, and what their sum may come to.
struct Linear {
    double lift, velocity, acceleration, most;
};

/// Of a flat follower square to its way.
inline std::vector<Linear> linear_limits(const Job& job) {
    const FullestProfile& p = fullest(job);
    const FullestLimits& l = p.limits;
    std::vector<Linear> all{{0.0, 0.0, -1.0, l.deceleration}};
    if (l.acceleration) all.push_back({0.0, 0.0, 1.0, *l.acceleration});
    if (l.velocity) all.push_back({0.0, 1.0, 0.0, *l.velocity});
    if (l.velocity) all.push_back({0.0, -1.0, 0.0, *l.velocity});
    // Radius of curvature: base radius + lift + acceleration.
    if (l.smallest_radius) all.push_back({-1.0, 0.0, -1.0, p.base_radius - *l.smallest_radius});
    if (l.float_speed) {
        all.push_back({-job.contact->spring_rate, 0.0, -moving_inertia(job, *l.float_speed),
                       job.contact->spring_preload});
    }
    return all;
}

inline double ramp_speed_of(const std::optional<Ramp>& ramp) {
    return ramp ? ramp->lift / (0.875 * ramp->angle.radians()) : 0.0;
}

/// The independent programme's question, on `cells` even cells; the peak is the greatest lift.
inline largest_area::Question question_of(const Job& job, int cells) {
    const FullestProfile& p = fullest(job);
    const double peak = p.opening_angle.radians(), end = peak + p.closing_angle.radians();
    largest_area::Question q{
        end, p.opening_ramp ? p.opening_ramp->lift : 0.0, ramp_speed_of(p.opening_ramp), p.limits.jerk, {}};
    const double last = p.closing_ramp ? p.closing_ramp->lift : 0.0;
    q.bounds = {{{{end, 2, 1.0}}, 0.0, true},
                {{{end, 1, 1.0}}, -ramp_speed_of(p.closing_ramp), true},
                {{{end, 0, 1.0}}, last, true},
                {{{peak, 1, 1.0}}, 0.0, true}};
    if (p.lift) q.bounds.push_back({{{peak, 0, 1.0}}, *p.lift, true});
    for (int i = 1; i < cells; ++i) {
        const double angle = end * i / cells;
        for (const Linear& l : linear_limits(job)) {
            largest_area::Bound bound{{}, l.most, false};
            if (l.lift != 0.0) bound.terms.push_back({angle, 0, l.lift});
            if (l.velocity != 0.0) bound.terms.push_back({angle, 1, l.velocity});
            if (l.acceleration != 0.0) bound.terms.push_back({angle, 2, l.acceleration});
            q.bounds.push_back(bound);
        }
        q.bounds.push_back({{{angle, 0, 1.0}, {peak, 0, -1.0}}, 0.0, false});
    }
    return q;
}

}  // namespace fullest_job
