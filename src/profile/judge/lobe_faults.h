/// What is wrong with a solved lobe, by how much, and the change that cures it: facts and figures. What is
/// said of them stands in soundness_findings.h.
#pragma once

#include "profile/follower/lobe_curve.h"
#include "profile/judge/joint_steps.h"

#include <lobewright/soundness.h>

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace lobewright::profile {

/// The follower leaves the lobe below the stated speed.
struct Floats {
    double preload = 0.0;        ///< N, that would hold it
    std::optional<double> rate;  ///< N/mm, that would, unless it is absurd
};

/// The pressure is above what the user allows.
struct OverPressed {
    FigureAt worst;         ///< MPa
    bool standing = false;  ///< it is larger turned slowly than at the stated speed
    double wider = 0.0;     ///< mm of width that would bear it
};

/// The line of contact runs off the tappet's face.
struct FaceTooSmall {
    double over = 0.0;         ///< mm
    bool towards_ccw = false;  ///< of the tappet's middle
};

/// Above the limit for its kind of follower.
struct SteepPressureAngle {
    double limit = 0.0;  ///< radians
    bool on_the_rise = false;
    bool jams = false;                        ///< a guided follower, as it rises
    std::optional<double> least_base_radius;  ///< mm, with which it stays below
};

/// The flank is hollow.
struct HollowFlank {
    double radius = 0.0;                 ///< mm, the tightest
    std::vector<std::string> too_large;  ///< cutters that don't get in
};

/// The valve meets its seat too fast; the closing ramp that would let it down.
struct HardSeating {
    double limit = 0.0;       ///< m/s
    double ramp_lift = 0.0;   ///< mm
    double ramp_angle = 0.0;  ///< degrees, at least
};

/// Smoothing moved readings of a table.
struct Smoothed {
    double moved = 0.0;  ///< mm, at most
};
/// The table's own zero is not its peak.
struct TableTurned {
    CamAngle peak;
};
/// Smoothing that is less than rounding brings leaves the steps of the dial in the lobe.
struct StepsKept {
    double step = 0.0;       ///< mm
    double smoothing = 0.0;  ///< mm
    double enough = 0.0;     ///< mm
};

/// Laws that don't join smoothly: the velocity, or else the acceleration, jumps.
struct JointsJump {
    bool velocity = false;
    JointSteps steps;
};

using LobeFault = std::variant<Floats, OverPressed, FaceTooSmall, SteepPressureAngle, HollowFlank,
                               HardSeating, Smoothed, TableTurned, StepsKept, JointsJump>;

/// In the order in which they are told.
std::vector<LobeFault> faults_of_lobe(const Job& job, const SolvedLobe& lobe, const LobeReport& report,
                                      const LobeCurve& curve);

}  // namespace lobewright::profile
