#include "profile/shape/shape_refusals.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

std::string at_words(CamAngle angle) {
    return " at cam angle " + shortest_fixed(angle.degrees(), 1) + " degrees";
}

std::string lift_cure(const TypedLength& lift) {
    return "give lift = " + lift.words + " or less";
}

/// The sentences, one for each fact.
class Refusal {
  public:
    explicit Refusal(const ShapeRequest& request) : request_(request), units_(request.units()) {}

    Diagnostic operator()(const LineTooFarAside& why) const;
    Diagnostic operator()(const ArmOffTheHeel& why) const;
    Diagnostic operator()(const PadOffTheHeel& why) const;
    Diagnostic operator()(const ImpossibleMotion& why) const;
    Diagnostic operator()(const ScatteredReadings& why) const;
    Diagnostic operator()(const RampTooHigh& why) const;
    Diagnostic operator()(const RampTooFast& why) const;
    Diagnostic operator()(const TooFewPowers& why) const;
    Diagnostic operator()(const EventTooLong& why) const;
    Diagnostic operator()(const LawAnglesMissing& why) const;
    Diagnostic operator()(const NoLawAngles& why) const;
    Diagnostic operator()(const LimitsInTheWay& why) const;
    Diagnostic operator()(const KnifeUnderStress& why) const;
    Diagnostic operator()(const ActionAngleTooLong& why) const;
    Diagnostic operator()(const ActionAngleMissing& why) const;
    Diagnostic operator()(const NoActionAngle& why) const;
    Diagnostic operator()(const NoFlankAndNose& why) const;
    Diagnostic operator()(const ArcsMisfit& why) const;
    Diagnostic operator()(const SidesMisfit& why) const;
    Diagnostic operator()(const ArcRampTooFast& why) const;
    Diagnostic operator()(const NeverOpens& why) const;
    Diagnostic operator()(const RockerMeasuredTooShort& why) const;
    Diagnostic operator()(const NoseUnplaced& why) const;

  private:
    struct Cure {
        std::string key;
        std::string remedy;
    };
    [[nodiscard]] Diagnostic of_profile(const std::string& key, std::string code, std::string what,
                                        std::string remedy) const {
        return request_.refusal(request_.profile_key(key), std::move(code), std::move(what),
                                std::move(remedy));
    }
    [[nodiscard]] std::string length(double mm) const { return length_words(mm, units_); }
    [[nodiscard]] std::string from_to(const WorkingRange& range) const {
        return typed_above(range.low, units_).words + " to " + typed_below(range.high, units_).words;
    }
    [[nodiscard]] const ArcsProfile& arcs() const { return std::get<ArcsProfile>(request_.cause.profile); }
    [[nodiscard]] std::string radius_key() const {
        return arcs().nose_radius ? "nose_radius" : "flank_radius";
    }
    [[nodiscard]] std::string motion_words(const MotionJudgement& judgement) const;
    [[nodiscard]] Cure duration_cure(const NoActionAngle& why) const;
    [[nodiscard]] std::string misfit_words(const ArcShape& shape) const;
    [[nodiscard]] std::string range_words(const ArcsMisfit& why) const;

    const ShapeRequest& request_;
    Units units_;
};

Diagnostic Refusal::operator()(const LineTooFarAside& why) const {
    return request_.refusal(
        request_.follower_key("offset"), "offset",
        "the follower's line passes the shaft's axis at " + length(std::abs(request_.follower().offset)) +
            ", no nearer than its centre's " + length(why.heel_distance) + " at zero lift",
        why.offsets ? "give an offset from " + from_to(*why.offsets)
                    : "give offset = 0 and a larger base_radius");
}

Diagnostic Refusal::operator()(const PadOffTheHeel& why) const {
    return request_.refusal(request_.follower_key("pivot_radius"), "arm-does-not-reach",
                            "a pivot " + length(request_.follower().pivot_radius) +
                                " from the axis is no further from it than a face under it that touches the "
                                "base circle",
                            "give a pivot_radius of " + typed_above(why.farthest, units_).words + " or more");
}

Diagnostic Refusal::operator()(const ArmOffTheHeel& why) const {
    const Follower& follower = request_.follower();
    return request_.refusal(request_.follower_key("pivot_radius"), "arm-does-not-reach",
                            "an arm of " + length(follower.arm_length) + " on a pivot " +
                                length(follower.pivot_radius) + " from the axis can't hold its centre " +
                                length(why.heel_distance) + " from the axis, where zero lift has it",
                            why.pivot_radii ? "give a pivot_radius from " + from_to(*why.pivot_radii)
                                            : "give a longer arm_length");
}

