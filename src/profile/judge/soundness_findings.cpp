#include "profile/judge/soundness_findings.h"

#include "base/elementary/elementary.h"
#include "base/text/angle_text.h"
#include "base/text/typed_length.h"
#include "base/whole_steps.h"
#include "profile/follower/motion_contour.h"
#include "profile/judge/contact_load.h"
#include "profile/judge/float_limits.h"
#include "profile/shape/lobe_shape.h"

#include <lobewright/number_text.h>

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

enum class Rounded { up, down };

std::string rounded(double value, int figures, Rounded direction) {
    const int digits_before_point = elementary::decimal_exponent(value) + 1;
    const int decimals = figures - digits_before_point;
    const double steps = value * elementary::power(10.0, decimals);
    const auto whole = static_cast<double>(direction == Rounded::up ? step_above(steps) : step_below(steps));
    return shortest_fixed(whole / elementary::power(10.0, decimals), std::max(decimals, 0));
}

/// One lobe's findings, collected.
class Findings {
  public:
    Findings(const Job& job, const SolvedLobe& lobe, const LobeReport& report, const LobeCurve& curve)
        : job_(job), lobe_(lobe), report_(report), curve_(curve) {}

    Diagnostics all();

  private:
    void judge_float();
    void judge_stress();
    void judge_face();
    void judge_pressure_angle();
    void judge_hollow();
    void judge_seating();
    void judge_table();
    void judge_rounding();

    void add(Severity severity, std::string code, std::string key, std::string message) {
        found_.push_back(finding(severity, std::move(code), lobe_.name, std::move(message), std::move(key)));
    }
    [[nodiscard]] std::string of_profile(const std::string& key) const {
        return "profile." + job_.lobes[lobe_.entry].profile + "." + key;
    }
    [[nodiscard]] std::string of_follower(const std::string& key) const {
        return "follower." + job_.lobes[lobe_.entry].follower + "." + key;
    }
    [[nodiscard]] std::string length(double mm) const { return length_words(mm, job_.units); }
    /// Four figures, rounded so that they cure.
    [[nodiscard]] std::string no_less_than(double mm) const {
        return with_unit(at_least(mm / mm_per(job_.units)), job_.units);
    }
    [[nodiscard]] std::string no_more_than(double mm) const {
        return with_unit(at_most(mm / mm_per(job_.units)), job_.units);
    }
    static std::string angle(std::optional<CamAngle> a) {
        return a ? "cam angle " + shortest_fixed(a->degrees(), 1) : "every cam angle";
    }

    const Job& job_;
    const SolvedLobe& lobe_;
    const LobeReport& report_;
    const LobeCurve& curve_;
    Diagnostics found_;
};

void Findings::judge_float() {
    if (!report_.float_speed_rpm) return;
    const ContactLoad& load = *job_.contact;
    if (*report_.float_speed_rpm >= load.crank_speed || report_.least_force->value >= 0.0) return;
    const double speed = cam_speed(job_, load.crank_speed);
    const double preload = largest_preload_needed(load, curve_, speed);
    const double rate = largest_rate_needed(load, curve_, speed);
    std::string cure = "raise spring_preload from " + shortest_fixed(load.spring_preload, 3) + " to " +
                       at_least(preload) + " N";
    // Where the follower slows down near the base circle, only an absurd rate would hold it.
    constexpr double most_of_a_change = 20.0;
    if (std::isfinite(rate) && rate < most_of_a_change * std::max(load.spring_rate, 1.0)) {
        cure += ", or spring_rate from " + shortest_fixed(load.spring_rate, 3) + " to " + at_least(rate) +
                " N/mm";
    }
    const std::string floats =
        *report_.float_speed_rpm > 0.0
            ? "above " + at_most(*report_.float_speed_rpm) + " rev/min, below"
            : std::string("at any speed, as no spring presses where it slows down, also at");
    add(Severity::error, "float", "contact.spring_preload",
        "the follower leaves the lobe " + floats + " crank_speed = " + shortest_fixed(load.crank_speed, 1) +
            "; at " + angle(report_.least_force->at) + " the spring lacks " +
            at_least(-report_.least_force->value, 3) + " N: " + cure + ", or lighten what moves");
}

