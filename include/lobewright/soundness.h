/// Whether the job is sound: what the lobes do to their followers, to their surfaces, and to the valves'
/// timing.
#pragma once

#include <lobewright/lobe.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// What the contact bears at one cam angle, at one speed.
struct ContactState {
    double force = 0.0;  ///< N along the follower's motion; < 0: the follower would leave the lobe
    double pressure_mpa =
        0.0;                  ///< largest Hertz pressure; 0 where the contact is lost, infinite under a knife
    double half_width = 0.0;  ///< mm, of the contact's band
};

/// The lifts of the valve train, no clearance taken off, at which cards are compared.
enum class CheckingLift {
    clearance,          ///< where the valve leaves its seat and meets it
    card,               ///< the card's own, where it has one
    millimetre,         ///< 1 mm
    fifty_thousandths,  ///< 0.050 in
};

/// A timing card as a lobe keeps it at one lift. Crank angles in the sense of ValveTiming, the centre after
/// TDC for an inlet, before it for an exhaust.
struct CardView {
    CheckingLift at = CheckingLift::clearance;
    double valve_lift = 0.0;  ///< mm
    CrankAngle opens, closes, duration, centre;
};

/// What two cards of one cylinder are to each other at one lift.
struct OverlapView {
    CheckingLift at = CheckingLift::clearance;
    CrankAngle overlap;  ///< negative: both are shut between
    CamAngle lobe_separation;
};

/// Figures of one lobe. Lengths in mm; velocity, acceleration and jerk of the follower in mm per radian of
/// cam angle, its square and its cube; angles where they stand are cam angles. Extremes are those of the
/// exact curves over the whole turn, both sides of a joint counted where a curve steps there: attained at
/// their place (the first in time of equal ones), and no other value exceeds them by more than
/// `extreme_margin` of the figure's largest size, which is proven and not sampled. Figures that do not apply
/// are absent.
struct LobeReport {
    std::string name;
    std::string profile;
    std::string follower;
    ShaftAngle at;
    CamAngle action_angle;
    double base_radius = 0.0;
    double lift = 0.0;
    FigureAt max_velocity;      ///< largest in size; the value is that size
    FigureAt max_acceleration;  ///< largest
    FigureAt min_acceleration;  ///< most negative
    FigureAt
        max_jerk;  ///< largest in size, finite stretches alone: where the acceleration steps it is infinite
    FigureAt min_curvature_radius;  ///< of the convex stretches
    std::optional<double> min_hollow_radius;
    /// Pressure angles, radians, with the sign of FollowerContact: the one farthest from 0 while the lift
    /// grows, and while it falls (the ends of the ramps and dwells between count for both).
    FigureAt rise_pressure_angle, fall_pressure_angle;
    FigureAt max_pressure_angle;  ///< the greater of the two in size; the value is that size
    /// Flat: diameter of the round face that holds the whole line of contact, the lobe's width across
    /// `face_offset`.
    std::optional<double> face_needed;
    std::optional<FigureAt> contact_travel;      ///< flat: how far the contact runs sideways, in size
    std::optional<double> flank_radius;          ///< arcs, the opening one; straight_flank for a tangent cam
    std::optional<double> closing_flank_radius;  ///< likewise
    std::optional<double> nose_radius;           ///< arcs
    double area = 0.0;  ///< under the lift over the period, ramps too, mm × radians of cam angle
    std::vector<ReachedLimit> limited_by;  ///< of a fullest lift
    double nose_to_base = 0.0;             ///< radius of curvature at the peak, by the base circle's

    // With [contact]. At the stated speed, unless said otherwise.
    std::optional<double> peak_velocity;      ///< m/s of the follower
    std::optional<double> peak_acceleration;  ///< m/s²
    std::optional<double> peak_deceleration;  ///< m/s², negative
    std::optional<FigureAt> greatest_force;   ///< N
    std::optional<FigureAt> least_force;      ///< N; negative where contact would be lost
    std::optional<FigureAt> max_contact_stress_mpa;
    std::optional<FigureAt> standing_contact_stress_mpa;  ///< turned slowly, when no inertia helps the nose
    std::optional<double> shear_depth;       ///< mm: depth of the greatest shear, under the larger of the two
    std::optional<double> float_speed_rpm;   ///< crank speed at which the follower first leaves the lobe
    std::optional<double> seating_velocity;  ///< m/s of the valve where it closes at its clearance

    // With [engine], for a lobe with a cylinder. Crank angles as on a timing card (see ValveTiming); the
    // centre after TDC for an inlet, before it for an exhaust.
    std::optional<CrankAngle> opens, closes, duration, lobe_centre;
    Valve valve = Valve::inlet;
    double clearance = 0.0;
    std::vector<CardView> cards;  ///< at every CheckingLift that the lobe reaches
};

struct JobReport {
    std::vector<LobeReport> lobes;
    Diagnostics findings;                     ///< of the lobes and of the job, in the lobes' order
    std::optional<CrankAngle> overlap;        ///< of cylinder 1; negative: both are shut between
    std::optional<CamAngle> lobe_separation;  ///< of cylinder 1
    std::vector<OverlapView> overlaps;        ///< of cylinder 1, at every lift that both its lobes reach
};

/// Force and pressure at a cam angle, at `crank_speed` rev/min. Spring, inertia and the pressure angle count;
/// friction and weight do not. Hertz's line contact over the lobe's width. Required: job.contact.
ContactState contact_state(const Job& job, const SolvedLobe& lobe, CamAngle angle, double crank_speed);

/// Judges every lobe. Findings of severity error: contact lost below the stated speed, pressure above what
/// the user allows, a tappet's face that is too small; each names the change that cures it, rounded so that
/// it does.
JobReport judge(const Job& job, const std::vector<SolvedLobe>& lobes);

/// Readable, in the job's units, at most 100 columns wide.
std::string report_text(const Job& job, const JobReport& report);
/// By examples/job-file.md; every other figure of the report follows those that it names.
std::string report_json(const Job& job, const JobReport& report);

}  // namespace lobewright
