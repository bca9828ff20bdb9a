#include "profile/judge/contact_load.h"

#include <cmath>
#include <limits>
#include <numbers>

namespace lobewright::profile {
namespace {

constexpr double rad_s_per_rpm = 2.0 * std::numbers::pi / 60.0;

double cam_per_crank(const Job& job) {
    return job.engine ? job.engine->cam_per_crank : 0.5;
}

double spring_force(const ContactLoad& load, const Lift& lift) {
    return load.spring_preload + load.spring_rate * lift.lift;
}

double inertia_force(const ContactLoad& load, const Lift& lift, double cam_speed) {
    return inertia_per_acceleration(load, cam_speed) * lift.acceleration;
}

}  // namespace

double cam_speed(const Job& job, double crank_speed) {
    return crank_speed * rad_s_per_rpm * cam_per_crank(job);
}

double crank_speed(const Job& job, double cam_speed) {
    return cam_speed / (rad_s_per_rpm * cam_per_crank(job));
}

double inertia_per_acceleration(const ContactLoad& load, double cam_speed) {
    return load.moving_mass * metres_per_mm * cam_speed * cam_speed;
}

double contact_force(const ContactLoad& load, const Lift& lift, double cam_speed) {
    return spring_force(load, lift) + inertia_force(load, lift, cam_speed);
}

double float_tendency(const ContactLoad& load, const Lift& lift) {
    const double slowing = -inertia_force(load, lift, 1.0);
    return slowing > 0.0 ? slowing / spring_force(load, lift) : 0.0;
}

double preload_needed(const ContactLoad& load, const Lift& lift, double cam_speed) {
    return -inertia_force(load, lift, cam_speed) - load.spring_rate * lift.lift;
}

double rate_needed(const ContactLoad& load, const Lift& lift, double cam_speed) {
    const double missing = -inertia_force(load, lift, cam_speed) - load.spring_preload;
    if (missing <= 0.0) return 0.0;
    return lift.lift > 0.0 ? missing / lift.lift : std::numeric_limits<double>::infinity();
}

}  // namespace lobewright::profile
