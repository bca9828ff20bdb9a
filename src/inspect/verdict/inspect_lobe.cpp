#include "inspect/fit/lobe_readings.h"
#include "inspect/fit/stray_readings.h"
#include "inspect/verdict/examined_lobe.h"
#include "inspect/verdict/inspection_refusals.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

using namespace inspection;

constexpr std::size_t fewest_readings = 8;
constexpr double same_angle = 1e-7;  // radians
constexpr double nose_window = 6.0 * std::numbers::pi / 180.0;

/// Where a dial's steps are coarser than what moves it, all readings of the heel are rounded alike: no number
/// of them tells more than one does.
Estimate rounded_alike(Estimate level, double scatter, double step) {
    if (step > 0.0 && scatter < 0.5 * step) level.error = std::max(level.error, step / std::sqrt(12.0));
    return level;
}

std::optional<Repeatability> repeatability(const std::vector<RayReading>& readings,
                                           const std::vector<bool>& used) {
    Repeatability found;
    double squares = 0.0;
    int freedoms = 0;
    for (std::size_t i = 0, end = 0; i < readings.size(); i = end) {
        double sum = 0.0, sum_of_squares = 0.0;
        int count = 0;
        for (end = i; end < readings.size() && readings[end].beta - readings[i].beta < same_angle; ++end) {
            if (!used[end]) continue;
            const double off = readings[end].reading - readings[i].reading;
            sum += off, sum_of_squares += off * off, ++count;
        }
        if (count < 2) continue;
        squares += std::max(0.0, sum_of_squares - sum * sum / count);
        freedoms += count - 1, ++found.angles, found.readings += count;
    }
    if (freedoms == 0) return std::nullopt;
    found.deviation = std::sqrt(squares / freedoms);
    return found;
}

/// All that one inspection goes through, in the readings' order round the lobe.
struct Work {
    const SolvedLobe& lobe;
    std::vector<RayReading> readings;
    std::vector<Place> places;
    PhaseFound fit;
    std::vector<double> residuals;
    std::vector<bool> used;
    double deviation;
};

void take_readings(Work& work, const MeasuredLobe& measured) {
    const std::vector<std::size_t> order = order_round(work.lobe, measured);
    work.readings = rays_of(work.lobe, measured, order);
    for (const std::size_t i : order)
        work.places.push_back(measured.readings[i].place);
}

void set_strays_aside(Work& work, double step) {
    for (const FittedReading& each : work.fit.readings)
        work.residuals.push_back(each.residual);
    work.used = stray_readings(work.residuals, least_scatter(step));
    work.used.flip();
    std::vector<double> kept;
    for (std::size_t i = 0; i < work.used.size(); ++i)
        if (work.used[i]) kept.push_back(work.residuals[i]);
    work.deviation = std::max(least_scatter(step), scatter_about_neighbours(kept));
}

/// By cam angle, from -180 degrees.
std::vector<JudgedReading> judged(const Work& work) {
    std::vector<JudgedReading> all;
    for (std::size_t i = 0; i < work.readings.size(); ++i) {
        const double beta = work.readings[i].beta;
        JudgedReading each;
        each.cam_angle = CamAngle::from_radians(-sign_of(work.lobe.turns) * beta);
        each.shaft_angle = work.lobe.at + ShaftAngle::from_radians(beta);
        each.reading = work.readings[i].reading;
        each.expected = work.fit.readings[i].expected;
        each.error = work.residuals[i];
        each.set_aside = !work.used[i];
        each.place = work.places[i];
        all.push_back(std::move(each));
    }
    if (work.lobe.turns == Sense::ccw) std::reverse(all.begin(), all.end());
    return all;
}

void put_errors(LobeInspection& found) {
    double squares = 0.0;
    int count = 0;
    for (const JudgedReading& each : found.readings) {
        if (each.set_aside) continue;
        squares += each.error * each.error, ++count;
        if (std::abs(each.error) <= std::abs(found.worst_lift_error)) continue;
        found.worst_lift_error = each.error, found.worst_at = each.cam_angle;
    }
    if (count > 0) found.rms_error = std::sqrt(squares / count);
}

void put_fit(LobeInspection& found, const Work& work, double step) {
    found.phase = work.fit.phase;
    const Estimate level = rounded_alike(work.fit.level, robust_scale(work.residuals), step);
    (found.request.zero_unknown ? found.zero : found.base) = level;
    found.runout = work.fit.runout;
    found.scatter = work.deviation;
    found.readings = judged(work);
    found.repeats = repeatability(work.readings, work.used);
}

/// The lift error degree by degree, where readings are near.
std::vector<ErrorPlace> course_of(const LobeError& error) {
    constexpr int places = 360;
    std::vector<ErrorPlace> course;
    const std::optional<double> window = error.of_lift.usual_window();
    if (!window) return course;
    for (int i = 0; i <= places; ++i) {
        const CamAngle angle = CamAngle::from_degrees(-180.0 + i * 360.0 / places);
        if (const auto local = error.of_lift.at(angle.radians(), *window))
            course.push_back({angle, local->value});
    }
    return course;
}

void put_verdicts(const Job& job, LobeInspection& found, const Work& work, const LobeError& error) {
    found.lift_course = course_of(error);
    if (const auto nose = error.of_lift.at(0.0, error.of_lift.half_width_for(7, nose_window)))
        found.nose_error = nose->value;
    found.motion = measured_motion(work.lobe, error);
    found.events = measured_events(job, work.lobe, error, found.phase);
    found.surface = surface_found(error, found.base.value_or(Estimate{}), found.request.tolerance);
}

}  // namespace

namespace inspection {

Outcome<ExaminedLobe> examine_lobe(const Job& job, const std::vector<SolvedLobe>& lobes,
                                   const MeasuredLobe& measured, const InspectRequest& request) {
    const SolvedLobe& lobe = lobes[measured.lobe];
    const Place& first = measured.readings.front().place;
    if (measured.readings.size() < fewest_readings)
        return too_few_readings(lobe, measured.readings.size(), fewest_readings, first);
    LobeInspection found;
    found.lobe = measured.lobe;
    found.probe = job.probe.value_or(Probe{});
    found.request = request;
    found.step = measured.step;
    Work work{lobe, {}, {}, {}, {}, {}, 0.0};
    take_readings(work, measured);
    auto fit = find_phase(lobe, found.probe, work.readings, request, least_scatter(measured.step));
    if (!fit) return readings_tell_nothing(lobe, request, first);
    work.fit = std::move(*fit);
    set_strays_aside(work, measured.step);
    put_fit(found, work, measured.step);
    put_errors(found);
    LobeError error = lobe_error(lobe, found.probe, work.fit.readings, work.used, work.deviation);
    put_verdicts(job, found, work, error);
    found.findings = doubts_about(lobe, found, job.units, first);
    return ExaminedLobe{std::move(found), std::move(error)};
}

}  // namespace inspection

Outcome<LobeInspection> inspect_lobe(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     const MeasuredLobe& measured, const InspectRequest& request) {
    auto examined = examine_lobe(job, lobes, measured, request);
    if (!examined) return examined.diagnostics();
    return std::move(examined).value().found;
}

}  // namespace lobewright
