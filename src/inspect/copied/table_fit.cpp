#include "inspect/copied/heel_level.h"
#include "inspect/fit/lobe_readings.h"
#include "inspect/fit/stray_readings.h"
#include "inspect/verdict/inspection_refusals.h"

#include <lobewright/inspect_shape.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

using namespace inspection;

constexpr std::size_t fewest_readings = 24;
constexpr double most_by_scatter = 4.0;   // standard deviations: what smoothing may move a reading by
constexpr double least_smoothing = 1e-4;  // mm
constexpr double same_angle = 1e-7;       // radians

/// A follower of the probe's own shape, on the shaft's axis.
Follower probe_as_follower(const Probe& probe) {
    static const FollowerKind kinds[] = {FollowerKind::flat, FollowerKind::roller, FollowerKind::knife};
    Follower follower;
    follower.kind = kinds[static_cast<std::size_t>(probe.kind)];
    follower.radius = probe.radius;
    return follower;
}

/// And the probe that is a follower; nothing for one that stands beside the axis or on an arm, or
/// whose face is out of square.
std::optional<Probe> follower_as_probe(const Follower& follower) {
    if (follower.kind == FollowerKind::pivoted || follower.offset != 0.0 ||
        follower.face_tilt != SpaceAngle{})
        return std::nullopt;
    if (follower.kind == FollowerKind::flat) return Probe{};
    if (follower.kind == FollowerKind::knife) return Probe{ProbeKind::knife, 0.0, {}};
    return Probe{ProbeKind::ball, follower.radius, {}};
}

/// The readings round the lobe, one for each angle; strays are put where their neighbours want them.
struct CleanReadings {
    std::vector<Reading> lifts;  ///< over the base circle found
    double base_error = 0.0;     ///< of the base circle, mm
    double scatter = 0.0;
    std::size_t set_aside = 0;
};

/// Readings at one angle as one, their mean.
struct MeanReading {
    double beta = 0.0;
    double reading = 0.0;
    int count = 0;
    std::size_t source = 0;  ///< the first of them
};
std::vector<MeanReading> means_of(const std::vector<RayReading>& rays,
                                  const std::vector<std::size_t>& order) {
    std::vector<MeanReading> means;
    for (std::size_t i = 0; i < rays.size(); ++i) {
        if (means.empty() || rays[i].beta - means.back().beta > same_angle)
            means.push_back({rays[i].beta, 0.0, 0, order[i]});
        MeanReading& mean = means.back();
        mean.reading += (rays[i].reading - mean.reading) / ++mean.count;
    }
    return means;
}

std::vector<RayReading> mended_rays(const std::vector<MeanReading>& means,
                                    const std::vector<double>& mended) {
    std::vector<RayReading> rays;
    for (std::size_t i = 0; i < means.size(); ++i)
        rays.push_back({means[i].beta, mended[i]});
    return rays;
}

CleanReadings clean(const SolvedLobe& lobe, const MeasuredLobe& measured, bool zero_unknown) {
    const auto order = order_round(lobe, measured);
    const auto rays = rays_of(lobe, measured, order);
    const auto means = means_of(rays, order);
    std::vector<double> angles, figures;
    for (const MeanReading& mean : means)
        angles.push_back(mean.beta), figures.push_back(mean.reading);
    const auto stray = stray_lifts(angles, figures, least_scatter(measured.step));
    const auto mended = mended_lifts(angles, figures, stray);
    CleanReadings found;
    found.scatter = std::max(least_scatter(measured.step), scatter_about_neighbours(figures));
    const double level = heel_level(mended_rays(means, mended));
    found.base_error = zero_unknown ? 0.0 : level;
    for (std::size_t i = 0; i < means.size(); ++i) {
        const MeasuredReading& source = measured.readings[means[i].source];
        if (stray[i]) found.set_aside += static_cast<std::size_t>(means[i].count);
        found.lifts.push_back({wrapped(source.cam_angle), mended[i] - level, source.place});
    }
    return found;
}

/// The job with this lobe alone, its lift the probe's as it was read.
Job measured_job(const Job& job, const SolvedLobe& lobe, const CleanReadings& readings, double smoothing) {
    TableProfile table;
    table.base_radius = lobe.base_radius + readings.base_error;
    table.smoothing = smoothing;
    table.readings = readings.lifts;
    Job made;
    made.file = job.file, made.units = job.units, made.shaft.turns = job.shaft.turns;
    made.profiles.emplace("measured", table);
    made.followers.emplace("probe", probe_as_follower(job.probe.value_or(Probe{})));
    LobeEntry entry;
    entry.name = lobe.name, entry.profile = "measured", entry.follower = "probe";
    entry.at = lobe.at, entry.z = lobe.z, entry.width = lobe.width, entry.repeat = lobe.repeat;
    made.lobes = {entry};
    return made;
}

Diagnostic off_the_axis(const Job& job, const SolvedLobe& lobe) {
    return {Fault::check_failed,
            Severity::error,
            "follower-off-axis",
            "the follower of lobe '" + lobe.name + "' doesn't move on a line through the shaft's axis",
            "give the lobe a flat, roller, domed or knife follower without offset for this",
            job.place_of("follower." + job.lobes[lobe.entry].follower)};
}

}  // namespace

Outcome<FittedTable> fit_table_profile(const Job& job, const std::vector<SolvedLobe>& lobes,
                                       const MeasuredLobe& measured, const InspectRequest& request) {
    const SolvedLobe& lobe = lobes[measured.lobe];
    const auto follower = follower_as_probe(lobe.follower);
    if (!follower) return off_the_axis(job, lobe);
    if (measured.readings.size() < fewest_readings)
        return too_few_readings(lobe, measured.readings.size(), fewest_readings,
                                measured.readings.front().place);
    const CleanReadings readings = clean(lobe, measured, request.zero_unknown);
    FittedTable table;
    table.smoothing = std::max(least_smoothing, most_by_scatter * readings.scatter);
    const Job probed = measured_job(job, lobe, readings, table.smoothing);
    const auto solved = solve_lobes(probed);
    if (!solved) return solved.diagnostics();
    const SolvedLobe& made = solved->front();
    table.base_radius = made.base_radius;
    table.moved = made.smoothing_moved;
    table.readings = measured.readings.size(), table.set_aside = readings.set_aside;
    const ContourProbe on(made.contour, made.base_radius, *follower);
    for (int i = -180; i <= 180; ++i) {
        const CamAngle angle = CamAngle::from_degrees(i);
        const double beta = -sign_of(made.turns) * (angle - made.table_shift).radians();
        table.lifts.emplace_back(angle, on.height(beta));
    }
    return table;
}

}  // namespace lobewright
