/// The profile that readings of a lobe describe, for one who copies it.
#pragma once

#include <lobewright/inspect_fit.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// Base circle, two flanks and a nose that describe a measured lobe best. Lengths in mm, angles in radians.
struct FittedArcs {
    Estimate base_radius;  ///< with an unknown zero the design's, error 0: the readings can't tell it
    Estimate lift;
    Estimate action_angle;
    Estimate flank_curvature;  ///< 1/mm; 0 straight, negative hollow
    Estimate nose_radius;
    Estimate phase;  ///< of the nose, by cam angle
    std::optional<Estimate> zero;
    std::optional<RunoutFound> runout;
    double rms_residual = 0.0;
    double worst_residual = 0.0;  ///< reading less arcs, and where
    CamAngle worst_at;
    double scatter = 0.0;  ///< standard deviation of one reading about its neighbours
    std::size_t readings = 0;
    std::size_t set_aside = 0;
    /// Whether the residual is no more than the readings' own scatter explains: at most twice that, or 0.5
    /// µm, or six tenths of the dial's step.
    bool is_arcs = false;

    /// Nothing where the flank is straight, within two standard errors of its curvature.
    [[nodiscard]] std::optional<Estimate> flank_radius() const;
};

/// From the readings alone: of the design only its base radius (for an unknown zero), its place and sense
/// count. Refused: too few readings, or none that a lobe of three arcs comes near.
Outcome<FittedArcs> fit_arcs(const Job& job, const std::vector<SolvedLobe>& lobes,
                             const MeasuredLobe& measured, const InspectRequest& request);

/// The lift of the lobe's own follower over the measured lobe, smoothed.
struct FittedTable {
    double base_radius = 0.0;  ///< mm
    double smoothing = 0.0;    ///< the most that a reading might be moved, mm, and
    double moved = 0.0;        ///< the most that one was
    std::size_t readings = 0;
    std::size_t set_aside = 0;
    std::vector<std::pair<CamAngle, double>> lifts;  ///< every degree from -180, mm; by the readings' angles
};

/// The readings as a table of the probe's lift, made into a contour (profile/spline), and the follower's lift
/// on that. Refused: what a table of lift is refused for, at the reading's line; a follower beside the axis
/// or on an arm.
Outcome<FittedTable> fit_table_profile(const Job& job, const std::vector<SolvedLobe>& lobes,
                                       const MeasuredLobe& measured, const InspectRequest& request);

/// Ready to paste into a job file; of a table the file, whose first lines are comments with what to paste.
std::string arcs_profile_text(const FittedArcs& arcs, const SolvedLobe& lobe, Units units);
std::string table_profile_text(const FittedTable& table, const SolvedLobe& lobe, Units units);
/// By the names of examples/job-file.md.
std::string arcs_json(const FittedArcs& arcs, const SolvedLobe& lobe, Units units);
std::string table_json(const FittedTable& table, const SolvedLobe& lobe, Units units);

}  // namespace lobewright
