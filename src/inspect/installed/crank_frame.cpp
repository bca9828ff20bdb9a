#include "inspect/installed/crank_frame.h"

#include "profile/timing/nose_direction.h"

#include <lobewright/valve_train.h>

#include <cmath>

namespace lobewright::inspection {
namespace {

double nose_lag(const SolvedLobe& lobe) {
    return sign_of(lobe.turns) * (lobe.at.radians() - lobe.follower.direction.radians());
}

}  // namespace

CamAngle cam_angle_at(const Job& job, const SolvedLobe& lobe, CrankAngle crank) {
    return CamAngle::from_radians(crank.radians() * job.engine->cam_per_crank + nose_lag(lobe));
}

CrankAngle crank_angle_at(const Job& job, const SolvedLobe& lobe, CamAngle angle) {
    const double turn = full_turn / job.engine->cam_per_crank;
    const double crank = (angle.radians() - nose_lag(lobe)) / job.engine->cam_per_crank;
    return CrankAngle::from_radians(crank - turn * std::floor(crank / turn));
}

double clearance_of(const Job& job, const SolvedLobe& lobe) {
    const ValveTiming* timing = profile::timing_of(job, job.lobes[lobe.entry]);
    return timing != nullptr ? timing->clearance : 0.0;
}

OpenValve valve_lift(const SolvedLobe& lobe, double clearance, CamAngle angle) {
    const Lift lift = lobe.motion.at(angle);
    const double open = valve_lift_of(lobe.follower, lift.lift) - clearance;
    if (!(open > 0.0)) return {};
    return {open, valve_ratio_at(lobe.follower, lift.lift) * lift.velocity};
}

}  // namespace lobewright::inspection
