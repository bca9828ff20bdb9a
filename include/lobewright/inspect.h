/// What an indicator and a micrometer should read on a finished lobe.
///
/// The shaft turns between centres; the probe of [probe] stands still and moves on a line through the shaft's
/// axis. A reading is its height over where it stands on the design's base circle.
#pragma once

#include <lobewright/lobe.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// Lengths in mm.
struct ExpectedReading {
    CamAngle cam_angle;
    ShaftAngle shaft_angle;   ///< that faces the probe; unwrapped: at - s·cam_angle
    double reading = 0.0;     ///< exact, to 1e-12 of the lobe's size (see src/inspect/probe)
    double across = 0.0;      ///< between parallel anvils, one of them where the probe stands
    std::optional<int> mark;  ///< of the index wheel, where the rows are its marks
};

/// Where the probe stands on the base circle, by cam angle, `to` > `from`, unwrapped; within 0.1 µm of it.
struct HeelStretch {
    CamAngle from;
    CamAngle to;
};

struct ExpectedReadings {
    Probe probe;
    std::vector<ExpectedReading> rows;
    std::optional<HeelStretch> heel;  ///< the longest; nothing where the lobe has no base circle
    double largest = 0.0;             ///< reading, and the cam angle at which it stands
    CamAngle largest_at;
    double across_nose = 0.0;  ///< the largest size between parallel anvils: over base circle and nose
    CamAngle across_nose_at;
    std::optional<double> across_heel;  ///< where both anvils stand on the base circle, if anywhere
    double anvil_reach = 0.0;  ///< of a flat probe: how far from its middle it touches, at most; else 0
};

/// From -180 to 180 degrees of cam angle in steps of `every` (the last step is shorter if it does not
/// divide). Required: 0 < every <= 180 degrees.
ExpectedReadings expected_readings(const SolvedLobe& lobe, const Probe& probe, CamAngle every);

/// At the marks of a hand method's index wheel, from mark 0 on: the shaft angle that faces the probe there is
/// the one that faces the cutter, and the probe's own direction. Required: the method has a wheel.
ExpectedReadings expected_at_marks(const SolvedLobe& lobe, const Probe& probe, const HandMethod& method);

/// The cam angle that faces the probe at a mark of the wheel (or a fraction past one), unwrapped.
CamAngle cam_angle_at_mark(const SolvedLobe& lobe, const Probe& probe, const HandMethod& method, double mark);

enum class InspectFormat { csv, json, markdown, text };
/// csv and json by the names of examples/job-file.md; markdown and text are for the bench. `tolerance`: of
/// the finished surface along the normal, mm, where one is known: it says what the base circle may run out.
std::string expected_text(const ExpectedReadings& expected, const SolvedLobe& lobe, Units units,
                          std::optional<double> tolerance, InspectFormat format);

}  // namespace lobewright
