/// The shaft in its engine: lift at the valve by the crank's angle, and what readings of it say about the
/// gear.
///
/// A dial indicator stands on the valve's retainer and a timing wheel on the crank; crank angle 0 is cylinder
/// 1 at top dead centre on its power stroke.
#pragma once

#include <lobewright/inspect_fit.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// The valve's lift is what the valve train makes of the follower's (valve_train.h) less the clearance of
/// [engine], never below 0. mm.
struct InstalledLift {
    CrankAngle crank;
    CamAngle cam_angle;  ///< in (-180, 180] degrees
    double lift = 0.0;
};
struct InstalledTable {
    std::vector<InstalledLift> rows;
    double clearance = 0.0;  ///< mm at the valve, 0 where the job times none
    double highest = 0.0;    ///< the valve's, and the crank angle at which it stands
    CrankAngle highest_at;
    std::optional<ValveEvents> events;
};

/// Over one turn of the cam from crank angle 0. Required: the job has an engine; 0 < every.
InstalledTable installed_lift(const Job& job, const SolvedLobe& lobe, CrankAngle every);

/// How the cam's gear can be moved on its shaft.
struct GearSteps {
    std::optional<int> teeth;  ///< of the cam's gear: one tooth is 360 / teeth cam degrees
    std::optional<int> holes;  ///< a vernier: so many holes in the gear against one more in its flange
};
/// What to move so that the phase comes out; positive: forward, the way the cam runs, which brings it
/// earlier.
struct GearSetting {
    std::optional<int> teeth;
    std::optional<int> holes;  ///< steps of the vernier, 360 / (holes (holes + 1)) cam degrees each
    CamAngle remains;          ///< late, after that
};
GearSetting gear_setting(CamAngle late, const GearSteps& steps);

struct InstalledFit {
    std::size_t lobe = 0;
    Estimate phase;                ///< radians of cam angle, positive where the valve moves late
    std::optional<Estimate> zero;  ///< mm: what the dial shows while the valve is shut, where that is unknown
    double rms_error = 0.0;        ///< mm, of the readings not set aside
    double worst_error = 0.0;      ///< reading less expected, and where
    CrankAngle worst_at;
    std::size_t readings = 0;
    std::size_t set_aside = 0;
    GearSetting setting;
};

/// Fits the phase (and the dial's zero, where it is unknown) of valve lifts, robustly as inspect_lobe. The
/// clearance is taken as set. Refused: fewer than 8 readings, none of the valve moving.
Outcome<InstalledFit> fit_installed(const Job& job, const std::vector<SolvedLobe>& lobes,
                                    const MeasuredLobe& measured, bool zero_unknown, const GearSteps& steps);

std::string installed_text(const InstalledTable& table, const Job& job, const SolvedLobe& lobe,
                           InspectFormat format);
std::string installed_fit_text(const std::vector<InstalledFit>& fits, const Job& job,
                               const std::vector<SolvedLobe>& lobes, const GearSteps& steps,
                               InspectFormat format);

}  // namespace lobewright
