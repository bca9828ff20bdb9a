#include "inspect/fit/phase_fit.h"

#include "base/whole_steps.h"
#include "inspect/fit/lobe_readings.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::inspection {
namespace {

constexpr std::size_t most_for_search = 400;  // readings that tell which phase is about right
constexpr std::size_t most_for_start = 2000;  // and that the fit begins with
constexpr double level_slope = 1e-9;          // of the base radius, per radian: rounding
constexpr int table_size = 1440;
constexpr double flank_share = 0.02;  // of the steepest slope: less is heel, dwell or peak
constexpr int most_regrowths = 4;
constexpr double same_growth = 1e-9;  // mm

/// Readings of the design, to look up.
class HeightTable {
  public:
    explicit HeightTable(const ContourProbe& probe) {
        for (int i = 0; i <= table_size; ++i)
            heights_.push_back(probe.height(full_turn * i / table_size));
    }
    [[nodiscard]] double at(double beta) const {
        const double turns = beta / full_turn;
        const double place = (turns - std::floor(turns)) * table_size;
        const std::size_t i = std::min(static_cast<std::size_t>(place), heights_.size() - 2);
        return heights_[i] + (place - static_cast<double>(i)) * (heights_[i + 1] - heights_[i]);
    }

  private:
    std::vector<double> heights_;
};

/// How badly a phase does, whatever the level: the sum of distances from the middle one, and that level.
struct Trial {
    double phase = 0.0;
    double level = 0.0;
    double sum = 0.0;
};
Trial trial_of(const HeightTable& table, const std::vector<RayReading>& readings, double sense,
               double phase) {
    std::vector<double> off;
    for (const RayReading& each : readings)
        off.push_back(each.reading - table.at(each.beta + sense * phase));
    Trial trial{phase, median_of(off)};
    for (const double each : off)
        trial.sum += std::abs(each - trial.level);
    return trial;
}

/// The best of all phases, every degree of one period; of equals the least.
Trial best_trial(const SolvedLobe& lobe, const ContourProbe& probe, const std::vector<RayReading>& readings) {
    const HeightTable table(probe);
    const auto some = thinned(readings, most_for_search);
    const double sense = sign_of(lobe.turns), period = full_turn / lobe.repeat;
    const int half = std::max(1, static_cast<int>(nearest_step(0.5 * period * 180.0 / std::numbers::pi)));
    Trial best = trial_of(table, some, sense, 0.0);
    for (int i = 1; i <= half; ++i) {
        for (const int step : {i, -i}) {
            const Trial trial = trial_of(table, some, sense, 0.5 * period * step / half);
            if (trial.sum < best.sum * (1.0 - 1e-9)) best = trial;
        }
    }
    return best;
}

/// What is fitted: phase, level, and with runout a cosine and a sine over the shaft angle.
class PhaseModel {
  public:
    PhaseModel(const SolvedLobe& lobe, const Probe& probe, const InspectRequest& request)
        : lobe_(lobe), probe_(probe), request_(request), on_(lobe.contour, lobe.base_radius, probe) {}

    [[nodiscard]] const ContourProbe& probe() const { return on_; }
    [[nodiscard]] std::size_t unknowns() const { return request_.runout_unknown ? 4 : 2; }

    /// A lobe thicker by g all round under a ball of radius r reads as the lobe under one of r + g, and g
    /// more: from there on the level's effect is linear. True of anvils at once, of a knife where g > 0.
    bool regrow(double level) {
        const bool grows = !request_.zero_unknown && probe_.kind != ProbeKind::flat;
        if (!grows || !(probe_.radius + level > 0.0) || std::abs(level - grown_) < same_growth) return false;
        grown_ = level;
        on_ = ContourProbe(lobe_.contour, lobe_.base_radius, {ProbeKind::ball, probe_.radius + level, {}});
        return true;
    }

    [[nodiscard]] FittedReading at(const RayReading& reading, const Unknowns& u) const {
        return fitted(reading, u, touch(reading, u));
    }
    [[nodiscard]] FitRow row(const RayReading& reading, const Unknowns& u) const {
        const ProbeTouch touching = touch(reading, u);
        const double phi = lobe_.at.radians() + reading.beta;
        const Vec2 around = unit(phi);
        FitRow row;
        row.residual = fitted(reading, u, touching).residual;
        const bool level = std::abs(touching.slope) < level_slope * lobe_.base_radius;
        row.slopes = {level ? 0.0 : touching.slope * sign_of(lobe_.turns), growth_of(touching), around.x,
                      around.y};
        return row;
    }

