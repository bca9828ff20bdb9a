#include "profile/timing/nose_direction.h"

#include <lobewright/valve_train.h>

namespace lobewright::profile {
namespace {

constexpr CrankAngle quarter = CrankAngle::from_degrees(90.0);
constexpr CrankAngle gas_tdc =
    CrankAngle::from_degrees(360.0);  // between exhaust and inlet, after the cylinder fired

/// Crank angle of the middle between opening and closing, from cylinder 1's TDC on its power stroke.
CrankAngle valve_centre(const Engine& engine, const LobeEntry& entry, const ValveTiming& timing) {
    const CrankAngle fires = engine.firing_angles[static_cast<std::size_t>(entry.cylinder - 1)];
    const CrankAngle after_tdc = entry.valve == Valve::inlet ? (timing.closes - timing.opens) / 2.0 + quarter
                                                             : (timing.closes - timing.opens) / 2.0 - quarter;
    return fires + gas_tdc + after_tdc;
}

}  // namespace

const ValveTiming* timing_of(const Job& job, const LobeEntry& entry) {
    if (!job.engine || entry.cylinder == 0) return nullptr;
    const auto& timing = entry.valve == Valve::inlet ? job.engine->inlet : job.engine->exhaust;
    return timing ? &*timing : nullptr;
}

CrankAngle duration_of(const ValveTiming& timing) {
    return timing.opens + CrankAngle::from_degrees(180.0) + timing.closes;
}

double clearance_lift(const ValveTiming& timing, const Follower& follower) {
    return lift_for_valve(follower, timing.clearance);
}

double valve_lift_of_card(const ValveTiming& timing) {
    return timing.at_lift.value_or(timing.clearance);
}

double card_lift(const ValveTiming& timing, const Follower& follower) {
    return lift_for_valve(follower, valve_lift_of_card(timing));
}

ShaftAngle nose_direction(const Job& job, const LobeEntry& entry, const Follower& follower,
                          const Motion& motion) {
    const ValveTiming& timing = *timing_of(job, entry);
    const LiftEvents events = events_at(motion, card_lift(timing, follower));
    const double middle = 0.5 * (events.opens + events.closes).radians();
    const double turned = valve_centre(*job.engine, entry, timing).radians() * job.engine->cam_per_crank;
    return wrapped(ShaftAngle::from_radians(follower.direction.radians() -
                                            sign_of(job.shaft.turns) * (turned - middle)));
}

}  // namespace lobewright::profile
