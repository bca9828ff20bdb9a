#include "profile/judge/float_limits.h"

namespace lobewright::profile {
namespace {

using Contact = const LobeCurve::Contact&;

}  // namespace

double largest_float_tendency(const ContactLoad& load, const LobeCurve& curve) {
    const double inertia = inertia_per_acceleration(load, 1.0);
    const auto slowing = [&](Contact c) { return -inertia * c.acceleration; };
    const auto spring = [&](Contact c) { return load.spring_preload + load.spring_rate * c.lift; };
    return curve.largest_quotient(slowing, spring).value;
}

double largest_preload_needed(const ContactLoad& load, const LobeCurve& curve, double cam_speed) {
    const double inertia = inertia_per_acceleration(load, cam_speed);
    return curve.largest([&](Contact c) { return -(inertia * c.acceleration + load.spring_rate * c.lift); })
        .value;
}

double largest_rate_needed(const ContactLoad& load, const LobeCurve& curve, double cam_speed) {
    const double inertia = inertia_per_acceleration(load, cam_speed);
    const auto missing = [&](Contact c) { return -(inertia * c.acceleration + load.spring_preload); };
    return curve.largest_quotient(missing, [](Contact c) { return c.lift; }).value;
}

}  // namespace lobewright::profile