  private:
    [[nodiscard]] ProbeTouch touch(const RayReading& reading, const Unknowns& u) const {
        return on_.touch(reading.beta + sign_of(lobe_.turns) * u[0]);
    }
    [[nodiscard]] double growth_of(const ProbeTouch& touch) const {
        return request_.zero_unknown ? 1.0 : touch.growth;
    }
    [[nodiscard]] FittedReading fitted(const RayReading& reading, const Unknowns& u,
                                       const ProbeTouch& touching) const {
        FittedReading fitted;
        fitted.ray = reading.beta + sign_of(lobe_.turns) * u[0];
        fitted.growth = touching.growth;
        fitted.expected = touching.height + grown_ + (u[1] - grown_) * growth_of(touching);
        if (request_.runout_unknown)
            fitted.expected += dot({u[2], u[3]}, unit(lobe_.at.radians() + reading.beta));
        fitted.residual = reading.reading - fitted.expected;
        return fitted;
    }

    const SolvedLobe& lobe_;
    Probe probe_;
    const InspectRequest& request_;
    ContourProbe on_;
    double grown_ = 0.0;
};

/// Heel, dwell and peak are one group, flanks the other: an angle set badly shows on flanks alone.
std::vector<int> groups_of(const PhaseModel& model, const std::vector<RayReading>& readings,
                           const Unknowns& u) {
    std::vector<double> slopes;
    for (const RayReading& each : readings)
        slopes.push_back(std::abs(model.row(each, u).slopes[0]));
    const double steepest = slopes.empty() ? 0.0 : *std::max_element(slopes.begin(), slopes.end());
    std::vector<int> groups;
    for (const double slope : slopes)
        groups.push_back(slope > flank_share * steepest ? 1 : 0);
    return groups;
}

FitProblem problem_of(const PhaseModel& model, const std::vector<RayReading>& readings, const Unknowns& at,
                      double least_scale) {
    FitProblem problem;
    problem.unknowns = model.unknowns();
    problem.groups = groups_of(model, readings, at);
    problem.least_scale = least_scale;
    problem.row = [&model, &readings](std::size_t i, const Unknowns& u) { return model.row(readings[i], u); };
    return problem;
}

std::optional<FitFound> fit_all(PhaseModel& model, const std::vector<RayReading>& readings,
                                const Unknowns& start, double least_scale) {
    const auto some = thinned(readings, most_for_start);
    auto found = robust_fit(problem_of(model, some, start, least_scale), start);
    if (!found) return std::nullopt;
    for (int i = 0; i <= most_regrowths; ++i) {
        const bool regrown = model.regrow(found->values[1]);
        found = settled_fit(problem_of(model, readings, found->values, least_scale), found->values);
        if (!found || !regrown) break;
    }
    return found;
}

}  // namespace

RunoutFound runout_of(const FitFound& found, std::size_t k) {
    const Vec2 wave{found.values[k], found.values[k + 1]};
    RunoutFound runout;
    runout.amplitude.value = length(wave);
    runout.at = ShaftAngle::from_radians(direction(wave));
    const Vec2 along = unit(runout.at.radians()), across = quarter_turn(along);
    const auto variance = [&](Vec2 way) {
        return way.x * way.x * found.covariance(k, k) + way.y * way.y * found.covariance(k + 1, k + 1) +
               2.0 * way.x * way.y * found.covariance(k, k + 1);
    };
    runout.amplitude.error = std::sqrt(std::max(0.0, variance(along)));
    const double aside = std::sqrt(std::max(0.0, variance(across)));
    runout.at_error = runout.amplitude.value > 0.0
                          ? std::min(std::numbers::pi, aside / runout.amplitude.value)
                          : std::numbers::pi;
    return runout;
}

std::optional<PhaseFound> find_phase(const SolvedLobe& lobe, const Probe& probe,
                                     const std::vector<RayReading>& readings, const InspectRequest& request,
                                     double least_scale) {
    PhaseModel model(lobe, probe, request);
    const Trial trial = best_trial(lobe, model.probe(), readings);
    Unknowns start(model.unknowns());
    start[0] = trial.phase, start[1] = trial.level;
    const auto fit = fit_all(model, readings, start, least_scale);
    if (!fit) return std::nullopt;
    PhaseFound found;
    found.phase = {fit->values[0], fit->errors[0]};
    found.level = {fit->values[1], fit->errors[1]};
    if (request.runout_unknown) found.runout = runout_of(*fit, 2);
    for (const RayReading& each : readings)
        found.readings.push_back(model.at(each, fit->values));
    return found;
}

}  // namespace lobewright::inspection
