#include "inspect/verdict/lobe_error.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::inspection {
namespace {

constexpr double per_degree = std::numbers::pi / 180.0;
constexpr std::size_t figures_for_velocity = 9;
constexpr std::size_t figures_for_acceleration = 13;
constexpr double least_for_velocity = 4.0 * per_degree;
constexpr double least_for_acceleration = 8.0 * per_degree;
constexpr double widest = 24.0 * per_degree;  // beyond it the window would hold half a flank
constexpr int places_of_a_turn = 720;

/// What is measured at a cam angle, and the design's own.
struct MotionAt {
    Estimate measured;
    double design = 0.0;
};

/// Over one period from -period / 2; the largest of `sense` × the measured figure.
template <class F>
std::optional<MotionExtreme> extreme(const SolvedLobe& lobe, double sense, double unit, const F& figure) {
    std::optional<MotionExtreme> best;
    double best_design = -1e300;
    for (int i = 0; i < places_of_a_turn; ++i) {
        const CamAngle angle = CamAngle::from_radians(full_turn * i / places_of_a_turn - std::numbers::pi);
        if (std::abs(angle.radians()) > 0.5 * lobe.motion.period().radians()) continue;
        const std::optional<MotionAt> found = figure(angle);
        if (!found) continue;  // no readings there
        best_design = std::max(best_design, sense * found->design);
        if (best && sense * found->measured.value * unit <= sense * best->measured.value) continue;
        best = MotionExtreme{{found->measured.value * unit, found->measured.error * unit}, angle, 0.0};
    }
    if (best) best->design = sense * best_design * unit;
    return best;
}

}  // namespace

std::optional<MeasuredMotion> measured_motion(const SolvedLobe& lobe, const LobeError& error) {
    if (error.of_lift.empty()) return std::nullopt;
    const double narrow = error.of_lift.half_width_for(figures_for_velocity, least_for_velocity);
    const double wide = error.of_lift.half_width_for(figures_for_acceleration, least_for_acceleration);
    if (wide > widest) return std::nullopt;
    const auto velocity = [&](CamAngle angle) -> std::optional<MotionAt> {
        const auto local = error.of_lift.at(angle.radians(), narrow);
        if (!local) return std::nullopt;
        const double design = lobe.motion.at(angle).velocity;
        return MotionAt{{design + local->slope.value, local->slope.error}, design};
    };
    const auto acceleration = [&](CamAngle angle) -> std::optional<MotionAt> {
        const auto local = error.of_lift.at(angle.radians(), wide);
        if (!local) return std::nullopt;
        const double design = lobe.motion.at(angle).acceleration;
        return MotionAt{{design + local->bend.value, local->bend.error}, design};
    };
    const auto rise = extreme(lobe, 1.0, per_degree, velocity);
    const auto fall = extreme(lobe, -1.0, per_degree, velocity);
    const auto up = extreme(lobe, 1.0, per_degree * per_degree, acceleration);
    const auto down = extreme(lobe, -1.0, per_degree * per_degree, acceleration);
    if (!rise || !fall || !up || !down) return std::nullopt;
    return MeasuredMotion{
        *rise, *fall, *up, *down, CamAngle::from_radians(narrow), CamAngle::from_radians(wide)};
}

}  // namespace lobewright::inspection
