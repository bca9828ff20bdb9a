/// Whether the job is sound: what the lobes do to their followers, to their surfaces, and to the valves' timing.
#pragma once

#include <lobewright/lobe.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// One judgement. `message` says what is wrong (or worth knowing), by how much, and the change that cures it.
struct Finding {
    Severity severity = Severity::note;
    std::string code;
    std::string lobe;  ///< empty: the whole job
    std::string message;
};

/// Figures of one lobe. Lengths mm; velocity mm/deg and acceleration mm/deg² of the follower by the cam angle.
struct LobeReport {
    std::string name;
    ShaftAngle at;
    CamAngle action_angle;
    double lift = 0.0;
    double max_velocity = 0.0;
    double max_acceleration = 0.0;
    double min_acceleration = 0.0;
    double max_jerk = 0.0;
    double min_curvature_radius = 0.0;
    std::optional<double> min_hollow_radius;
    double max_pressure_angle = 0.0;  ///< radians, in size
    std::optional<double> face_needed;
    std::optional<double> max_contact_stress_mpa;
    std::optional<CamAngle> max_contact_stress_at;
    std::optional<double> shear_depth;  ///< mm: depth of the greatest shear under that contact
    std::optional<double> least_contact_force;
    std::optional<double> float_speed_rpm;  ///< crank
    std::optional<double> seating_velocity; ///< m/s at the valve, at the running speed
    std::optional<double> flank_radius;     ///< arcs; straight_flank for a tangent cam
    std::optional<double> nose_radius;
    // Valve events at the clearance, where the lobe has a cylinder and [engine] a timing; crank degrees as on a card.
    std::optional<CrankAngle> opens, closes, duration, lobe_centre;
};

struct JobReport {
    std::vector<LobeReport> lobes;
    std::vector<Finding> findings;  ///< of the lobes and of the job, in the lobes' order
    std::optional<CrankAngle> overlap;           ///< of cylinder 1
    std::optional<CamAngle> lobe_separation;     ///< of cylinder 1
};

JobReport judge(const Job& job, const std::vector<SolvedLobe>& lobes);
std::string report_text(const Job& job, const JobReport& report);
std::string report_json(const Job& job, const JobReport& report);

}  // namespace lobewright
