#include "hand/finish/valve_timing.h"

#include "hand/outline/follower_on_outline.h"

#include <lobewright/valve_train.h>

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cstdint>
#include <functional>
#include <optional>

namespace lobewright::hand {
namespace {

/// How far the follower stands over the lift that timing is judged at, mm, at a cam angle in radians.
using LiftOver = std::function<double(double)>;

/// Where the lift crosses the judged one is looked for in steps of a twentieth of a degree, over a quarter of
/// a turn: an event further off than that is none.
constexpr CamAngle search_step = CamAngle::from_radians(std::numbers::pi / 3600.0);
constexpr int most_steps = 1800;

double crossing_within(const LiftOver& lift_over, double low, double high) {
    constexpr int bits = 48;  // 1e-14 of a radian
    std::uintmax_t iterations = 100;
    const auto bracket = boost::math::tools::toms748_solve(
        lift_over, low, high, boost::math::tools::eps_tolerance<double>(bits), iterations);
    return (bracket.first + bracket.second) / 2.0;
}

/// The first place from `from` on, in steps of `step`, where the function turns positive, or (if `falls`) is
/// so no more.
std::optional<double> crossing(const LiftOver& lift_over, double from, double step, bool falls) {
    double before = from;
    for (int i = 1; i <= most_steps; ++i) {
        const double there = from + step * i;
        if ((lift_over(there) > 0.0) != falls)
            return crossing_within(lift_over, std::min(before, there), std::max(before, there));
        before = there;
    }
    return std::nullopt;
}

/// Where the valve leaves (or comes back to) its seat, nearest the designed place. `towards_peak` is +1 for
/// opening.
std::optional<double> event_near(const LiftOver& lift_over, double designed, double towards_peak) {
    const double step = towards_peak * search_step.radians();
    return lift_over(designed) > 0.0 ? crossing(lift_over, designed, -step, true)
                                     : crossing(lift_over, designed, step, false);
}

/// Whether a corner of the outline on the design's heel lifts the follower over the judged lift.
bool held_open(const SolvedLobe& lobe, const Outline& outline, const LiftOver& lift_over) {
    return std::any_of(outline.begin(), outline.end(), [&](const OutlinePiece& corner) {
        const double cam_angle = sign_of(lobe.turns) * (lobe.at - corner.from).radians();
        const bool on_heel = lobe.motion.at(CamAngle::from_radians(cam_angle)).lift <= 0.0;
        return on_heel && lift_over(cam_angle) > 0.0;
    });
}

}  // namespace

double judged_lift(const Job& job, const SolvedLobe& lobe) {
    const LobeEntry& entry = job.lobes[lobe.entry];
    if (job.engine && entry.cylinder > 0) {
        const auto& timing = entry.valve == Valve::inlet ? job.engine->inlet : job.engine->exhaust;
        if (timing && timing->clearance > 0.0) return lift_for_valve(lobe.follower, timing->clearance);
    }
    return lobe.lift / 20.0;
}

TimingError timing_error(const SolvedLobe& lobe, const Outline& outline, double judged_at) {
    const double sense = sign_of(lobe.turns);
    const LiftOver lift_over = [&](double cam_angle) {
        const auto facing = lobe.at - ShaftAngle::from_radians(sense * cam_angle);
        return lift_on_outline(outline, lobe.follower, lobe.base_radius, facing) - judged_at;
    };
    TimingError error;
    error.shuts = !held_open(lobe, outline, lift_over);
    if (!error.shuts) return error;
    const LiftEvents designed = events_at(lobe.motion, judged_at);
    const auto late = [&](CamAngle event, double towards_peak) {
        const bool lifted = lift_over(event.radians()) > 0.0;
        const auto found = event_near(lift_over, event.radians(), towards_peak);
        if (!found) (lifted ? error.shuts : error.opens) = false;
        return found ? CamAngle::from_radians(*found) - event : CamAngle{};
    };
    error.opens_late = late(designed.opens, 1.0);
    error.closes_late = late(designed.closes, -1.0);
    return error;
}

double cam_per_crank(const Job& job) {
    return job.engine ? job.engine->cam_per_crank : 0.5;
}

CrankAngle crank_angle(const Job& job, CamAngle angle) {
    return CrankAngle::from_radians(angle.radians() / cam_per_crank(job));
}

void put_timing(const Job& job, const SolvedLobe& lobe, const Outline& outline, HandFinish& finish) {
    const TimingError error = timing_error(lobe, outline, judged_lift(job, lobe));
    finish.valve_shuts = error.shuts;
    finish.valve_opens = error.opens;
    finish.opens_late = crank_angle(job, error.opens_late);
    finish.closes_late = crank_angle(job, error.closes_late);
}

}  // namespace lobewright::hand
