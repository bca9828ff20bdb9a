/// Jobs built in code, for tests of every stage: the invented "Basalt four", and jobs of a single lobe.
#pragma once

#include "catch.h"
#include "finish_cut.h"

#include <lobewright/lobe.h>

#include <string>

namespace basalt {

using namespace lobewright;

inline CamAngle cam_degrees(double degrees) {
    return CamAngle::from_degrees(degrees);
}
inline CrankAngle crank_degrees(double degrees) {
    return CrankAngle::from_degrees(degrees);
}

inline ArcsProfile arcs_with_nose(double base, double lift, double action_degrees, double nose) {
    ArcsProfile profile;
    profile.base_radius = base, profile.lift = lift;
    profile.action_angle = cam_degrees(action_degrees);
    profile.nose_radius = nose;
    return profile;
}
/// `flank` may be straight_flank, or negative for a hollow one.
inline ArcsProfile arcs_with_flank(double base, double lift, double action_degrees, double flank) {
    ArcsProfile profile = arcs_with_nose(base, lift, action_degrees, 0.0);
    profile.nose_radius.reset();
    profile.flank_radius = flank;
    return profile;
}

/// Without ramps or dwell. `powers` are for the power polynomial alone.
inline MotionProfile law(LawKind kind, double base, double lift, double opening_degrees,
                         double closing_degrees, std::vector<int> powers = {}) {
    MotionProfile profile;
    profile.base_radius = base, profile.lift = lift, profile.law = kind, profile.powers = std::move(powers);
    profile.opening_angle = cam_degrees(opening_degrees);
    profile.closing_angle = cam_degrees(closing_degrees);
    return profile;
}
inline Ramp ramp(double lift, double degrees) {
    return {lift, cam_degrees(degrees)};
}
/// Nothing about it is symmetrical: the one to catch a wrong sense with.
inline MotionProfile lopsided(double base = 12.0, double lift = 2.4) {
    MotionProfile profile = law(LawKind::power_polynomial, base, lift, 64.0, 68.0, {2, 10, 18, 26});
    profile.opening_ramp = ramp(0.12, 18.0);
    profile.closing_ramp = ramp(0.15, 24.0);
    return profile;
}

inline Follower flat(double face = 12.0) {
    Follower follower;
    follower.kind = FollowerKind::flat;
    follower.face_diameter = face;
    return follower;
}
/// A flat face that is wide enough for anything.
inline Follower endless_flat() {
    Follower follower = flat();
    follower.face_diameter.reset();
    return follower;
}
inline Follower roller(double radius, double offset = 0.0) {
    Follower follower;
    follower.kind = FollowerKind::roller;
    follower.radius = radius, follower.offset = offset;
    return follower;
}
inline Follower domed(double radius, double offset = 0.0) {
    Follower follower = roller(radius, offset);
    follower.kind = FollowerKind::domed;
    return follower;
}
inline Follower knife(double offset = 0.0) {
    Follower follower = roller(0.0, offset);
    follower.kind = FollowerKind::knife;
    return follower;
}
inline Follower pivoted(double radius, double pivot_radius, double arm, Sense side) {
    Follower follower = roller(radius);
    follower.kind = FollowerKind::pivoted;
    follower.pivot_radius = pivot_radius, follower.arm_length = arm, follower.side = side;
    return follower;
}

/// `neck`: the diameter of the arbor beside it.
inline Cutter disc(double diameter, double width, double neck) {
    Cutter cutter;
    cutter.kind = CutterKind::disc;
    cutter.diameter = diameter, cutter.width = width, cutter.neck_diameter = neck, cutter.teeth = 12;
    return cutter;
}
inline Cutter end_mill(double diameter, double flutes, double corner = 0.0) {
    Cutter cutter;
    cutter.diameter = diameter, cutter.flute_length = flutes, cutter.corner_radius = corner;
    return cutter;
}
inline Cutter ball_nose(double diameter, double flutes) {
    Cutter cutter = end_mill(diameter, flutes);
    cutter.kind = CutterKind::ball_nose;
    return cutter;
}

inline ContactLoad load(double preload, double rate, double mass, double crank_speed) {
    ContactLoad contact;
    contact.spring_preload = preload, contact.spring_rate = rate;
    contact.moving_mass = mass, contact.crank_speed = crank_speed;
    return contact;
}
inline ValveTiming timing(double opens, double closes, double clearance) {
    return {crank_degrees(opens), crank_degrees(closes), clearance};
}

/// One lobe, "lobe", with its profile "profile" and its follower "follower"; the nose points at 0.
inline Job job(Profile profile, Follower follower, Sense turns = Sense::ccw) {
    Job made;
    made.file = "basalt.toml";
    made.title = "Basalt single";
    made.shaft.turns = turns;
    made.profiles["profile"] = std::move(profile);
    made.followers["follower"] = follower;
    LobeEntry lobe;
    lobe.name = "lobe", lobe.profile = "profile", lobe.follower = "follower";
    lobe.at = ShaftAngle{};
    lobe.z = 20.0, lobe.width = 6.0;
    made.lobes = {lobe};
    return made;
}

/// The first lobe of a job that can be solved; the test fails with the complaints where it can't.
inline SolvedLobe solved(const Job& job) {
    auto lobes = solve_lobes(job);
    for (const Diagnostic& diagnostic : lobes.diagnostics())
        UNSCOPED_INFO(to_text(diagnostic));
    REQUIRE(lobes.ok());
    return lobes.value().front();
}
inline SolvedLobe solved(Profile profile, Follower follower, Sense turns = Sense::ccw) {
    return solved(job(std::move(profile), follower, turns));
}

/// The invented engine: four cylinders, overhead valves, flat tappets, eight lobes by its timing, inlet and
/// exhaust of arcs whose action angle the timing settles; a disc cutter parallel to the shaft.
inline Job four() {
    Job made;
    made.file = "basalt-four.toml";
    made.title = "Basalt four";
    made.shaft.blank_diameter = 17.0;
    made.shaft.length = 120.0;
    made.shaft.journals = {{6.0, 10.0, 10.0}, {114.0, 10.0, 10.0}};
    Engine engine;
    engine.cylinders = 4;
    for (const double fires : {0.0, 540.0, 180.0, 360.0})  // firing order 1-3-4-2
        engine.firing_angles.push_back(crank_degrees(fires));
    engine.inlet = ValveTiming{crank_degrees(14.0), crank_degrees(46.0), 0.10};
    engine.exhaust = ValveTiming{crank_degrees(48.0), crank_degrees(12.0), 0.12};
    made.engine = engine;
    for (const char* name : {"inlet", "exhaust"}) {
        ArcsProfile profile = arcs_with_flank(6.0, 2.4, 0.0, 25.0);
        profile.action_angle.reset();
        made.profiles[name] = profile;
    }
    made.followers["tappet"] = flat();
    for (int i = 0; i < 8; ++i) {
        LobeEntry lobe;
        lobe.cylinder = i / 2 + 1;
        lobe.valve = i % 2 == 0 ? Valve::inlet : Valve::exhaust;
        lobe.profile = i % 2 == 0 ? "inlet" : "exhaust";
        lobe.name = std::to_string(lobe.cylinder) + " " + lobe.profile;
        lobe.follower = "tappet";
        lobe.z = 20.0 + 11.0 * i, lobe.width = 6.0;
        made.lobes.push_back(lobe);
    }
    made.cutters["disc32"] = disc(32.0, 5.0, 12.0);
    Machine machine;
    machine.post = "rs274ngc-xza";
    machine.cutter_axis = CutterAxis::parallel;
    machine.tool_change = ToolChange{60.0, 150.0};
    made.machine = machine;
    made.cut = finish_cut("disc32", 0.002, 120.0, 600.0);
    return made;
}

}  // namespace basalt
