#include "base/elementary/elementary.h"
#include "profile/follower/lobe_curve.h"
#include "profile/judge/card_views.h"
#include "profile/judge/contact_load.h"
#include "profile/judge/float_limits.h"
#include "profile/judge/hertz.h"
#include "profile/judge/soundness_findings.h"
#include "profile/motion/lift_area.h"
#include "profile/timing/nose_direction.h"

#include <lobewright/soundness.h>
#include <lobewright/timing.h>
#include <lobewright/valve_train.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <tuple>

namespace lobewright {
namespace profile {
namespace {

/// 1/mm; a knife has none.
std::optional<double> follower_curvature(const Follower& follower) {
    if (follower.has_flat_face()) return 0.0;
    if (follower.radius <= 0.0) return std::nullopt;
    return 1.0 / follower.radius;
}

/// Of the lobe and the follower together at the contact; nothing under a knife.
std::optional<LineContact> pressed(const ContactLoad& load, const SolvedLobe& lobe,
                                   const FollowerContact& contact, double cam_speed) {
    const auto curvature = follower_curvature(lobe.follower);
    if (!curvature) return std::nullopt;
    const double along_motion = std::max(0.0, contact_force(load, contact.lift, cam_speed));
    const double normal = along_motion / elementary::cos(contact.pressure_angle);
    return line_contact(normal, lobe.width, contact.contact.curvature + *curvature,
                        contact_modulus(load.cam_material, load.follower_material));
}

using Figure = LobeCurve::Figure;
using Contact = const LobeCurve::Contact&;

FigureAt in_size(FigureAt figure) {
    figure.value = std::abs(figure.value);
    return figure;
}

void measure_motion(LobeReport& report, const LobeCurve& curve) {
    const auto acceleration = [](Contact c) { return c.acceleration; };
    report.max_velocity = in_size(curve.farthest([](Contact c) { return c.velocity; }));
    report.max_acceleration = curve.largest(acceleration);
    report.min_acceleration = curve.least(acceleration);
    report.max_jerk = in_size(curve.farthest([](Contact c) { return c.jerk; }));
}

void measure_pressure_angle(LobeReport& report, const LobeCurve& curve) {
    report.rise_pressure_angle = farthest_pressure_angle(curve, Phase::rise);
    report.fall_pressure_angle = farthest_pressure_angle(curve, Phase::fall);
    const bool on_the_rise =
        std::abs(report.rise_pressure_angle.value) >= std::abs(report.fall_pressure_angle.value);
    report.max_pressure_angle =
        in_size(on_the_rise ? report.rise_pressure_angle : report.fall_pressure_angle);
}

void measure_surface(LobeReport& report, const SolvedLobe& lobe, const LobeCurve& curve) {
    report.min_curvature_radius = {lobe.contour.smallest_convex_radius(),
                                   curve.largest([](Contact c) { return c.curvature(); }).at};
    const double hollow = lobe.contour.smallest_hollow_radius();
    if (std::isfinite(hollow)) report.min_hollow_radius = hollow;
    if (lobe.opening_arcs) {
        report.flank_radius = lobe.opening_arcs->flank_radius;
        report.closing_flank_radius = lobe.closing_arcs->flank_radius;
        report.nose_radius = lobe.opening_arcs->nose_radius;
    }
    report.nose_to_base = 1.0 / (contact_at(lobe, CamAngle{}).contact.curvature * lobe.base_radius);
}

/// The contact of a flat follower runs sideways along the face; the lobe's width lies across it.
void measure_face(LobeReport& report, const SolvedLobe& lobe, const LobeCurve& curve) {
    if (!lobe.follower.has_flat_face()) return;
    report.contact_travel = in_size(curve.farthest([](Contact c) { return c.slide(); }));
    if (lobe.follower.kind != FollowerKind::flat) return;
    const double across = 0.5 * lobe.width + std::abs(lobe.follower.face_offset);
    report.face_needed = 2.0 * length({report.contact_travel->value, across});
}

/// Line contact at its worst over the turn. The pressure grows with its square, which is smooth where no
/// force is left.
struct WorstContact {
    FigureAt pressure;
    LineContact band;
};

WorstContact worst_contact(const ContactLoad& load, double speed, const SolvedLobe& lobe,
                           const LobeCurve& curve) {
    const double modulus = contact_modulus(load.cam_material, load.follower_material);
    const auto normal_force = [&](Contact c) {
        return contact_force(load, c.lift, c.acceleration, speed) * c.pressure_secant();
    };
    const auto curvature = [own = *follower_curvature(lobe.follower)](Contact c) {
        return c.curvature() + own;
    };
    const LobeCurve::Extreme worst = curve.find_largest(
        [&](Contact c) { return squared_pressure(normal_force(c), lobe.width, curvature(c), modulus); });
    const LobeCurve::Contact there = curve.contact(worst.piece, worst.angle);
    const double force = std::max(0.0, normal_force(there).c[0].middle());
    const LineContact band = line_contact(force, lobe.width, curvature(there).c[0].middle(), modulus);
    return {{band.pressure, worst.figure.at}, band};
}

void measure_pressure(LobeReport& report, const ContactLoad& load, double speed, const SolvedLobe& lobe,
                      const LobeCurve& curve) {
    if (!follower_curvature(lobe.follower)) return;
    const WorstContact running = worst_contact(load, speed, lobe, curve);
    const WorstContact standing = worst_contact(load, 0.0, lobe, curve);
    report.max_contact_stress_mpa = running.pressure;
    report.standing_contact_stress_mpa = standing.pressure;
    const bool running_is_worse = running.pressure.value >= standing.pressure.value;
    report.shear_depth = (running_is_worse ? running : standing).band.shear_depth;
}

void measure_contact(LobeReport& report, const Job& job, const SolvedLobe& lobe, const LobeCurve& curve) {
    const ContactLoad& load = *job.contact;
    const double speed = cam_speed(job, load.crank_speed);
    report.peak_velocity = report.max_velocity.value * speed * metres_per_mm;
    const double acceleration_scale = speed * speed * metres_per_mm;
    report.peak_acceleration = report.max_acceleration.value * acceleration_scale;
    report.peak_deceleration = report.min_acceleration.value * acceleration_scale;

    const auto force = [&](Contact c) { return contact_force(load, c.lift, c.acceleration, speed); };
    report.greatest_force = curve.largest(force);
    report.least_force = curve.least(force);
    const double tendency = largest_float_tendency(load, curve);
    if (tendency > 0.0) report.float_speed_rpm = crank_speed(job, 1.0 / std::sqrt(tendency));
    measure_pressure(report, load, speed, lobe, curve);
}

void measure_events(LobeReport& report, const Job& job, const SolvedLobe& lobe) {
    const auto events = valve_events(job, lobe);
    if (!events) return;
    report.opens = events->opens;
    report.closes = events->closes;
    report.duration = events->duration;
    report.lobe_centre = events->centre;
    report.valve = job.lobes[lobe.entry].valve;
    report.clearance = events->valve_lift;
    report.cards = card_views(job, lobe);
    if (!job.contact) return;
    const Lift closing = lobe.motion.at(events->closes_at);
    report.seating_velocity = std::abs(closing.velocity) * valve_ratio_at(lobe.follower, closing.lift) *
                              cam_speed(job, job.contact->crank_speed) * metres_per_mm;
}

LobeReport measured(const Job& job, const SolvedLobe& lobe, const LobeCurve& curve) {
    const LobeEntry& entry = job.lobes[lobe.entry];
    LobeReport report;
    report.name = lobe.name;
    report.profile = entry.profile;
    report.follower = entry.follower;
    report.at = lobe.at;
    report.action_angle = lobe.action_angle;
    report.base_radius = lobe.base_radius;
    report.lift = lobe.lift;
    report.area = lift_area(lobe.motion.pieces());
    report.limited_by = lobe.limited_by;
    measure_motion(report, curve);
    measure_pressure_angle(report, curve);
    measure_surface(report, lobe, curve);
    measure_face(report, lobe, curve);
    if (job.contact) measure_contact(report, job, lobe, curve);
    measure_events(report, job, lobe);
    return report;
}

/// Overlap and separation of cylinder 1, where it has one lobe of each kind with events.
void measure_first_cylinder(JobReport& report, const Job& job, const std::vector<SolvedLobe>& lobes) {
    const LobeReport* inlet = nullptr;
    const LobeReport* exhaust = nullptr;
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        const LobeEntry& entry = job.lobes[lobes[i].entry];
        if (entry.cylinder != 1 || !report.lobes[i].opens) continue;
        const LobeReport*& place = entry.valve == Valve::inlet ? inlet : exhaust;
        if (!place) place = &report.lobes[i];
    }
    if (!inlet || !exhaust) return;
    report.overlaps = overlap_views(job, *inlet, *exhaust);
    report.overlap = *inlet->opens + *exhaust->closes;
    const CrankAngle centres = *inlet->lobe_centre + *exhaust->lobe_centre;
    report.lobe_separation = CamAngle::from_radians(centres.radians() * job.engine->cam_per_crank);
}

}  // namespace
}  // namespace profile

