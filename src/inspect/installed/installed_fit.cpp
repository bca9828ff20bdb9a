#include "inspect/fit/lobe_readings.h"
#include "inspect/fit/stray_readings.h"
#include "inspect/installed/crank_frame.h"
#include "inspect/verdict/inspection_refusals.h"

#include <lobewright/inspect_installed.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

using namespace inspection;

constexpr std::size_t fewest_readings = 8;
constexpr std::size_t most_for_search = 400;
constexpr int search_steps = 720;

/// Unknowns: the phase, and with an unknown zero what the dial shows on the shut valve.
class InstalledModel {
  public:
    InstalledModel(const SolvedLobe& lobe, double clearance, bool zero_unknown)
        : lobe_(lobe), clearance_(clearance), zero_unknown_(zero_unknown) {}

    [[nodiscard]] std::size_t unknowns() const { return zero_unknown_ ? 2 : 1; }
    [[nodiscard]] FitRow row(const RayReading& reading, const Unknowns& u) const {
        // A ray's beta is -s × cam angle.
        const double angle = -sign_of(lobe_.turns) * reading.beta - u[0];
        const OpenValve valve = valve_lift(lobe_, clearance_, CamAngle::from_radians(angle));
        FitRow row;
        row.residual = reading.reading - valve.lift - (zero_unknown_ ? u[1] : 0.0);
        row.slopes[0] = -valve.slope;
        row.slopes[1] = 1.0;
        return row;
    }
    /// The best of phases all round, with the level that its readings have in the middle.
    [[nodiscard]] Unknowns start(const std::vector<RayReading>& readings) const {
        const auto some = thinned(readings, most_for_search);
        Unknowns best(unknowns());
        double least = -1.0;
        for (int i = 0; i < search_steps; ++i) {
            const int step = i % 2 == 0 ? i / 2 : -(i + 1) / 2;
            Unknowns u(unknowns());
            u[0] = lobe_.motion.period().radians() * step / search_steps;
            std::vector<double> off;
            for (const RayReading& each : some)
                off.push_back(row(each, u).residual);
            if (zero_unknown_) u[1] = median_of(off);
            double sum = 0.0;
            for (const double each : off)
                sum += std::abs(each - (zero_unknown_ ? u[1] : 0.0));
            if (least < 0.0 || sum < least * (1.0 - 1e-9)) least = sum, best = u;
        }
        return best;
    }

  private:
    const SolvedLobe& lobe_;
    double clearance_;
    bool zero_unknown_;
};

/// The valve moving is one group, shut or at its peak the other.
std::vector<int> groups_of(const InstalledModel& model, const std::vector<RayReading>& readings,
                           const Unknowns& u) {
    std::vector<int> groups;
    for (const RayReading& each : readings)
        groups.push_back(model.row(each, u).slopes[0] != 0.0 ? 1 : 0);
    return groups;
}

std::optional<FitFound> fit_model(const InstalledModel& model, const std::vector<RayReading>& readings,
                                  double least_scale) {
    FitProblem problem;
    problem.unknowns = model.unknowns();
    problem.least_scale = least_scale;
    problem.row = [&](std::size_t i, const Unknowns& u) { return model.row(readings[i], u); };
    const Unknowns start = model.start(readings);
    problem.groups = groups_of(model, readings, start);
    return robust_fit(problem, start);
}

void put_errors(InstalledFit& fit, const Job& job, const SolvedLobe& lobe, const FitFound& found,
                const std::vector<RayReading>& readings, double step) {
    const auto stray = stray_readings(found.residuals, least_scatter(step));
    double squares = 0.0;
    for (std::size_t i = 0; i < stray.size(); ++i) {
        if (stray[i]) {
            ++fit.set_aside;
            continue;
        }
        squares += found.residuals[i] * found.residuals[i];
        if (std::abs(found.residuals[i]) <= std::abs(fit.worst_error)) continue;
        fit.worst_error = found.residuals[i];
        fit.worst_at =
            crank_angle_at(job, lobe, CamAngle::from_radians(-sign_of(lobe.turns) * readings[i].beta));
    }
    fit.readings = stray.size();
    if (fit.readings > fit.set_aside)
        fit.rms_error = std::sqrt(squares / static_cast<double>(fit.readings - fit.set_aside));
}

}  // namespace

Outcome<InstalledFit> fit_installed(const Job& job, const std::vector<SolvedLobe>& lobes,
                                    const MeasuredLobe& measured, bool zero_unknown, const GearSteps& steps) {
    const SolvedLobe& lobe = lobes[measured.lobe];
    const Place& first = measured.readings.front().place;
    if (measured.readings.size() < fewest_readings)
        return too_few_readings(lobe, measured.readings.size(), fewest_readings, first);
    const auto readings = rays_of(lobe, measured, order_round(lobe, measured));
    const InstalledModel model(lobe, clearance_of(job, lobe), zero_unknown);
    const auto found = fit_model(model, readings, least_scatter(measured.step));
    if (!found) return readings_tell_nothing(lobe, {zero_unknown, false, std::nullopt}, first);
    InstalledFit fit;
    fit.lobe = measured.lobe;
    fit.phase = {found->values[0], found->errors[0]};
    if (zero_unknown) fit.zero = Estimate{found->values[1], found->errors[1]};
    put_errors(fit, job, lobe, *found, readings, measured.step);
    fit.setting = gear_setting(CamAngle::from_radians(fit.phase.value), steps);
    return fit;
}

}  // namespace lobewright
