#include "base/whole_steps.h"
#include "profile/timing/nose_direction.h"

#include <lobewright/timing.h>
#include <lobewright/valve_train.h>

#include <cmath>
#include <numbers>

namespace lobewright {

std::optional<ValveEvents> valve_events_at(const Job& job, const SolvedLobe& lobe, double valve_lift) {
    using namespace profile;
    const LobeEntry& entry = job.lobes[lobe.entry];
    if (timing_of(job, entry) == nullptr) return std::nullopt;
    const double threshold = lift_for_valve(lobe.follower, valve_lift);
    if (threshold >= lobe.lift) return std::nullopt;

    const double per_crank = job.engine->cam_per_crank;
    const LiftEvents lift = events_at(lobe.motion, threshold);
    // The shaft direction at - s α faces the follower's direction f when the crank stands at (α - s (at - f))
    // / ratio.
    const double nose_lag = sign_of(lobe.turns) * (lobe.at.radians() - lobe.follower.direction.radians());
    const double fires = job.engine->firing_angles[static_cast<std::size_t>(entry.cylinder - 1)].radians();
    const double cycle = lobe.motion.period().radians() / per_crank;
    const auto after = [&](CamAngle angle, double dead_centre) {
        const double crank = (angle.radians() - nose_lag) / per_crank - fires - dead_centre;
        return crank - cycle * static_cast<double>(nearest_step(crank / cycle));
    };
    constexpr double half_turn = std::numbers::pi;
    const bool inlet = entry.valve == Valve::inlet;
    const double tdc = 2.0 * half_turn;  // between exhaust and inlet, after the cylinder fired at 0
    const double opening_bdc_or_tdc = inlet ? tdc : half_turn;
    const double closing_bdc_or_tdc = inlet ? tdc + half_turn : tdc;
    const CamAngle middle = 0.5 * (lift.opens + lift.closes);

    ValveEvents events;
    events.opens = CrankAngle::from_radians(-after(lift.opens, opening_bdc_or_tdc));
    events.closes = CrankAngle::from_radians(after(lift.closes, closing_bdc_or_tdc));
    events.duration = CrankAngle::from_radians((lift.closes - lift.opens).radians() / per_crank);
    events.centre = CrankAngle::from_radians((inlet ? 1.0 : -1.0) * after(middle, tdc));
    events.valve_lift = valve_lift;
    events.closes_at = lift.closes;
    return events;
}

std::optional<ValveEvents> valve_events(const Job& job, const SolvedLobe& lobe) {
    const ValveTiming* timing = profile::timing_of(job, job.lobes[lobe.entry]);
    return timing == nullptr ? std::nullopt : valve_events_at(job, lobe, timing->clearance);
}

std::optional<ValveEvents> card_events(const Job& job, const SolvedLobe& lobe) {
    const ValveTiming* timing = profile::timing_of(job, job.lobes[lobe.entry]);
    return timing == nullptr ? std::nullopt
                             : valve_events_at(job, lobe, profile::valve_lift_of_card(*timing));
}

}  // namespace lobewright
