#include "inspect/verdict/lobe_error.h"
#include "profile/follower/lobe_curve.h"

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
constexpr double place_step = full_turn / places_of_a_turn;

/// Stretches of cam angle, each from one place with readings to the last beside it without a gap, half a step
/// round each counted in.
class Covered {
  public:
    void add(double angle) {
        if (stretches_.empty() || angle - stretches_.back().high > place_step)
            stretches_.push_back({angle - 0.5 * place_step, angle});
        stretches_.back().high = angle + 0.5 * place_step;
    }
    [[nodiscard]] const std::vector<Interval>& stretches() const { return stretches_; }

  private:
    std::vector<Interval> stretches_;
};

/// The largest of `sense` × the measured figure over one period: at many places and, since what is measured
/// is the design and a smooth error, where the design has its own largest.
template <class F>
std::optional<MotionExtreme> extreme(const SolvedLobe& lobe, const profile::LobeCurve& curve, double sense,
                                     double unit, const profile::LobeCurve::Quantity& designed,
                                     const F& figure) {
    std::optional<MotionExtreme> best;
    const auto see = [&](CamAngle angle) {
        const std::optional<Estimate> found = figure(angle);
        if (found && (!best || sense * found->value * unit > sense * best->measured.value))
            best = MotionExtreme{{found->value * unit, found->error * unit}, angle, 0.0};
        return found.has_value();
    };
    Covered covered;
    const double half = 0.5 * lobe.motion.period().radians();
    for (int i = 0; i < places_of_a_turn; ++i) {
        const double angle = place_step * i - std::numbers::pi;
        if (std::abs(angle) <= half && see(CamAngle::from_radians(angle))) covered.add(angle);
    }
    if (!best) return std::nullopt;
    const FigureAt most =
        curve.largest_on([&](const auto& contact) { return sense * designed(contact); }, covered.stretches());
    if (most.at) see(*most.at);
    best->design = sense * most.value * unit;
    return best;
}

}  // namespace

std::optional<MeasuredMotion> measured_motion(const SolvedLobe& lobe, const LobeError& error) {
    if (error.of_lift.empty()) return std::nullopt;
    const double narrow = error.of_lift.half_width_for(figures_for_velocity, least_for_velocity);
    const double wide = error.of_lift.half_width_for(figures_for_acceleration, least_for_acceleration);
    if (wide > widest) return std::nullopt;
    using Contact = const profile::LobeCurve::Contact&;
    const profile::LobeCurve curve(lobe.motion.pieces(), lobe.follower, lobe.base_radius, lobe.turns);
    const auto velocity = [&](CamAngle angle) -> std::optional<Estimate> {
        const auto local = error.of_lift.at(angle.radians(), narrow);
        if (!local) return std::nullopt;
        return Estimate{lobe.motion.at(angle).velocity + local->slope.value, local->slope.error};
    };
    const auto acceleration = [&](CamAngle angle) -> std::optional<Estimate> {
        const auto local = error.of_lift.at(angle.radians(), wide);
        if (!local) return std::nullopt;
        return Estimate{lobe.motion.at(angle).acceleration + local->bend.value, local->bend.error};
    };
    const auto of_velocity = [](Contact contact) { return contact.velocity; };
    const auto of_acceleration = [](Contact contact) { return contact.acceleration; };
    constexpr double per_square = per_degree * per_degree;
    const auto rise = extreme(lobe, curve, 1.0, per_degree, of_velocity, velocity);
    const auto fall = extreme(lobe, curve, -1.0, per_degree, of_velocity, velocity);
    const auto up = extreme(lobe, curve, 1.0, per_square, of_acceleration, acceleration);
    const auto down = extreme(lobe, curve, -1.0, per_square, of_acceleration, acceleration);
    if (!rise || !fall || !up || !down) return std::nullopt;
    return MeasuredMotion{
        *rise, *fall, *up, *down, CamAngle::from_radians(narrow), CamAngle::from_radians(wide)};
}

}  // namespace lobewright::inspection
