#include "profile/judge/soundness_findings.h"

#include "base/elementary/elementary.h"
#include "base/text/angle_text.h"
#include "base/text/typed_length.h"
#include "base/whole_steps.h"
#include "profile/judge/lobe_faults.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <numbers>

namespace lobewright::profile {
namespace {

constexpr double per_degree = std::numbers::pi / 180.0;

enum class Rounded { up, down };

std::string rounded(double value, int figures, Rounded direction) {
    const int digits_before_point = elementary::decimal_exponent(value) + 1;
    const int decimals = figures - digits_before_point;
    const double steps = value * elementary::power(10.0, decimals);
    const auto whole = static_cast<double>(direction == Rounded::up ? step_above(steps) : step_below(steps));
    return shortest_fixed(whole / elementary::power(10.0, decimals), std::max(decimals, 0));
}

std::string three_figures(double value) {
    return shortest_fixed(value, std::max(0, 2 - elementary::decimal_exponent(value)));
}

/// The sentences about one lobe, one for each fault.
class Findings {
  public:
    Findings(const Job& job, const SolvedLobe& lobe, const LobeReport& report)
        : job_(job), lobe_(lobe), report_(report) {}

    Diagnostic operator()(const Floats& fault) const;
    Diagnostic operator()(const OverPressed& fault) const;
    Diagnostic operator()(const FaceTooSmall& fault) const;
    Diagnostic operator()(const SteepPressureAngle& fault) const;
    Diagnostic operator()(const HollowFlank& fault) const;
    Diagnostic operator()(const HardSeating& fault) const;
    Diagnostic operator()(const Smoothed& fault) const;
    Diagnostic operator()(const TableTurned& fault) const;
    Diagnostic operator()(const StepsKept& fault) const;
    Diagnostic operator()(const JointsJump& fault) const;

  private:
    [[nodiscard]] Diagnostic told(Severity severity, std::string code, std::string key,
                                  std::string message) const {
        return finding(severity, std::move(code), lobe_.name, std::move(message), std::move(key));
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
        return at_least(mm / mm_per(job_.units)) + unit_words();
    }
    [[nodiscard]] std::string no_more_than(double mm) const {
        return at_most(mm / mm_per(job_.units)) + unit_words();
    }
    [[nodiscard]] const char* unit_words() const { return job_.units == Units::mm ? " mm" : " in"; }
    static std::string angle(std::optional<CamAngle> a) {
        return a ? "cam angle " + shortest_fixed(a->degrees(), 1) : "every cam angle";
    }

