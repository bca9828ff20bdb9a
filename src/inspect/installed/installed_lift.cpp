#include "base/whole_steps.h"
#include "inspect/installed/crank_frame.h"

#include <lobewright/inspect_installed.h>

#include <cmath>

namespace lobewright {
namespace {

using namespace inspection;

/// Degrees: a last step shorter than this is none, but the rounding of the steps before it.
constexpr double sliver = 1e-9;
constexpr CamAngle scan_step = CamAngle::from_degrees(0.01);

/// The middle of where the lift is largest: of a peak itself, and of a dwell.
CamAngle middle_of_peak(const SolvedLobe& lobe) {
    if (lobe.motion.at(CamAngle{}).lift >= lobe.lift * (1.0 - 1e-12)) return CamAngle{};
    CamAngle best;
    double highest = 0.0;
    const int steps = static_cast<int>(nearest_step(lobe.motion.period() / scan_step));
    for (int i = 0; i < steps; ++i) {
        const CamAngle angle = -0.5 * lobe.motion.period() + scan_step * static_cast<double>(i);
        if (const double lift = lobe.motion.at(angle).lift; lift > highest) highest = lift, best = angle;
    }
    return best;
}

}  // namespace

InstalledTable installed_lift(const Job& job, const SolvedLobe& lobe, CrankAngle every) {
    InstalledTable table;
    table.clearance = clearance_of(job, lobe);
    table.events = valve_events(job, lobe);
    const double turn = 360.0 / job.engine->cam_per_crank;
    const auto row_at = [&](CrankAngle crank) {
        const CamAngle angle = wrapped(cam_angle_at(job, lobe, crank));
        return InstalledLift{crank, angle, valve_lift(lobe, table.clearance, angle).lift};
    };
    for (int i = 0; i * every.degrees() < turn - sliver; ++i)
        table.rows.push_back(row_at(CrankAngle::from_degrees(i * every.degrees())));
    table.rows.push_back(row_at(CrankAngle::from_degrees(turn)));
    const CamAngle peak = middle_of_peak(lobe);
    table.highest = valve_lift(lobe, table.clearance, peak).lift;
    table.highest_at = crank_angle_at(job, lobe, peak);
    return table;
}

GearSetting gear_setting(CamAngle late, const GearSteps& steps) {
    GearSetting setting;
    setting.remains = late;
    if (steps.teeth) {
        const double pitch = 360.0 / *steps.teeth;
        // The teeth alone where there is no vernier; with one, it does what is less than a tooth.
        setting.teeth = static_cast<int>(nearest_step(setting.remains.degrees() / pitch));
        setting.remains -= CamAngle::from_degrees(*setting.teeth * pitch);
    }
    if (steps.holes) {
        const double step = 360.0 / (static_cast<double>(*steps.holes) * (*steps.holes + 1));
        setting.holes = static_cast<int>(nearest_step(setting.remains.degrees() / step));
        setting.remains -= CamAngle::from_degrees(*setting.holes * step);
    }
    return setting;
}

}  // namespace lobewright