std::string Refusal::motion_words(const MotionJudgement& judgement) const {
    const bool flat = request_.follower().has_flat_face();
    switch (judgement.fault) {
        case MotionFault::undercut:
            return flat ? "the contour is undercut: its radius of curvature would be " +
                              length(judgement.shortfall) + at_words(judgement.at)
                        : "the contour is undercut: the follower's path curves more sharply than its radius "
                          "of " +
                              length(request_.follower().radius) + " allows" + at_words(judgement.at);
        case MotionFault::overhang:
            return "the contour leans over" + at_words(judgement.at) + ", so that the follower jams";
        case MotionFault::reach:
            return "the arm would swing past its line to the shaft's axis";
        case MotionFault::none:
            break;
    }
    return {};
}

Diagnostic Refusal::operator()(const ImpossibleMotion& why) const {
    const MotionFault fault = why.judgement.fault;
    const std::string code = fault == MotionFault::undercut   ? "undercut"
                             : fault == MotionFault::overhang ? "overhang"
                                                              : "arm-does-not-reach";
    const std::string what = motion_words(why.judgement);
    if (why.least_base_radius) {
        return of_profile("base_radius", code, what,
                          "give base_radius = " + why.least_base_radius->words + " or more");
    }
    const std::string incurable = what + ", and no base radius cures that";
    if (why.largest_lift) return of_profile("lift", code, incurable, lift_cure(*why.largest_lift));
    return of_profile("base_radius", code, incurable, "give the lobe another follower or a gentler motion");
}

Diagnostic Refusal::operator()(const ScatteredReadings& why) const {
    const auto& table = std::get<TableProfile>(request_.cause.profile);
    const std::string rounded =
        why.step > 0.0 ? " (they are rounded to " + length(why.step) + ")" : std::string();
    return of_profile(table.smoothing ? "smoothing" : "file", "scatter",
                      "the readings scatter by " + length(why.scatter) + " about a smooth curve" + rounded +
                          ", and one that follows them within " + length(why.limit) + " can't be made a lobe",
                      "give smoothing = " + why.enough.words + " or more");
}

Diagnostic Refusal::operator()(const RampTooHigh& why) const {
    return of_profile(why.key, "ramp-too-high",
                      "the ramp lifts " + length(why.ramp) + ", the whole lobe " + length(why.whole),
                      "give the ramp less than the lobe's lift");
}

Diagnostic Refusal::operator()(const RampTooFast& why) const {
    return of_profile(why.key, "ramp-too-fast",
                      "the ramp rises faster than the law after it does on the mean",
                      "give the ramp an angle of " + degrees_above(why.least_angle) + " degrees or more");
}

Diagnostic Refusal::operator()(const TooFewPowers&) const {
    return of_profile("powers", "powers", "with one power the lift starts with a step in velocity",
                      "give two powers or more, such as [2, 10]");
}

Diagnostic Refusal::operator()(const EventTooLong& why) const {
    return of_profile("opening_angle", "event-too-long",
                      "ramps, laws and dwell take " + shortest_fixed(why.event.degrees(), 4) +
                          " degrees, and " +
                          (request_.cause.repeat == 1 ? "a turn has " : "a lobe of this ring has ") +
                          shortest_fixed(why.room.degrees(), 4),
                      "shorten them by " + degrees_above((why.event - why.room).radians()) + " degrees");
}

Diagnostic Refusal::operator()(const LawAnglesMissing&) const {
    Diagnostic missing = of_profile(
        "opening_angle", "action-angle-missing",
        "lobe \"" + request_.lobe() + "\" has no valve timing to settle opening_angle and closing_angle",
        "give both angles, or give the lobe a cylinder and [engine] its timing");
    missing.fault = Fault::bad_input;
    return missing;
}

Diagnostic Refusal::operator()(const NoLawAngles& why) const {
    return request_.refusal(
        request_.card_key("duration"), "duration",
        "lobe \"" + request_.lobe() + "\": no angles of its laws keep this valve open for the card's " +
            shortest_fixed(why.duration.degrees(), 3) + " crank degrees",
        "ask for " + degrees_above(why.durations.low) + " to " + degrees_below(why.durations.high) +
            " degrees, or give other ramps or another dwell_angle");
}

