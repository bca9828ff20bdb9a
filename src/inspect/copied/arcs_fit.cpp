#include "inspect/copied/heel_level.h"
#include "inspect/fit/lobe_readings.h"
#include "inspect/fit/stray_readings.h"
#include "inspect/verdict/inspection_refusals.h"
#include "profile/shape/arcs.h"

#include <lobewright/inspect_shape.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

using namespace inspection;
using profile::ArcShape;

constexpr std::size_t fewest_readings = 12;
constexpr std::size_t most_for_start = 240;
constexpr std::size_t most_for_fit = 20000;
constexpr double straight_within = 2.0;     // standard errors
constexpr double straight_at_least = 1e-9;  // of 1 / base radius
constexpr double explained = 2.0;           // times the readings' own scatter
constexpr double always_explained = 5e-4;   // mm
constexpr double explained_by_step = 0.6;

/// Unknowns in their order; the last two with runout alone.
enum Unknown : std::size_t { phase, level, lift, half_action, curvature, cosine, sine };

/// A lobe of arcs under the probe, with its unknowns.
class ArcsModel {
  public:
    ArcsModel(const SolvedLobe& lobe, const Probe& probe, const InspectRequest& request)
        : lobe_(lobe), probe_(probe), request_(request) {}

    [[nodiscard]] std::size_t unknowns() const { return request_.runout_unknown ? 7 : 5; }
    [[nodiscard]] double base_of(const Unknowns& u) const {
        return lobe_.base_radius + (request_.zero_unknown ? 0.0 : u[level]);
    }
    [[nodiscard]] ArcShape shape_of(const Unknowns& u) const {
        return profile::shape_from_flank(base_of(u), base_of(u) + u[lift], u[half_action], u[curvature]);
    }
    [[nodiscard]] bool possible(const Unknowns& u) const {
        if (!(u[lift] > 0.0) || !(base_of(u) > 0.0)) return false;
        if (!(u[half_action] > 0.0) || !(u[half_action] < std::numbers::pi / lobe_.repeat)) return false;
        return shape_of(u).exists();
    }

    /// The reading that these unknowns make; a contour for the shape is made once for all readings.
    class At {
      public:
        At(const ArcsModel& model, const Unknowns& u)
            : u_(u),
              model_(model),
              probe_(Contour(profile::arc_contour({model.shape_of(u), model.shape_of(u)}, model.lobe_.turns,
                                                  full_turn / model.lobe_.repeat)),
                     model.lobe_.base_radius, model.probe_) {}
        [[nodiscard]] double reading(double beta) const {
            double height = probe_.height(beta + sign_of(model_.lobe_.turns) * u_[phase]);
            if (model_.request_.zero_unknown) height += u_[level];
            if (model_.request_.runout_unknown)
                height += dot({u_[cosine], u_[sine]}, unit(model_.lobe_.at.radians() + beta));
            return height;
        }

      private:
        Unknowns u_;
        const ArcsModel& model_;
        ContourProbe probe_;
    };

    /// Steps for differences: well above the roots' noise, well below what bends the figures.
    [[nodiscard]] double step_of(std::size_t unknown) const {
        return unknown == curvature ? 1e-6 / lobe_.base_radius : 1e-6;
    }

  private:
    const SolvedLobe& lobe_;
    Probe probe_;
    const InspectRequest& request_;
};

/// The model at some unknowns and a step to either side of each, kept until other unknowns are asked for.
class ArcsRows {
  public:
    ArcsRows(const ArcsModel& model, const std::vector<RayReading>& readings)
        : model_(model), readings_(readings) {}

    FitRow row(std::size_t i, const Unknowns& u) {
        if (middle_.empty() || u != at_) settle(u);
        const double beta = readings_[i].beta;
        FitRow row;
        row.residual = readings_[i].reading - middle_.front().reading(beta);
        for (std::size_t k = 0; k < model_.unknowns(); ++k)
            row.slopes[k] = (above_[k].reading(beta) - below_[k].reading(beta)) / (2.0 * model_.step_of(k));
        return row;
    }

