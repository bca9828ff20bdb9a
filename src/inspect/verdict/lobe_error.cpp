#include "inspect/verdict/lobe_error.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::inspection {
namespace {

constexpr int steps_of_turn = 1440;

/// Where on the lobe (the direction that faces the probe) the follower touches what the probe does, cam angle
/// by cam angle of one turn.
struct SharedContacts {
    std::vector<double> rays;    ///< unwrapped, descending or ascending with the cam angle
    std::vector<double> angles;  ///< radians of cam angle
    std::vector<double> growth;  ///< of the follower's lift with metal along the normal
    bool falling = false;
};

/// Where a probe points when it touches a contact, in the lobe's frame.
double ray_of(const ContourPoint& contact, const Probe& probe, ShaftAngle at) {
    const Vec2 pointer =
        probe.kind == ProbeKind::flat ? contact.normal : contact.point + probe.radius * contact.normal;
    return direction(pointer) - at.radians();
}

SharedContacts shared_contacts(const SolvedLobe& lobe, const Probe& probe) {
    SharedContacts shared;
    for (int i = 0; i <= steps_of_turn; ++i) {
        const double angle = full_turn * i / steps_of_turn - std::numbers::pi;
        const FollowerContact follower = contact_at(lobe, CamAngle::from_radians(angle));
        const double ray = ray_of(follower.contact, probe, lobe.at);
        const double last = shared.rays.empty() ? ray : shared.rays.back();
        shared.rays.push_back(last + wrapped_radians(ray - last));
        shared.angles.push_back(angle);
        shared.growth.push_back(1.0 / unit(follower.pressure_angle).x);
    }
    shared.falling = lobe.turns == Sense::ccw;
    if (shared.falling) {
        for (double& ray : shared.rays)
            ray = -ray;
    }
    return shared;
}

struct SharedPlace {
    double angle = 0.0;
    double growth = 1.0;
};
SharedPlace place_of(const SharedContacts& shared, double ray) {
    const double way = shared.falling ? -ray : ray;
    const double first = shared.rays.front();
    const double target = way - full_turn * std::floor((way - first) / full_turn);
    const auto after = std::upper_bound(shared.rays.begin() + 1, shared.rays.end() - 1, target);
    const auto i = static_cast<std::size_t>(after - shared.rays.begin());
    const double span = shared.rays[i] - shared.rays[i - 1];
    const double part = span > 0.0 ? std::clamp((target - shared.rays[i - 1]) / span, 0.0, 1.0) : 0.0;
    return {shared.angles[i - 1] + part * (shared.angles[i] - shared.angles[i - 1]),
            shared.growth[i - 1] + part * (shared.growth[i] - shared.growth[i - 1])};
}

}  // namespace

LobeError lobe_error(const SolvedLobe& lobe, const Probe& probe, const std::vector<FittedReading>& readings,
                     const std::vector<bool>& used, double deviation) {
    const SharedContacts shared = shared_contacts(lobe, probe);
    const double sense = sign_of(lobe.turns);
    std::vector<CurvePoint> lift, surface;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (!used[i]) continue;
        const FittedReading& each = readings[i];
        const SharedPlace place = place_of(shared, each.ray);
        const double along_normal = each.residual / each.growth;
        lift.push_back({place.angle, along_normal * place.growth});
        surface.push_back({-sense * each.ray, along_normal});
    }
    return {LocalCurve(std::move(lift), deviation, full_turn),
            LocalCurve(std::move(surface), deviation, full_turn)};
}

}  // namespace lobewright::inspection