Diagnostic Refusal::operator()(const LimitsInTheWay& why) const {
    const std::string what = (why.lift ? "no lift of " + length(*why.lift) : std::string("no lift")) +
                             " keeps all limits of [" + request_.profile_key("limits") +
                             "] within its angles";
    const std::string lower = why.greatest_lift ? ", or " + lift_cure(*why.greatest_lift) : std::string();
    if (why.relief) {
        const std::string key = limit_key(why.relief->limit);
        return of_profile("limits." + key, "limits", what + ": " + key + " stands in the way",
                          "give " + key + " = " + why.relief->words +
                              (is_least(why.relief->limit) ? " or less" : " or more") + lower);
    }
    return of_profile("limits", "limits", what + ", and no single one of them stands in the way",
                      "give longer angles or laxer limits" + lower);
}

Diagnostic Refusal::operator()(const KnifeUnderStress&) const {
    Diagnostic wrong = of_profile("limits.contact_stress", "contact-stress",
                                  "contact_stress has no meaning under a knife, which presses without width",
                                  "leave contact_stress out, or give another follower");
    wrong.fault = Fault::bad_input;
    return wrong;
}

Diagnostic Refusal::operator()(const ActionAngleTooLong& why) const {
    return of_profile("action_angle", "event-too-long",
                      "an action angle of " + shortest_fixed(why.angle.degrees(), 4) +
                          " degrees does not fit " +
                          (request_.cause.repeat == 1 ? "a turn" : "this ring's lobes"),
                      "give action_angle = " + degrees_below(request_.period()) + " or less");
}

Diagnostic Refusal::operator()(const ActionAngleMissing&) const {
    Diagnostic missing =
        of_profile("action_angle", "action-angle-missing",
                   "lobe \"" + request_.lobe() + "\" has no valve timing to settle the action angle",
                   "give action_angle, or give the lobe a cylinder and [engine] its timing");
    missing.fault = Fault::bad_input;
    return missing;
}

/// The radius first: flatter flanks and smaller noses let a shorter action angle have its lift. Then a little
/// less lift, and last another card.
Refusal::Cure Refusal::duration_cure(const NoActionAngle& why) const {
    if (why.radius) {
        return {request_.profile_key(radius_key()), "give " + radius_key() + " = " +
                                                        why.radius->length.words +
                                                        (why.radius->or_more ? " or more" : " or less")};
    }
    if (why.largest_lift) return {request_.profile_key("lift"), lift_cure(*why.largest_lift)};
    const std::string other = "give another base_radius, lift or " + radius_key();
    if (!why.durations) return {request_.profile_key(radius_key()), other};
    return {request_.card_key("duration"), "ask for " + degrees_above(why.durations->low) + " to " +
                                               degrees_below(why.durations->high) + " degrees, or " + other};
}

Diagnostic Refusal::operator()(const NoActionAngle& why) const {
    const Cure cure = duration_cure(why);
    return request_.refusal(
        cure.key, "duration",
        "lobe \"" + request_.lobe() + "\": no action angle keeps this valve open for the card's " +
            shortest_fixed(why.duration.degrees(), 3) + " crank degrees with that " + radius_key(),
        cure.remedy);
}

Diagnostic Refusal::operator()(const NoFlankAndNose& why) const {
    const std::string what = "no flank and nose reach a lift of " + length(arcs().lift) + " within " +
                             shortest_fixed(CamAngle::from_radians(2.0 * why.half_action).degrees(), 3) +
                             " degrees of action";
    if (why.least_half_action) {
        return of_profile("action_angle", "action-angle", what,
                          "give action_angle = " + degrees_above(2.0 * *why.least_half_action) + " or more");
    }
    return of_profile("lift", "action-angle", what,
                      why.largest_lift ? lift_cure(*why.largest_lift) : "give the lobe another follower");
}

std::string Refusal::misfit_words(const ArcShape& shape) const {
    const Follower& follower = request_.follower();
    if (!shape.exists()) {
        if (arcs().nose_radius) {
            return "no flank leads from the base circle to a nose of radius " + length(*arcs().nose_radius);
        }
        return shape.nose > 0.0
                   ? "flank and nose do not meet between the flank's tangent point and the peak"
                   : "the flank leaves no room for a nose: its radius would be " + length(shape.nose);
    }
    const std::string flank =
        shape.curvature == 0.0 ? "straight" : "hollow, with radius " + length(1.0 / shape.curvature);
    if (follower.has_flat_face()) return "a flat follower can't ride a flank that is " + flank;
    if (1.0 + follower.radius * shape.curvature <= 0.0) {
        return "the flank is " + flank + ", and the follower's radius of " + length(follower.radius) +
               " doesn't enter it";
    }
    return "the follower jams on the flank: its pressure angle reaches 90 degrees";
}

