#include "inspect/verdict/lobe_error.h"
#include "profile/timing/nose_direction.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::inspection {
namespace {

constexpr double per_degree = std::numbers::pi / 180.0;
constexpr std::size_t figures_for_lift = 9;
constexpr double least_for_lift = 3.0 * per_degree;
constexpr double widest = 20.0 * per_degree;
constexpr double farthest = 30.0 * per_degree;  // that an event may have moved
constexpr int most_steps = 60;
constexpr double settled = 1e-12;  // radians

/// Cam angle at which the measured lift is `threshold`, near the design's own; its error counts the lift's
/// alone.
std::optional<Estimate> event_near(const SolvedLobe& lobe, const LobeError& error, double half_width,
                                   double threshold, double design) {
    double angle = design;
    for (int i = 0; i < most_steps; ++i) {
        const auto local = error.of_lift.at(angle, half_width);
        if (!local) return std::nullopt;
        const Lift lift = lobe.motion.at(CamAngle::from_radians(angle));
        const double slope = lift.velocity + local->slope.value;
        const double step = (threshold - lift.lift - local->value.value) / slope;
        if (!std::isfinite(step)) return std::nullopt;
        angle += std::clamp(step, -2.0 * per_degree, 2.0 * per_degree);
        if (std::abs(angle - design) > farthest) return std::nullopt;
        if (std::abs(step) < settled) return Estimate{angle, local->value.error / std::abs(slope)};
    }
    return std::nullopt;
}

/// Crank angle by which an event is late, with the phase's own error.
Estimate late_of(const Estimate& event, double design, const Estimate& phase, double per_crank) {
    const double error = std::sqrt(event.error * event.error + phase.error * phase.error);
    return {(event.value - design + phase.value) / per_crank, error / per_crank};
}

}  // namespace

std::optional<MeasuredEvents> measured_events(const Job& job, const SolvedLobe& lobe, const LobeError& error,
                                              const Estimate& phase) {
    const auto design = valve_events(job, lobe);
    if (!design || error.of_lift.empty()) return std::nullopt;
    const ValveTiming& timing = *profile::timing_of(job, job.lobes[lobe.entry]);
    const double threshold = profile::clearance_lift(timing, lobe.follower);
    const double half_width = error.of_lift.half_width_for(figures_for_lift, least_for_lift);
    if (half_width > widest) return std::nullopt;
    const LiftEvents events = events_at(lobe.motion, threshold);
    const double opens = events.opens.radians(), closes = events.closes.radians();
    const auto opening = event_near(lobe, error, half_width, threshold, opens);
    const auto closing = event_near(lobe, error, half_width, threshold, closes);
    if (!opening || !closing) return std::nullopt;
    const double per_crank = job.engine->cam_per_crank;
    return MeasuredEvents{*design, late_of(*opening, opens, phase, per_crank),
                          late_of(*closing, closes, phase, per_crank)};
}

}  // namespace lobewright::inspection
