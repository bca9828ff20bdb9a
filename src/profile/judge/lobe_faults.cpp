#include "profile/judge/lobe_faults.h"

#include "profile/follower/motion_contour.h"
#include "profile/judge/contact_load.h"
#include "profile/judge/float_limits.h"
#include "profile/shape/lobe_shape.h"

#include <lobewright/valve_train.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::profile {
namespace {

constexpr double per_degree = std::numbers::pi / 180.0;

/// Of translating followers: the limit that designers set by experience, and about where the follower is
/// likely to jam in its guide instead of rising. H. A. Rothbart (ed.), Cam Design Handbook, McGraw-Hill 2004,
/// chapter 1.
constexpr double largest_pressure_angle = 30.0 * per_degree;
constexpr double jamming_pressure_angle = 60.0 * per_degree;
/// For arms, which can't bind: common practice, no source.
constexpr double largest_pressure_angle_of_arm = 45.0 * per_degree;
/// m/s; valves last below it: from memory.
constexpr double largest_seating_velocity = 0.5;

/// What a lobe is judged by.
struct Subject {
    const Job& job;
    const SolvedLobe& lobe;
    const LobeReport& report;
    const LobeCurve& curve;
};

std::optional<LobeFault> judge_float(const Subject& of) {
    if (!of.report.float_speed_rpm) return std::nullopt;
    const ContactLoad& load = *of.job.contact;
    if (*of.report.float_speed_rpm >= load.crank_speed || of.report.least_force->value >= 0.0)
        return std::nullopt;
    const double speed = cam_speed(of.job, load.crank_speed);
    Floats floats{largest_preload_needed(load, of.curve, speed), std::nullopt};
    const double rate = largest_rate_needed(load, of.curve, speed);
    // Where the follower slows down near the base circle, only an absurd rate would hold it.
    constexpr double most_of_a_change = 20.0;
    if (std::isfinite(rate) && rate < most_of_a_change * std::max(load.spring_rate, 1.0)) floats.rate = rate;
    return floats;
}

std::optional<LobeFault> judge_stress(const Subject& of) {
    if (!of.job.contact || !of.job.contact->allowable_stress || !of.report.max_contact_stress_mpa)
        return std::nullopt;
    const FigureAt& running = *of.report.max_contact_stress_mpa;
    const FigureAt& standing = *of.report.standing_contact_stress_mpa;
    const bool stands = running.value < standing.value;
    const FigureAt& worst = stands ? standing : running;
    const double allowed = *of.job.contact->allowable_stress;
    if (worst.value <= allowed) return std::nullopt;
    // The pressure goes as the root of the force over the width.
    return OverPressed{worst, stands, of.lobe.width * (worst.value / allowed) * (worst.value / allowed)};
}

std::optional<LobeFault> judge_face(const Subject& of) {
    if (!of.report.face_needed || !of.lobe.follower.face_diameter) return std::nullopt;
    const double has = *of.lobe.follower.face_diameter;
    if (*of.report.face_needed <= has) return std::nullopt;
    const FollowerContact worst = contact_at(of.lobe, *of.report.contact_travel->at);
    const double across = dot(worst.contact.point, quarter_turn(unit(worst.facing.radians())));
    return FaceTooSmall{0.5 * (*of.report.face_needed - has), across > 0.0};
}

/// mm by which ramps cut the base circle deeper than the one that the profile gives.
double cut_deeper(const Profile& profile) {
    const auto* arcs = std::get_if<ArcsProfile>(&profile);
    return arcs != nullptr && arcs->ramps ? arcs->ramps->lift : 0.0;
}

/// Whether the lobe, on another base circle, is sound with a pressure angle of no more than `limit`. Only
/// arcs are solved anew: a law and a table stay what they are.
bool is_gentle(const Job& job, const SolvedLobe& lobe, double base_radius, double limit) {
    const auto gentle = [limit](const LobeCurve& curve) {
        return std::abs(farthest_pressure_angle(curve).value) <= limit;
    };
    if (!lobe.opening_arcs) {
        if (!reaches(lobe.follower, base_radius, lobe.lift)) return false;
        const LobeCurve curve(lobe.motion.pieces(), lobe.follower, base_radius, lobe.turns);
        return judge_motion(curve).fault == MotionFault::none && gentle(curve);
    }
    const LobeEntry& entry = job.lobes[lobe.entry];
    ArcsProfile arcs = std::get<ArcsProfile>(job.profiles.at(entry.profile));
    arcs.base_radius = base_radius + cut_deeper(arcs);
    const auto solved = shape_from_arcs({job, entry, lobe.follower, false}, arcs);
    return solved && gentle(LobeCurve(solved->motion.pieces(), lobe.follower, base_radius, lobe.turns));
}

/// The smallest base radius of the profile above its own with which it is gentle, to `told_digits` of it.
std::optional<double> gentle_base_radius(const Job& job, const SolvedLobe& lobe, double limit) {
    constexpr double step = 1.25;
    constexpr double largest = 20.0;
    constexpr double told_digits = 1e-4;  // four figures are told
    double low = lobe.base_radius, high = step * low;
    while (!is_gentle(job, lobe, high, limit)) {
        if (high > largest * lobe.base_radius) return std::nullopt;
        low = high;
        high *= step;
    }
    while (high - low > told_digits * high) {
        const double middle = 0.5 * (low + high);
        (is_gentle(job, lobe, middle, limit) ? high : low) = middle;
    }
    return high + cut_deeper(job.profiles.at(job.lobes[lobe.entry].profile));
}

std::optional<LobeFault> judge_pressure_angle(const Subject& of) {
    const bool arm = of.lobe.follower.kind == FollowerKind::pivoted;
    const double limit = arm ? largest_pressure_angle_of_arm : largest_pressure_angle;
    const LobeReport& report = of.report;
    if (report.max_pressure_angle.value <= limit) return std::nullopt;
    const bool jams = !arm && std::abs(report.rise_pressure_angle.value) > jamming_pressure_angle;
    return SteepPressureAngle{limit, report.max_pressure_angle.at == report.rise_pressure_angle.at, jams,
                              gentle_base_radius(of.job, of.lobe, limit)};
}

std::optional<LobeFault> judge_hollow(const Subject& of) {
    if (!of.report.min_hollow_radius) return std::nullopt;
    HollowFlank hollow{*of.report.min_hollow_radius, {}};
    for (const auto& [name, cutter] : of.job.cutters) {
        if (cutter.kind != CutterKind::ball_nose && 0.5 * cutter.diameter > hollow.radius)
            hollow.too_large.push_back(name);
    }
    return hollow;
}

std::optional<LobeFault> judge_seating(const Subject& of) {
    if (!of.report.seating_velocity || *of.report.seating_velocity <= largest_seating_velocity)
        return std::nullopt;
    const double taken_up = lift_for_valve(of.lobe.follower, of.report.clearance);
    const double ratio = valve_ratio_at(of.lobe.follower, taken_up);
    const double speed = cam_speed(of.job, of.job.contact->crank_speed);  // rad/s
    const double mm_per_degree = largest_seating_velocity * 1e3 / (ratio * speed) * per_degree;
    // The ramp must still run at its constant speed where the clearance is taken up: see Ramp.
    constexpr double above_clearance = 1.25;
    constexpr double to_spare = 1.005;  // of the angle
    const double ramp_lift = above_clearance * taken_up;
    const double ramp_angle = ramp_lift / (0.875 * mm_per_degree);
    return HardSeating{largest_seating_velocity, ramp_lift, to_spare * ramp_angle};
}

std::optional<LobeFault> judge_smoothing(const Subject& of) {
    constexpr double worth_telling = 5e-5;  // mm: less is 0 in the figure that is told
    if (of.lobe.smoothing_moved <= worth_telling) return std::nullopt;
    return Smoothed{of.lobe.smoothing_moved};
}

std::optional<LobeFault> judge_table_zero(const Subject& of) {
    if (of.lobe.table_shift.radians() == 0.0) return std::nullopt;
    return TableTurned{of.lobe.table_shift};
}

std::optional<LobeFault> judge_rounding(const Subject& of) {
    const auto* table =
        std::get_if<TableProfile>(&of.job.profiles.find(of.job.lobes[of.lobe.entry].profile)->second);
    if (table == nullptr || !table->smoothing) return std::nullopt;
    constexpr double nearly = 0.999;
    const double enough = 0.5 * of.lobe.reading_step;
    if (*table->smoothing >= nearly * enough) return std::nullopt;
    return StepsKept{of.lobe.reading_step, *table->smoothing, enough};
}

/// Laws that step where they start and end, or that differ, are judged at their joints; the peak of a power
/// polynomial is known to step, and so are arcs.
bool joints_are_judged(const Profile& profile) {
    if (std::holds_alternative<SegmentsProfile>(profile)) return true;
    const auto* motion = std::get_if<MotionProfile>(&profile);
    if (motion == nullptr) return false;
    return motion->closing_law || motion->law == LawKind::parabolic ||
           motion->law == LawKind::simple_harmonic;
}

std::optional<LobeFault> judge_joints(const Subject& of) {
    if (!joints_are_judged(of.job.profiles.at(of.job.lobes[of.lobe.entry].profile))) return std::nullopt;
    const auto& pieces = of.lobe.motion.pieces();
    const JointSteps velocity = velocity_steps(pieces), acceleration = acceleration_steps(pieces);
    if (velocity.joints > 0) return JointsJump{true, velocity};
    if (acceleration.joints > 0) return JointsJump{false, acceleration};
    return std::nullopt;
}

}  // namespace

std::vector<LobeFault> faults_of_lobe(const Job& job, const SolvedLobe& lobe, const LobeReport& report,
                                      const LobeCurve& curve) {
    const Subject subject{job, lobe, report, curve};
    std::vector<LobeFault> faults;
    for (const auto judged :
         {judge_float, judge_stress, judge_face, judge_pressure_angle, judge_hollow, judge_seating,
          judge_smoothing, judge_table_zero, judge_rounding, judge_joints}) {
        if (auto fault = judged(subject)) faults.push_back(std::move(*fault));
    }
    return faults;
}

}  // namespace lobewright::profile
