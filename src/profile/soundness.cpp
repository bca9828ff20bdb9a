#include "base/elementary/elementary.h"
#include "contact_load.h"
#include "hertz.h"
#include "lobe_curve.h"
#include "soundness_findings.h"

#include <lobewright/soundness.h>
#include <lobewright/timing.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace lobewright {
namespace {

constexpr double per_degree = std::numbers::pi / 180.0;

/// 1/mm; a knife has none.
std::optional<double> follower_curvature(const Follower& follower) {
    if (follower.kind == FollowerKind::flat) return 0.0;
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

void measure_motion(LobeReport& report, const LobeCurve& curve) {
    const auto scaled = [](FigureAt figure, int order) {
        figure.value *= elementary::power(per_degree, order);
        return figure;
    };
    using Contact = const FollowerContact&;
    report.max_velocity = scaled(curve.largest([](Contact c) { return std::abs(c.lift.velocity); }), 1);
    report.max_acceleration = scaled(curve.largest([](Contact c) { return c.lift.acceleration; }), 2);
    report.min_acceleration = scaled(curve.least([](Contact c) { return c.lift.acceleration; }), 2);
    report.max_jerk = scaled(curve.largest([](Contact c) { return std::abs(c.lift.jerk); }), 3);
    report.max_pressure_angle = curve.largest([](Contact c) { return std::abs(c.pressure_angle); });
}

void measure_surface(LobeReport& report, const SolvedLobe& lobe, const LobeCurve& curve) {
    report.min_curvature_radius.value = lobe.contour.smallest_convex_radius();
    report.min_curvature_radius.at =
        curve.largest([](const FollowerContact& c) { return c.contact.curvature; }).at;
    const double hollow = lobe.contour.smallest_hollow_radius();
    if (std::isfinite(hollow)) report.min_hollow_radius = hollow;
    if (lobe.arcs) {
        report.flank_radius = lobe.arcs->flank_radius;
        report.nose_radius = lobe.arcs->nose_radius;
    }
    report.nose_to_base = 1.0 / (contact_at(lobe, CamAngle{}).contact.curvature * lobe.base_radius);
}

/// The contact of a flat follower runs sideways along the face; the lobe's width lies across it.
void measure_face(LobeReport& report, const SolvedLobe& lobe, const LobeCurve& curve) {
    if (lobe.follower.kind != FollowerKind::flat) return;
    report.contact_travel = curve.largest([](const FollowerContact& c) { return std::abs(c.lift.velocity); });
    const double across = 0.5 * lobe.width + std::abs(lobe.follower.face_offset);
    report.face_needed = 2.0 * length({report.contact_travel->value, across});
}

void measure_contact(LobeReport& report, const Job& job, const SolvedLobe& lobe, const LobeCurve& curve) {
    const ContactLoad& load = *job.contact;
    const double speed = cam_speed(job, load.crank_speed);
    constexpr double metres_per_mm = 1e-3;
    report.peak_velocity = report.max_velocity.value / per_degree * speed * metres_per_mm;
    const double acceleration_scale = speed * speed * metres_per_mm / (per_degree * per_degree);
    report.peak_acceleration = report.max_acceleration.value * acceleration_scale;
    report.peak_deceleration = report.min_acceleration.value * acceleration_scale;

    const auto force = [&](const FollowerContact& c) { return contact_force(load, c.lift, speed); };
    report.greatest_force = curve.largest(force);
    report.least_force = curve.least(force);
    const double tendency =
        curve.largest([&load](const FollowerContact& c) { return float_tendency(load, c.lift); }).value;
    if (tendency > 0.0) report.float_speed_rpm = crank_speed(job, 1.0 / std::sqrt(tendency));

    if (!follower_curvature(lobe.follower)) return;
    const auto pressure_at = [&](double at_speed) {
        return [&load, &lobe, at_speed](const FollowerContact& c) {
            return pressed(load, lobe, c, at_speed)->pressure;
        };
    };
    report.max_contact_stress_mpa = curve.largest(pressure_at(speed));
    report.standing_contact_stress_mpa = curve.largest(pressure_at(0.0));
    const bool running_is_worse =
        report.max_contact_stress_mpa->value >= report.standing_contact_stress_mpa->value;
    const CamAngle worst =
        running_is_worse ? report.max_contact_stress_mpa->at : report.standing_contact_stress_mpa->at;
    report.shear_depth =
        pressed(load, lobe, contact_at(lobe, worst), running_is_worse ? speed : 0.0)->shear_depth;
}

void measure_events(LobeReport& report, const Job& job, const SolvedLobe& lobe) {
    const auto events = valve_events(job, lobe);
    if (!events) return;
    report.opens = events->opens;
    report.closes = events->closes;
    report.duration = events->duration;
    report.lobe_centre = events->centre;
    report.valve = job.lobes[lobe.entry].valve;
    report.clearance = events->clearance;
    if (!job.contact) return;
    constexpr double metres_per_mm = 1e-3;
    report.seating_velocity = std::abs(lobe.motion.at(events->closes_at).velocity) *
                              lobe.follower.valve_ratio * cam_speed(job, job.contact->crank_speed) *
                              metres_per_mm;
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
    measure_motion(report, curve);
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
    report.overlap = *inlet->opens + *exhaust->closes;
    const CrankAngle centres = *inlet->lobe_centre + *exhaust->lobe_centre;
    report.lobe_separation = CamAngle::from_radians(centres.radians() * job.engine->cam_per_crank);
}

}  // namespace

ContactState contact_state(const Job& job, const SolvedLobe& lobe, CamAngle angle, double crank_speed) {
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

JobReport judge(const Job& job, const std::vector<SolvedLobe>& lobes) {
    JobReport report;
    for (const SolvedLobe& lobe : lobes) {
        const LobeCurve curve(lobe);
        report.lobes.push_back(measured(job, lobe, curve));
        for (Finding& finding : lobe_findings(job, lobe, report.lobes.back(), curve)) {
            report.findings.push_back(std::move(finding));
        }
    }
    measure_first_cylinder(report, job, lobes);
    return report;
}

}  // namespace lobewright