    const Job& job_;
    const SolvedLobe& lobe_;
    const LobeReport& report_;
};

Diagnostic Findings::operator()(const Floats& fault) const {
    const ContactLoad& load = *job_.contact;
    std::string cure = "raise spring_preload from " + shortest_fixed(load.spring_preload, 3) + " to " +
                       at_least(fault.preload) + " N";
    if (fault.rate) {
        cure += ", or spring_rate from " + shortest_fixed(load.spring_rate, 3) + " to " +
                at_least(*fault.rate) + " N/mm";
    }
    const std::string floats =
        *report_.float_speed_rpm > 0.0
            ? "above " + at_most(*report_.float_speed_rpm) + " rev/min, below"
            : std::string("at any speed, as no spring presses where it slows down, also at");
    return told(Severity::error, "float", "contact.spring_preload",
                "the follower leaves the lobe " + floats +
                    " crank_speed = " + shortest_fixed(load.crank_speed, 1) + "; at " +
                    angle(report_.least_force->at) + " the spring lacks " +
                    at_least(-report_.least_force->value, 3) + " N: " + cure + ", or lighten what moves");
}

Diagnostic Findings::operator()(const OverPressed& fault) const {
    const double allowed = *job_.contact->allowable_stress, worst = fault.worst.value;
    return told(Severity::error, "contact-pressure", "contact.allowable_stress",
                "the contact pressure of " + at_least(worst) + " MPa at " + angle(fault.worst.at) +
                    (fault.standing ? " when turned slowly" : " at crank_speed") +
                    " is above allowable_stress = " + shortest_fixed(allowed, 1) + ": make the lobe " +
                    no_less_than(fault.wider) + " wide, or ease the spring to " +
                    at_most(100.0 * allowed * allowed / (worst * worst), 3) +
                    " percent of that force, or give nose and follower larger radii");
}

Diagnostic Findings::operator()(const FaceTooSmall& fault) const {
    const double offset = lobe_.follower.face_offset;
    const std::string end = offset == 0.0
                                ? "at both of the lobe's ends"
                                : (offset > 0.0 ? "at the lobe's drive end" : "at the lobe's far end");
    return told(Severity::error, "face-too-small", of_follower("face_diameter"),
                "the line of contact runs off the tappet's edge by " + length(fault.over) + " " + end + ", " +
                    sense_words(fault.towards_ccw ? Sense::ccw : Sense::cw) + " of the tappet's middle, at " +
                    angle(report_.contact_travel->at) +
                    ": give face_diameter = " + no_less_than(*report_.face_needed) + " or more" +
                    (offset == 0.0 ? "" : ", or less face_offset"));
}

Diagnostic Findings::operator()(const SteepPressureAngle& fault) const {
    const bool arm = lobe_.follower.kind == FollowerKind::pivoted;
    return told(
        fault.jams ? Severity::error : Severity::warning, "pressure-angle", of_profile("base_radius"),
        "the pressure angle reaches " + shortest_fixed(report_.max_pressure_angle.value / per_degree, 1) +
            " degrees at " + angle(report_.max_pressure_angle.at) + ", on the " +
            (fault.on_the_rise ? "rise" : "fall") + "; above " + shortest_fixed(fault.limit / per_degree, 0) +
            (arm          ? " an arm is pushed at its pivot more than it is lifted: "
             : fault.jams ? " a guided follower may bind, and here it jams as it rises: "
                          : " a guided follower may bind: ") +
            (fault.least_base_radius
                 ? "give base_radius = " + no_less_than(*fault.least_base_radius) + " or more"
                 : std::string("lift less, or over a longer angle")));
}

Diagnostic Findings::operator()(const HollowFlank& fault) const {
    std::string too_large;
    for (const std::string& name : fault.too_large)
        too_large += (too_large.empty() ? "" : ", ") + name;
    return told(Severity::note, "hollow", of_profile("flank_radius"),
                "the flank is hollow, with a radius down to " + length(fault.radius) +
                    ": across the lobe no cutter or wheel of more than " + no_more_than(2.0 * fault.radius) +
                    " diameter gets into it" + (too_large.empty() ? "" : " (not " + too_large + ")"));
}

Diagnostic Findings::operator()(const HardSeating& fault) const {
    return told(Severity::warning, "seating", of_profile("closing_ramp"),
                "the valve meets its seat at " + at_least(*report_.seating_velocity, 3) +
                    " m/s at crank_speed, more than " + shortest_fixed(fault.limit, 2) +
                    ": as shape = \"motion\", close with a closing_ramp of lift " +
                    no_less_than(fault.ramp_lift) + " over an angle of " + at_least(fault.ramp_angle, 3) +
                    " degrees");
}

Diagnostic Findings::operator()(const Smoothed& fault) const {
    return told(Severity::note, "smoothed", of_profile("smoothing"),
                "smoothing moved the table's readings by up to " + length(fault.moved));
}

Diagnostic Findings::operator()(const TableTurned& fault) const {
    return told(Severity::note, "table-turned", of_profile("file"),
                "the table has its peak at " + shortest_fixed(fault.peak.degrees(), 3) +
                    " degrees of its own scale: here that is cam angle 0");
}

Diagnostic Findings::operator()(const StepsKept& fault) const {
    return told(Severity::warning, "rounded", of_profile("smoothing"),
                "the table's readings are rounded to " + length(fault.step) +
                    ", and smoothing = " + length(fault.smoothing) +
                    " keeps these steps in the lobe: give smoothing = " + length(fault.enough) +
                    " or more, or leave it out");
}

/// As the handbooks judge joints: infinite acceleration is none for any speed, infinite jerk for high ones.
Diagnostic Findings::operator()(const JointsJump& fault) const {
    const bool velocity = fault.velocity;
    const double scale = (velocity ? per_degree : per_degree * per_degree) / mm_per(job_.units);
    const bool segments =
        std::holds_alternative<SegmentsProfile>(job_.profiles.at(job_.lobes[lobe_.entry].profile));
    return told(
        velocity ? Severity::warning : Severity::note, velocity ? "velocity-jump" : "acceleration-jump",
        of_profile(segments ? "segments" : "law"),
        std::string("the ") + (velocity ? "velocity" : "acceleration") + " jumps at " +
            counted(fault.steps.joints, "joint") + ", most at " + angle(fault.steps.at) + " by " +
            three_figures(fault.steps.largest * scale) + unit_words() +
            (velocity ? " per degree (infinite acceleration): no follower goes with that, and the lobe "
                        "has an edge there"
                      : " per degree² (infinite jerk), which knocks at speed: cycloidal, "
                        "polynomial-345, polynomial-4567 and the modified laws start and end "
                        "without"));
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
    Diagnostics found;
    for (const LobeFault& fault : faults_of_lobe(job, lobe, report, curve))
        found.push_back(std::visit(Findings(job, lobe, report), fault));
    return found;
}

}  // namespace lobewright::profile