void Findings::judge_stress() {
    if (!job_.contact || !job_.contact->allowable_stress || !report_.max_contact_stress_mpa) return;
    const FigureAt& running = *report_.max_contact_stress_mpa;
    const FigureAt& standing = *report_.standing_contact_stress_mpa;
    const FigureAt& worst = running.value >= standing.value ? running : standing;
    const double allowed = *job_.contact->allowable_stress;
    if (worst.value <= allowed) return;
    // The pressure goes as the root of the force over the width.
    const double wider = lobe_.width * (worst.value / allowed) * (worst.value / allowed);
    add(Severity::error, "contact-pressure", "contact.allowable_stress",
        "the contact pressure of " + at_least(worst.value) + " MPa at " + angle(worst.at) +
            (&worst == &running ? " at crank_speed" : " when turned slowly") +
            " is above allowable_stress = " + shortest_fixed(allowed, 1) + ": make the lobe " +
            no_less_than(wider) + " wide, or ease the spring to " +
            at_most(100.0 * allowed * allowed / (worst.value * worst.value), 3) +
            " percent of that force, or give nose and follower larger radii");
}

void Findings::judge_face() {
    if (!report_.face_needed || !lobe_.follower.face_diameter) return;
    const double has = *lobe_.follower.face_diameter;
    if (*report_.face_needed <= has) return;
    const FollowerContact worst = contact_at(lobe_, *report_.contact_travel->at);
    const double across = dot(worst.contact.point, quarter_turn(unit(worst.facing.radians())));
    const double offset = lobe_.follower.face_offset;
    const std::string end = offset == 0.0
                                ? "at both of the lobe's ends"
                                : (offset > 0.0 ? "at the lobe's drive end" : "at the lobe's far end");
    add(Severity::error, "face-too-small", of_follower("face_diameter"),
        "the line of contact runs off the tappet's edge by " + length(0.5 * (*report_.face_needed - has)) +
            " " + end + ", " + sense_words(across > 0.0 ? Sense::ccw : Sense::cw) +
            " of the tappet's middle, at " + angle(report_.contact_travel->at) + ": give face_diameter = " +
            no_less_than(*report_.face_needed) + " or more" + (offset == 0.0 ? "" : ", or less face_offset"));
}

/// Whether the lobe, on another base circle, is sound with a pressure angle of no more than `limit`. Only
/// arcs are solved anew: a law and a table stay what they are.
bool is_gentle(const Job& job, const SolvedLobe& lobe, double base_radius, double limit) {
    const auto gentle = [limit](const LobeCurve& curve) {
        return std::abs(farthest_pressure_angle(curve).value) <= limit;
    };
    if (!lobe.arcs) {
        if (!reaches(lobe.follower, base_radius, lobe.lift)) return false;
        const LobeCurve curve(lobe.motion.pieces(), lobe.follower, base_radius, lobe.turns);
        return judge_motion(curve).fault == MotionFault::none && gentle(curve);
    }
    const LobeEntry& entry = job.lobes[lobe.entry];
    ArcsProfile arcs = std::get<ArcsProfile>(job.profiles.at(entry.profile));
    arcs.base_radius = base_radius;
    const auto solved = shape_from_arcs({job, entry, lobe.follower, false}, arcs);
    return solved && gentle(LobeCurve(solved->motion.pieces(), lobe.follower, base_radius, lobe.turns));
}

/// The smallest base radius above the lobe's own with which it is gentle, to `told_digits` of it.
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
    return high;
}

void Findings::judge_pressure_angle() {
    const bool arm = lobe_.follower.kind == FollowerKind::pivoted;
    const double limit = arm ? largest_pressure_angle_of_arm : largest_pressure_angle;
    if (report_.max_pressure_angle.value <= limit) return;
    const auto radius = gentle_base_radius(job_, lobe_, limit);
    const bool on_the_rise = report_.max_pressure_angle.at == report_.rise_pressure_angle.at;
    const bool jams = !arm && std::abs(report_.rise_pressure_angle.value) > jamming_pressure_angle;
    add(jams ? Severity::error : Severity::warning, "pressure-angle", of_profile("base_radius"),
        "the pressure angle reaches " + shortest_fixed(report_.max_pressure_angle.value / per_degree, 1) +
            " degrees at " + angle(report_.max_pressure_angle.at) + ", on the " +
            (on_the_rise ? "rise" : "fall") + "; above " + shortest_fixed(limit / per_degree, 0) +
            (arm    ? " an arm is pushed at its pivot more than it is lifted: "
             : jams ? " a guided follower may bind, and here it jams as it rises: "
                    : " a guided follower may bind: ") +
            (radius ? "give base_radius = " + no_less_than(*radius) + " or more"
                    : std::string("lift less, or over a longer angle")));
}

