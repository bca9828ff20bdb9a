/// Small jobs made in place, for tests of what comes after the reader: one lobe, or the four of two
/// cylinders.
#pragma once

#include <lobewright/job.h>

namespace sample_job {

using namespace lobewright;

/// A lobe named "lobe" of profile "profile" on follower "follower", its nose at 0, 10 mm wide, on a ccw
/// shaft.
inline Job one_lobe(Profile profile, Follower follower) {
    Job job;
    job.file = "job.toml";
    job.title = "Basalt";
    job.profiles.emplace("profile", std::move(profile));
    job.followers.emplace("follower", follower);
    LobeEntry lobe;
    lobe.name = "lobe";
    lobe.profile = "profile";
    lobe.follower = "follower";
    lobe.at = ShaftAngle{};
    lobe.z = 20.0;
    lobe.width = 10.0;
    job.lobes.push_back(lobe);
    return job;
}

inline MotionProfile motion(LawKind law, double base_radius, double lift, double opening, double closing) {
    MotionProfile profile;
    profile.law = law;
    if (law == LawKind::power_polynomial) profile.powers = {2, 10, 18, 26};
    profile.base_radius = base_radius;
    profile.lift = lift;
    profile.opening_angle = CamAngle::from_degrees(opening);
    profile.closing_angle = CamAngle::from_degrees(closing);
    return profile;
}

inline ArcsProfile arcs_with_nose(double base_radius, double lift, double action, double nose_radius) {
    ArcsProfile profile;
    profile.base_radius = base_radius;
    profile.lift = lift;
    profile.action_angle = CamAngle::from_degrees(action);
    profile.nose_radius = nose_radius;
    return profile;
}

inline ArcsProfile arcs_with_flank(double base_radius, double lift, double action, double flank_radius) {
    ArcsProfile profile = arcs_with_nose(base_radius, lift, action, 0.0);
    profile.nose_radius.reset();
    profile.flank_radius = flank_radius;
    return profile;
}

inline Follower flat() {
    return {};
}

inline Follower roller(double radius, double offset = 0.0) {
    Follower follower;
    follower.kind = FollowerKind::roller;
    follower.radius = radius;
    follower.offset = offset;
    return follower;
}

inline ContactLoad load(double preload, double rate, double mass, double crank_speed) {
    ContactLoad contact;
    contact.spring_preload = preload;
    contact.spring_rate = rate;
    contact.moving_mass = mass;
    contact.crank_speed = crank_speed;
    return contact;
}

inline ValveTiming timing(double opens, double closes, double clearance) {
    return {CrankAngle::from_degrees(opens), CrankAngle::from_degrees(closes), clearance};
}

}  // namespace sample_job