/// The range of noses or flanks in the words of the key that the profile gives.
std::string Refusal::range_words(const ArcsMisfit& why) const {
    const ArcShape& made = why.shape;
    const auto nose = [&](double k) {
        return shape_from_flank(made.base, made.peak, made.half_action, k).nose;
    };
    if (arcs().nose_radius) {
        return "give nose_radius from " +
               from_to({std::max(nose(why.flanks.high), 0.0), nose(why.flanks.low)});
    }
    const bool flat = request_.follower().has_flat_face();
    const auto hollow_end = [&] { return typed_below(1.0 / why.flanks.low, units_).words; };
    if (why.flanks.high <= 0.0) {
        return "give a hollow flank, flank_radius from " + typed_above(1.0 / why.flanks.high, units_).words +
               " to " + hollow_end();
    }
    const std::string convex =
        "give flank_radius = " + typed_above(1.0 / why.flanks.high, units_).words + " or more";
    return flat ? convex
                : convex + ", or \"straight\", or a hollow one of " + hollow_end() + " or further below 0";
}

Diagnostic Refusal::operator()(const ArcsMisfit& why) const {
    return of_profile(radius_key(), arcs().nose_radius ? "nose-radius" : "flank-radius",
                      misfit_words(why.shape), range_words(why));
}

Diagnostic Refusal::operator()(const SidesMisfit& why) const {
    const bool nose = why.key == "nose_radius";
    const std::string flanks = arcs().closing_flank_radius ? "these flanks" : "that flank";
    const std::string what =
        nose ? "a nose of radius " + length(*arcs().nose_radius) + " does not join " + flanks +
                   " to a lobe that the follower can ride"
             : flanks + " leave no room for a nose within that action angle, or the follower can't ride them";
    const std::string code = nose ? "nose-radius" : "action-angle";
    if (!why.values) return of_profile("flank_radius", code, what, "give another flank_radius or lift");
    return of_profile(why.key, code, what,
                      nose ? "give nose_radius from " + from_to(*why.values)
                           : "give action_angle from " + degrees_above(why.values->low) + " to " +
                                 degrees_below(why.values->high));
}

Diagnostic Refusal::operator()(const ArcRampTooFast& why) const {
    const std::string side = why.opening ? "opening" : "closing";
    return of_profile("ramps." + side, "ramp-too-fast",
                      "the " + side + " flank never runs as fast as its ramp",
                      "give the ramp an angle of " + degrees_above(why.least_angle) + " degrees or more");
}

Diagnostic Refusal::operator()(const NeverOpens& why) const {
    const std::string key = why.checking ? "at_lift" : "clearance";
    return request_.refusal(
        request_.card_key(key), "never-opens",
        "lobe \"" + request_.lobe() + "\" never " +
            (why.checking ? "lifts its valve as far as its card is told at" : "opens its valve") +
            ": it would lift it by " + length(why.valve_lift) + " and " +
            (why.checking ? "at_lift is " : "the clearance is ") + length(why.asked),
        std::string("give ") + (why.checking ? "an at_lift" : "a clearance") + " of " +
            typed_below(why.valve_lift, units_).words + " or less");
}

Diagnostic Refusal::operator()(const RockerMeasuredTooShort& why) const {
    return request_.refusal(
        request_.follower_key("valve_lift"), "valve-lift",
        "the rocker is measured up to a lift of " + length(why.measured) + ", and lobe \"" + request_.lobe() +
            "\" lifts " + length(why.lift),
        "add what the valve lifts at " + typed_above(why.lift, units_).words + " or more");
}

Diagnostic Refusal::operator()(const NoseUnplaced& why) const {
    Diagnostic diagnostic =
        request_.refusal("lobe[" + std::to_string(why.entry) + "]", "at-missing",
                         "nothing says where the nose of lobe \"" + request_.lobe() + "\" points",
                         "give at, or a cylinder and a valve that [engine] times");
    diagnostic.fault = Fault::bad_input;
    return diagnostic;
}

}  // namespace

Diagnostic refusal_of(const ShapeRequest& request, const CannotBe& why) {
    if (!request.with_remedies)
        return request.refusal(request.profile_key("base_radius"), "impossible", {}, {});
    return std::visit(Refusal(request), why);
}

}  // namespace lobewright::profile