ContactState contact_state(const Job& job, const SolvedLobe& lobe, CamAngle angle, double crank_speed) {
    using namespace profile;
    const ContactLoad& load = *job.contact;
    const double speed = cam_speed(job, crank_speed);
    const FollowerContact contact = contact_at(lobe, angle);
    ContactState state;
    state.force = contact_force(load, contact.lift, speed);
    const auto band = pressed(load, lobe, contact, speed);
    state.pressure_mpa = band ? band->pressure : std::numeric_limits<double>::infinity();
    state.half_width = band ? band->half_width : 0.0;
    return state;
}

namespace profile {
namespace {

/// Lobes of one shape, width and timing are alike in all but their place: judged once.
class Judged {
  public:
    Judged(const Job& job, JobReport& report) : job_(job), report_(report) {}

    void add(const SolvedLobe& lobe) {
        const LobeEntry& entry = job_.lobes[lobe.entry];
        const Key key{entry.profile, entry.follower, entry.repeat, timing_of(job_, entry), lobe.width};
        const auto [known, is_new] = alike_.try_emplace(key);
        if (is_new) known->second = judge(lobe);
        Alike alike = known->second;
        alike.report.name = lobe.name;
        alike.report.at = lobe.at;
        measure_events(alike.report, job_, lobe);
        report_.lobes.push_back(std::move(alike.report));
        for (Diagnostic& finding : alike.findings) {
            finding.lobe = lobe.name;
            report_.findings.push_back(std::move(finding));
        }
    }

  private:
    using Key = std::tuple<std::string, std::string, int, const ValveTiming*, double>;
    struct Alike {
        LobeReport report;
        Diagnostics findings;
    };

    [[nodiscard]] Alike judge(const SolvedLobe& lobe) const {
        const LobeCurve curve(lobe.motion.pieces(), lobe.follower, lobe.base_radius, lobe.turns);
        Alike alike{measured(job_, lobe, curve), {}};
        alike.findings = lobe_findings(job_, lobe, alike.report, curve);
        return alike;
    }

    const Job& job_;
    JobReport& report_;
    std::map<Key, Alike> alike_;
};

}  // namespace
}  // namespace profile

JobReport judge(const Job& job, const std::vector<SolvedLobe>& lobes) {
    using namespace profile;
    JobReport report;
    Judged judged(job, report);
    for (const SolvedLobe& lobe : lobes)
        judged.add(lobe);
    measure_first_cylinder(report, job, lobes);
    return report;
}

}  // namespace lobewright