void Findings::judge_hollow() {
    if (!report_.min_hollow_radius) return;
    const double hollow = *report_.min_hollow_radius;
    std::string too_large;
    for (const auto& [name, cutter] : job_.cutters) {
        if (cutter.kind == CutterKind::ball_nose || 0.5 * cutter.diameter <= hollow) continue;
        too_large += (too_large.empty() ? "" : ", ") + name;
    }
    add(Severity::note, "hollow", of_profile("flank_radius"),
        "the flank is hollow, with a radius down to " + length(hollow) +
            ": across the lobe no cutter or wheel of more than " + no_more_than(2.0 * hollow) +
            " diameter gets into it" + (too_large.empty() ? "" : " (not " + too_large + ")"));
}

void Findings::judge_seating() {
    if (!report_.seating_velocity || *report_.seating_velocity <= largest_seating_velocity) return;
    const double ratio = lobe_.follower.valve_ratio;
    const double speed = cam_speed(job_, job_.contact->crank_speed);  // rad/s
    const double mm_per_degree = largest_seating_velocity * 1e3 / (ratio * speed) * per_degree;
    // The ramp must still run at its constant speed where the clearance is taken up: see Ramp.
    constexpr double above_clearance = 1.25;
    const double ramp_lift = above_clearance * report_.clearance / ratio;
    const double ramp_angle = ramp_lift / (0.875 * mm_per_degree);
    add(Severity::warning, "seating", of_profile("closing_ramp"),
        "the valve meets its seat at " + at_least(*report_.seating_velocity, 3) +
            " m/s at crank_speed, more than " + shortest_fixed(largest_seating_velocity, 2) +
            ": as shape = \"motion\", close with a closing_ramp of lift " + no_less_than(ramp_lift) +
            " over an angle of " + at_least(1.005 * ramp_angle, 3) + " degrees");
}

void Findings::judge_table() {
    constexpr double worth_telling = 5e-5;  // mm: less is 0 in the figure that is told
    if (lobe_.smoothing_moved > worth_telling) {
        add(Severity::note, "smoothed", of_profile("smoothing"),
            "smoothing moved the table's readings by up to " + length(lobe_.smoothing_moved));
    }
    if (lobe_.table_shift.radians() != 0.0) {
        add(Severity::note, "table-turned", of_profile("file"),
            "the table has its peak at " + shortest_fixed(lobe_.table_shift.degrees(), 3) +
                " degrees of its own scale: here that is cam angle 0");
    }
}

/// Smoothing that is less than rounding brings leaves the steps of the dial in the lobe.
void Findings::judge_rounding() {
    const auto* table =
        std::get_if<TableProfile>(&job_.profiles.find(job_.lobes[lobe_.entry].profile)->second);
    if (table == nullptr || !table->smoothing) return;
    constexpr double nearly = 0.999;
    const double enough = 0.5 * lobe_.reading_step;
    if (*table->smoothing >= nearly * enough) return;
    add(Severity::warning, "rounded", of_profile("smoothing"),
        "the table's readings are rounded to " + length(lobe_.reading_step) + ", and smoothing = " +
            length(*table->smoothing) + " keeps these steps in the lobe: give smoothing = " + length(enough) +
            " or more, or leave it out");
}

Diagnostics Findings::all() {
    judge_float();
    judge_stress();
    judge_face();
    judge_pressure_angle();
    judge_hollow();
    judge_seating();
    judge_table();
    judge_rounding();
    return std::move(found_);
}

}  // namespace

std::string at_least(double value, int figures) {
    return rounded(value, figures, Rounded::up);
}
std::string at_most(double value, int figures) {
    return rounded(value, figures, Rounded::down);
}

Diagnostics lobe_findings(const Job& job, const SolvedLobe& lobe, const LobeReport& report,
                          const LobeCurve& curve) {
    return Findings(job, lobe, report, curve).all();
}

}  // namespace lobewright::profile