  private:
    void settle(const Unknowns& u) {
        at_ = u;
        middle_.clear(), above_.clear(), below_.clear();
        middle_.emplace_back(model_, u);
        for (std::size_t k = 0; k < model_.unknowns(); ++k) {
            Unknowns up = u, down = u;
            up[k] += model_.step_of(k), down[k] -= model_.step_of(k);
            above_.emplace_back(model_, up), below_.emplace_back(model_, down);
        }
    }

    const ArcsModel& model_;
    const std::vector<RayReading>& readings_;
    Unknowns at_;
    std::vector<ArcsModel::At> middle_, above_, below_;
};

/// Nose half, flanks half: an angle set badly shows where the lobe lifts steeply. Heel is what reads its
/// level.
std::vector<int> groups_of(const std::vector<RayReading>& readings, const RoughLobe& rough) {
    std::vector<int> groups;
    for (const RayReading& each : readings) {
        const double height = (each.reading - rough.level) / rough.lift;
        groups.push_back(height > 0.02 && height < 0.98 ? 1 : 0);
    }
    return groups;
}

FitProblem problem_of(const ArcsModel& model, ArcsRows& rows, const std::vector<RayReading>& readings,
                      const RoughLobe& rough, double least_scale) {
    FitProblem problem;
    problem.unknowns = model.unknowns();
    problem.groups = groups_of(readings, rough);
    problem.least_scale = least_scale;
    problem.row = [&rows](std::size_t i, const Unknowns& u) { return rows.row(i, u); };
    problem.possible = [&model](const Unknowns& u) { return model.possible(u); };
    return problem;
}

double sum_of_sizes(const ArcsModel& model, const std::vector<RayReading>& readings, const Unknowns& u) {
    const ArcsModel::At at(model, u);
    double sum = 0.0;
    for (const RayReading& each : readings)
        sum += std::abs(each.reading - at.reading(each.beta));
    return sum;
}

/// The best of a grid of action angles and flanks; nothing where no lobe of arcs exists on it.
std::optional<Unknowns> start_of(const ArcsModel& model, const SolvedLobe& lobe,
                                 const std::vector<RayReading>& readings, const RoughLobe& rough,
                                 bool zero_unknown) {
    const auto some = thinned(readings, most_for_start);
    std::optional<Unknowns> best;
    double least = 0.0;
    for (int wide = 1; wide <= 16; ++wide) {
        for (const double bend : {0.9, 0.6, 0.4, 0.25, 0.15, 0.08, 0.03, 0.0, -0.05, -0.12}) {
            Unknowns u(model.unknowns());
            u[phase] = -sign_of(lobe.turns) * rough.nose;
            u[level] = rough.level, u[lift] = rough.lift;
            u[half_action] = rough.half_width * (1.0 + 0.125 * wide);
            u[curvature] = bend / (lobe.base_radius + (zero_unknown ? 0.0 : rough.level));
            if (!model.possible(u)) continue;
            const double sum = sum_of_sizes(model, some, u);
            if (!best || sum < least) best = u, least = sum;
        }
    }
    return best;
}

std::optional<FitFound> fit_all(const ArcsModel& model, const SolvedLobe& lobe,
                                const std::vector<RayReading>& readings, double least_scale,
                                bool zero_unknown) {
    const RoughLobe rough = rough_lobe(readings);
    if (!(rough.lift > 0.0)) return std::nullopt;
    const auto start = start_of(model, lobe, readings, rough, zero_unknown);
    if (!start) return std::nullopt;
    const auto some = thinned(readings, 2000);
    ArcsRows few(model, some), all(model, readings);
    const auto near = robust_fit(problem_of(model, few, some, rough, least_scale), *start);
    if (!near) return std::nullopt;
    return settled_fit(problem_of(model, all, readings, rough, least_scale), near->values);
}

