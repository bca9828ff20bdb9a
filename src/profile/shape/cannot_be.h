/// Why a lobe can't be: facts and figures, with what would cure it. What is said of them stands in
/// refusals.h. A length that cures is the next that can be typed, and has been tried.
#pragma once

#include "base/text/typed_length.h"
#include "profile/follower/motion_contour.h"
#include "profile/fullest/limit_words.h"
#include "profile/shape/arcs.h"

#include <lobewright/job.h>

#include <optional>
#include <string>
#include <variant>

namespace lobewright::profile {

/// Values between which something works; the ends are the last that do.
struct WorkingRange {
    double low = 0.0;
    double high = 0.0;
};

/// A translating follower's line passes the axis where its centre can't get at zero lift.
struct LineTooFarAside {
    double heel_distance = 0.0;           ///< mm, of the centre from the axis at zero lift
    std::optional<WorkingRange> offsets;  ///< mm
};

/// A pivoted follower's arm can't hold its centre where zero lift has it.
struct ArmOffTheHeel {
    double heel_distance = 0.0;
    std::optional<WorkingRange> pivot_radii;  ///< mm
};

/// A flat pad under its pivot can't touch the base circle.
struct PadOffTheHeel {
    double farthest = 0.0;  ///< mm, of the pivot from the axis at which it just can't
};

/// The follower can't be moved so.
struct ImpossibleMotion {
    MotionJudgement judgement;
    std::optional<TypedLength> least_base_radius;  ///< with which it can
    std::optional<TypedLength> largest_lift;       ///< where no base radius cures
};

/// The readings of a table scatter so much that a curve that follows them makes no lobe.
struct ScatteredReadings {
    double scatter = 0.0;  ///< mm, the most that one lies off a smooth curve
    double limit = 0.0;    ///< mm, the most that one might be moved
    double step = 0.0;     ///< mm, that they are rounded to; 0 where none is seen
    TypedLength enough;    ///< smoothing with which they make a lobe
};

struct RampTooHigh {
    std::string key;
    double ramp = 0.0;   ///< mm
    double whole = 0.0;  ///< mm
};
struct RampTooFast {
    std::string key;
    double least_angle = 0.0;  ///< radians
};
struct TooFewPowers {};
/// Ramps, laws and dwell take more than there is.
struct EventTooLong {
    CamAngle event;
    CamAngle room;
};

/// Neither the profile nor valve timing says how long the laws are.
struct LawAnglesMissing {};
/// No angles of the laws keep the valve open as long as its card asks.
struct NoLawAngles {
    CrankAngle duration;     ///< that the card asks for
    WorkingRange durations;  ///< radians of crank, that could be asked for
};

/// No lift keeps all limits of a fullest profile.
struct LimitsInTheWay {
    std::optional<double> lift;        ///< mm, that was asked for
    std::optional<TypedLimit> relief;  ///< the limit that has to give way least, with the value that does
    std::optional<TypedLength> greatest_lift;  ///< with which it comes out
};
/// A knife presses without width.
struct KnifeUnderStress {};

/// An action angle that is longer than the period.
struct ActionAngleTooLong {
    CamAngle angle;
};
/// Neither the profile nor valve timing says how long the action is.
struct ActionAngleMissing {};
/// No action angle keeps the valve open as long as its card asks.
struct NoActionAngle {
    CrankAngle duration;  ///< that the card asks for
    struct Radius {
        TypedLength length;
        bool or_more = false;
    };
    std::optional<Radius> radius;             ///< of flank or nose, that would do
    std::optional<TypedLength> largest_lift;  ///< that would do
    std::optional<WorkingRange> durations;    ///< radians of crank, that could be asked for
};
/// No flank and nose at all reach the lift within the action angle.
struct NoFlankAndNose {
    double half_action = 0.0;
    std::optional<double> least_half_action;  ///< that does
    std::optional<TypedLength> largest_lift;  ///< that comes out, if no angle does
};
/// The given radius makes no lobe, or none that the follower can ride; others do.
struct ArcsMisfit {
    ArcShape shape;
    WorkingRange flanks;  ///< curvatures that work, 1/mm
};
/// Flanks that differ, or flank and nose both given, meet nowhere, or so that the follower can't ride them.
struct SidesMisfit {
    std::string key;                     ///< nose_radius or action_angle
    std::optional<WorkingRange> values;  ///< of it that work, mm or radians
};
/// A flank never runs as fast as its ramp.
struct ArcRampTooFast {
    bool opening = true;
    double least_angle = 0.0;  ///< radians, with which it does
};

/// The lobe never lifts its valve by the clearance, or by the card's checking lift.
struct NeverOpens {
    double valve_lift = 0.0;  ///< mm
    double asked = 0.0;       ///< mm
    bool checking = false;    ///< at_lift, not clearance
};
/// The rocker's curve ends below the lobe's lift.
struct RockerMeasuredTooShort {
    double lift = 0.0;      ///< mm, of the follower
    double measured = 0.0;  ///< mm
};
/// Nothing says where the nose points.
struct NoseUnplaced {
    std::size_t entry = 0;  ///< of Job::lobes
};

using CannotBe =
    std::variant<LineTooFarAside, ArmOffTheHeel, PadOffTheHeel, ImpossibleMotion, ScatteredReadings,
                 RampTooHigh, RampTooFast, TooFewPowers, EventTooLong, LawAnglesMissing, NoLawAngles,
                 LimitsInTheWay, KnifeUnderStress, ActionAngleTooLong, ActionAngleMissing, NoActionAngle,
                 NoFlankAndNose, ArcsMisfit, SidesMisfit, ArcRampTooFast, NeverOpens, RockerMeasuredTooShort,
                 NoseUnplaced>;

}  // namespace lobewright::profile
