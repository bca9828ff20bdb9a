/// Spring and inertia at the follower: the force that holds it on the lobe, and the speed at which it floats.
#pragma once

#include <lobewright/job.h>
#include <lobewright/motion.h>

namespace lobewright::profile {

inline constexpr double metres_per_mm = 1e-3;

/// Cam speed in rad/s at a crank speed in rev/min; without [engine] the cam turns at half the crank's speed.
double cam_speed(const Job& job, double crank_speed);
/// The other way round.
double crank_speed(const Job& job, double cam_speed);

/// N of inertia for 1 mm/rad² of acceleration.
double inertia_per_acceleration(const ContactLoad& load, double cam_speed);

/// F = k (x + x₀) + m a ω² in N, along the follower's motion; the preload is k x₀. Negative: the spring is
/// too weak to hold the follower on the lobe. Friction and weight are left out. `cam_speed` in rad/s.
double contact_force(const ContactLoad& load, const Lift& lift, double cam_speed);
/// The same of a series: S is a Taylor.
template <class S>
S contact_force(const ContactLoad& load, const S& lift, const S& acceleration, double cam_speed) {
    return load.spring_preload + load.spring_rate * lift +
           inertia_per_acceleration(load, cam_speed) * acceleration;
}

/// m |a| / (k (x + x₀)) while the follower slows down, else 0, in s²: the follower floats where ω² is above 1
/// / this.
double float_tendency(const ContactLoad& load, const Lift& lift);

/// Preload that just holds the follower here at that speed with the given rate, N; and the rate with the
/// given preload, N/mm (infinite where the lift is 0). Not above 0 where no spring is needed.
double preload_needed(const ContactLoad& load, const Lift& lift, double cam_speed);
double rate_needed(const ContactLoad& load, const Lift& lift, double cam_speed);

}  // namespace lobewright::profile