/// The nose's radius with its error, by its slopes along the unknowns.
Estimate nose_of(const ArcsModel& model, const FitFound& found) {
    std::vector<double> slopes(model.unknowns());
    for (const std::size_t k :
         {std::size_t{level}, std::size_t{lift}, std::size_t{half_action}, std::size_t{curvature}}) {
        Unknowns up = found.values, down = found.values;
        up[k] += model.step_of(k), down[k] -= model.step_of(k);
        slopes[k] = (model.shape_of(up).nose - model.shape_of(down).nose) / (2.0 * model.step_of(k));
    }
    const auto spread = product(found.covariance, slopes);
    double variance = 0.0;
    for (std::size_t k = 0; k < slopes.size(); ++k)
        variance += slopes[k] * spread[k];
    return {model.shape_of(found.values).nose, std::sqrt(std::max(0.0, variance))};
}

void put_residuals(FittedArcs& arcs, const FitFound& found, const SolvedLobe& lobe,
                   const std::vector<RayReading>& readings, double step) {
    const double least = least_scatter(step);
    const std::vector<bool> stray = stray_readings(found.residuals, least);
    std::vector<double> kept;
    double squares = 0.0;
    for (std::size_t i = 0; i < stray.size(); ++i) {
        if (stray[i]) continue;
        const double off = found.residuals[i];
        kept.push_back(off), squares += off * off;
        if (std::abs(off) <= std::abs(arcs.worst_residual)) continue;
        arcs.worst_residual = off;
        arcs.worst_at = CamAngle::from_radians(-sign_of(lobe.turns) * readings[i].beta);
    }
    arcs.readings = stray.size(), arcs.set_aside = stray.size() - kept.size();
    if (kept.empty()) return;
    arcs.rms_residual = std::sqrt(squares / static_cast<double>(kept.size()));
    arcs.scatter = scatter_about_neighbours(kept);
    arcs.is_arcs =
        arcs.rms_residual <= std::max({explained * arcs.scatter, always_explained, explained_by_step * step});
}

Diagnostic no_arcs(const SolvedLobe& lobe, const Place& place) {
    return {Fault::check_failed,
            Severity::error,
            "no-arcs",
            "no lobe of base circle, flanks and nose comes near the readings of lobe '" + lobe.name + "'",
            "see whether they go right round, in the unit of --unit; or take --fit table",
            place};
}

}  // namespace

std::optional<Estimate> FittedArcs::flank_radius() const {
    const double k = flank_curvature.value;
    if (std::abs(k) <= straight_within * flank_curvature.error ||
        std::abs(k) * base_radius.value <= straight_at_least)
        return std::nullopt;
    return Estimate{1.0 / k, flank_curvature.error / (k * k)};
}

Outcome<FittedArcs> fit_arcs(const Job& job, const std::vector<SolvedLobe>& lobes,
                             const MeasuredLobe& measured, const InspectRequest& request) {
    const SolvedLobe& lobe = lobes[measured.lobe];
    const Place& first = measured.readings.front().place;
    if (measured.readings.size() < fewest_readings)
        return too_few_readings(lobe, measured.readings.size(), fewest_readings, first);
    const ArcsModel model(lobe, job.probe.value_or(Probe{}), request);
    const std::vector<RayReading> readings =
        thinned(rays_of(lobe, measured, order_round(lobe, measured)), most_for_fit);
    const auto found = fit_all(model, lobe, readings, least_scatter(measured.step), request.zero_unknown);
    if (!found) return no_arcs(lobe, first);
    const auto estimate = [&](Unknown k) { return Estimate{found->values[k], found->errors[k]}; };
    FittedArcs arcs;
    arcs.base_radius = {model.base_of(found->values), request.zero_unknown ? 0.0 : found->errors[level]};
    if (request.zero_unknown) arcs.zero = estimate(level);
    arcs.lift = estimate(lift), arcs.phase = estimate(phase), arcs.flank_curvature = estimate(curvature);
    arcs.phase.value = wrapped_radians(arcs.phase.value);
    arcs.action_angle = {2.0 * found->values[half_action], 2.0 * found->errors[half_action]};
    arcs.nose_radius = nose_of(model, *found);
    if (request.runout_unknown) arcs.runout = runout_of(*found, cosine);
    put_residuals(arcs, *found, lobe, readings, measured.step);
    return arcs;
}

}  // namespace lobewright
