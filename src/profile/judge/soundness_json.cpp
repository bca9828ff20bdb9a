#include "base/text/length_text.h"
#include "profile/fullest/limit_words.h"
#include "profile/judge/card_views.h"
#include "profile/judge/report_members.h"

#include <lobewright/soundness.h>

#include <cmath>
#include <numbers>

namespace lobewright {
namespace profile {
namespace {

constexpr double per_degree = std::numbers::pi / 180.0;
constexpr double per_degree2 = per_degree * per_degree;
constexpr double per_degree3 = per_degree2 * per_degree;

std::optional<double> scaled(const std::optional<double>& value, double scale) {
    return value ? std::optional(*value * scale) : std::nullopt;
}

template <class Frame>
std::optional<double> degrees(const std::optional<Angle<Frame>>& angle) {
    return angle ? std::optional(angle->degrees()) : std::nullopt;
}

/// Null where there is no figure, or it stands at no one angle.
void put_place(JsonText& json, const std::string& name, const std::optional<FigureAt>& figure) {
    json.member(name, figure ? degrees(figure->at) : std::nullopt);
}

void put_figure(JsonText& json, const std::string& name, const std::optional<FigureAt>& figure,
                double scale = 1.0) {
    json.member(name, figure ? std::optional(figure->value * scale) : std::nullopt);
    put_place(json, name + "_at", figure);
}

/// A radius that may be infinite.
void put_flank(JsonText& json, const std::string& name, const std::optional<double>& radius, double scale) {
    if (radius && std::isinf(*radius))
        json.member(name, "straight");
    else
        json.member(name, scaled(radius, scale));
}

/// Of a fullest lift: what it reaches, and what a hundredth more of each would gain.
void put_limits(JsonText& json, const LobeReport& lobe) {
    if (lobe.limited_by.empty()) return;
    json.array("limited_by", JsonText::Layout::one_line);
    for (const ReachedLimit& reached : lobe.limited_by)
        json.item(limit_key(reached.limit));
    json.end();
    json.array("area_gains", JsonText::Layout::one_line);
    for (const ReachedLimit& reached : lobe.limited_by)
        json.item(100.0 * reached.gain);
    json.end();
}

void put_documented_keys(JsonText& json, const LobeReport& lobe, double scale) {
    json.member("name", lobe.name)
        .member("at", lobe.at.degrees())
        .member("action_angle", lobe.action_angle.degrees());
    json.member("lift", lobe.lift * scale);
    json.member("max_velocity", lobe.max_velocity.value * scale * per_degree);
    json.member("max_acceleration", lobe.max_acceleration.value * scale * per_degree2);
    json.member("min_curvature_radius", lobe.min_curvature_radius.value * scale);
    json.member("min_hollow_radius", scaled(lobe.min_hollow_radius, scale));
    json.member("max_pressure_angle", lobe.max_pressure_angle.value / per_degree);
    json.member("face_needed", scaled(lobe.face_needed, scale));
    json.member("max_contact_stress_mpa", lobe.max_contact_stress_mpa
                                              ? std::optional(lobe.max_contact_stress_mpa->value)
                                              : std::nullopt);
    json.member("float_speed_rpm", lobe.float_speed_rpm);
    put_flank(json, "flank_radius", lobe.flank_radius, scale);
    json.member("nose_radius", scaled(lobe.nose_radius, scale));
    json.member("area", lobe.area * scale / per_degree);
    put_limits(json, lobe);
}

void put_cards(JsonText& json, const LobeReport& lobe, double scale) {
    json.array("cards");
    for (const CardView& card : lobe.cards) {
        json.object({}, JsonText::Layout::one_line)
            .member("at", checking_word(card.at))
            .member("valve_lift", card.valve_lift * scale)
            .member("opens", card.opens.degrees())
            .member("closes", card.closes.degrees())
            .member("duration", card.duration.degrees())
            .member("centre", card.centre.degrees())
            .end();
    }
    json.end();
}

void put_overlaps(JsonText& json, const JobReport& report) {
    json.array("cards");
    for (const OverlapView& view : report.overlaps) {
        json.object({}, JsonText::Layout::one_line)
            .member("at", checking_word(view.at))
            .member("overlap", view.overlap.degrees())
            .member("lobe_separation", view.lobe_separation.degrees())
            .end();
    }
    json.end();
}

void put_further_keys(JsonText& json, const LobeReport& lobe, double scale) {
    json.member("profile", lobe.profile).member("follower", lobe.follower);
    json.member("base_radius", lobe.base_radius * scale).member("nose_to_base", lobe.nose_to_base);
    put_place(json, "max_velocity_at", lobe.max_velocity);
    put_place(json, "max_acceleration_at", lobe.max_acceleration);
    put_figure(json, "min_acceleration", lobe.min_acceleration, scale * per_degree2);
    put_figure(json, "max_jerk", lobe.max_jerk, scale * per_degree3);
    put_place(json, "min_curvature_radius_at", lobe.min_curvature_radius);
    put_place(json, "max_pressure_angle_at", lobe.max_pressure_angle);
    put_figure(json, "rise_pressure_angle", lobe.rise_pressure_angle, 1.0 / per_degree);
    put_figure(json, "fall_pressure_angle", lobe.fall_pressure_angle, 1.0 / per_degree);
    put_figure(json, "contact_travel", lobe.contact_travel, scale);
    json.member("peak_velocity_m_s", lobe.peak_velocity);
    json.member("peak_acceleration_m_s2", lobe.peak_acceleration);
    json.member("peak_deceleration_m_s2", lobe.peak_deceleration);
    put_figure(json, "greatest_force_n", lobe.greatest_force);
    put_figure(json, "least_force_n", lobe.least_force);
    put_place(json, "max_contact_stress_at", lobe.max_contact_stress_mpa);
    put_figure(json, "standing_contact_stress_mpa", lobe.standing_contact_stress_mpa);
    json.member("shear_depth", scaled(lobe.shear_depth, scale));
    json.member("seating_velocity_m_s", lobe.seating_velocity);
    json.member("opens", degrees(lobe.opens)).member("closes", degrees(lobe.closes));
    json.member("duration", degrees(lobe.duration)).member("lobe_centre", degrees(lobe.lobe_centre));
    put_flank(json, "closing_flank_radius", lobe.closing_flank_radius, scale);
    put_cards(json, lobe, scale);
}

}  // namespace

void put_report(JsonText& json, const Job& job, const JobReport& report) {
    const double scale = 1.0 / mm_per(job.units);
    json.member("title", job.title).member("units", units_key(job.units));
    json.array("lobes");
    for (const LobeReport& lobe : report.lobes) {
        json.object();
        put_documented_keys(json, lobe, scale);
        put_further_keys(json, lobe, scale);
        json.end();
    }
    json.end();
    json.member("overlap", degrees(report.overlap))
        .member("lobe_separation", degrees(report.lobe_separation));
    put_overlaps(json, report);
}

void put_finding(JsonText& json, const Diagnostic& finding) {
    json.member("severity", severity_word(finding.severity))
        .member("lobe", finding.lobe.empty() ? std::nullopt : std::optional(finding.lobe))
        .member("message", finding.what)
        .member("code", finding.code);
}

}  // namespace profile

std::string report_json(const Job& job, const JobReport& report) {
    using namespace profile;
    JsonText json;
    json.object();
    put_report(json, job, report);
    json.array("findings");
    for (const Diagnostic& finding : report.findings) {
        json.object({}, JsonText::Layout::one_line);
        put_finding(json, finding);
        json.end();
    }
    json.end().end();
    return json.text();
}

}  // namespace lobewright
