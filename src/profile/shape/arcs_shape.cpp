#include "profile/follower/motion_contour.h"
#include "profile/law/law_motion.h"
#include "profile/motion/monotone_parts.h"
#include "profile/motion/motion_piece.h"
#include "profile/roots.h"
#include "profile/shape/arcs.h"
#include "profile/shape/cure.h"
#include "profile/timing/nose_direction.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

/// The arcs that the profile's given radius makes with this half action angle.
ArcShape arcs_of(const ArcsProfile& profile, const ShapeChoice& choice, double half_action) {
    const double base = choice.base_radius, peak = base + choice.lift;
    return profile.flank_radius ? shape_from_flank(base, peak, half_action, 1.0 / *profile.flank_radius)
                                : shape_from_nose(base, peak, half_action, *profile.nose_radius);
}

/// The event of a shape that exists and that the follower can ride.
std::optional<std::vector<MotionPiece>> event_of(const ArcShape& shape, const Follower& follower,
                                                 Sense turns) {
    if (!shape.exists() || !reaches(follower, shape.base, 0.0)) return std::nullopt;
    return arc_event(shape, follower, turns);
}

/// Flank curvatures that work with this base circle, lift, action angle and follower.
std::optional<WorkingRange> working_flanks(const ShapeRequest& request, const ShapeChoice& choice,
                                           double half_action) {
    const double peak = choice.base_radius + choice.lift;
    const FlankRange flanks = flank_range(choice.base_radius, peak, half_action);
    double most_hollow = flanks.most_hollow;
    if (choice.follower.kind == FollowerKind::flat)
        most_hollow = std::max(most_hollow, 0.0);
    else if (choice.follower.radius > 0.0)
        most_hollow = std::max(most_hollow, -1.0 / choice.follower.radius);
    if (most_hollow >= flanks.most_convex) return std::nullopt;
    const auto works = [&](double k) {
        return event_of(shape_from_flank(choice.base_radius, peak, half_action, k), choice.follower,
                        request.turns())
            .has_value();
    };
    return working_range(works, most_hollow, flanks.most_convex);
}

/// The range of noses or flanks in the words of the key that the profile gives.
std::string range_words(const WorkingRange& flanks, const ArcsProfile& profile, const ShapeChoice& choice,
                        double half_action, Units units) {
    const double base = choice.base_radius, peak = base + choice.lift;
    const auto nose = [&](double k) { return shape_from_flank(base, peak, half_action, k).nose; };
    if (profile.nose_radius) {
        return "give nose_radius from " + typed_above(std::max(nose(flanks.high), 0.0), units).words +
               " to " + typed_below(nose(flanks.low), units).words;
    }
    const bool flat = choice.follower.kind == FollowerKind::flat;
    const auto hollow_end = [&] { return typed_below(1.0 / flanks.low, units).words; };
    if (flanks.high <= 0.0) {
        return "give a hollow flank, flank_radius from " + typed_above(1.0 / flanks.high, units).words +
               " to " + hollow_end();
    }
    const std::string convex =
        "give flank_radius = " + typed_above(1.0 / flanks.high, units).words + " or more";
    return flat ? convex
                : convex + ", or \"straight\", or a hollow one of " + hollow_end() + " or further below 0";
}

/// No flank at all works at this action angle: a longer one, or less lift.
Diagnostic refused_angle(const ShapeRequest& request, const ShapeChoice& choice, double half_action) {
    const double longest = 0.5 * request.period();
    const auto works = [&](double a) { return working_flanks(request, choice, a).has_value(); };
    const std::string what =
        "no flank and nose reach a lift of " + length_words(choice.lift, request.job.units) + " within " +
        shortest_fixed(2.0 * half_action * 180.0 / std::numbers::pi, 3) + " degrees of action";
    if (const auto range = working_range(works, half_action, longest)) {
        return request.refusal(request.profile_key("action_angle"), "action-angle", what,
                               "give action_angle = " + degrees_above(2.0 * range->low) + " or more");
    }
    const Works with_lift = [&](const ShapeChoice& changed) {
        return working_flanks(request, changed, half_action).has_value();
    };
    const auto lift = largest_working_lift(choice, with_lift, request.job.units);
    return request.refusal(
        request.profile_key("lift"), "action-angle", what,
        lift ? "give lift = " + lift->words + " or less" : "give the lobe another follower");
}

std::string misfit_words(const ArcShape& shape, const ArcsProfile& profile, const ShapeRequest& request) {
    const Units units = request.job.units;
    const Follower& follower = request.follower;
    if (!shape.exists()) {
        if (profile.nose_radius) {
            return "no flank leads from the base circle to a nose of radius " +
                   length_words(*profile.nose_radius, units);
        }
        return shape.nose > 0.0 ? "flank and nose do not meet between the flank's tangent point and the peak"
                                : "the flank leaves no room for a nose: its radius would be " +
                                      length_words(shape.nose, units);
    }
    const std::string flank = shape.curvature == 0.0
                                  ? "straight"
                                  : "hollow, with radius " + length_words(1.0 / shape.curvature, units);
    if (follower.kind == FollowerKind::flat) return "a flat follower can't ride a flank that is " + flank;
    if (1.0 + follower.radius * shape.curvature <= 0.0) {
        return "the flank is " + flank + ", and the follower's radius of " +
               length_words(follower.radius, units) + " doesn't enter it";
    }
    return "the follower jams on the flank: its pressure angle reaches 90 degrees";
}

/// The shape doesn't come out: with the range of the given radius that does, or what else would cure it.
Diagnostic refused_arcs(const ShapeRequest& request, const ArcsProfile& profile, const ShapeChoice& choice,
                        double half_action) {
    if (!request.with_remedies)
        return request.refusal(request.profile_key("base_radius"), "no-such-arcs", {}, {});
    const auto flanks = working_flanks(request, choice, half_action);
    if (!flanks) return refused_angle(request, choice, half_action);
    const char* key = profile.nose_radius ? "nose_radius" : "flank_radius";
    return request.refusal(request.profile_key(key), profile.nose_radius ? "nose-radius" : "flank-radius",
                           misfit_words(arcs_of(profile, choice, half_action), profile, request),
                           range_words(*flanks, profile, choice, half_action, request.job.units));
}

/// The half action angle that keeps the valve open as long as [engine] asks.
class ActionAngle {
  public:
    ActionAngle(const ShapeRequest& request, const ArcsProfile& profile, const ShapeChoice& choice)
        : request_(request),
          profile_(profile),
          choice_(choice),
          timing_(*timing_of(request.job, request.entry)),
          range_(working_range([this](double a) { return motion(a).has_value(); }, 0.0,
                               0.5 * request.period())) {}

    [[nodiscard]] Outcome<double> solve() const {
        if (!keeps_the_card()) return refused();
        return root_of([this](double a) { return excess(a); }, range_->low, range_->high);
    }

  private:
    [[nodiscard]] std::optional<Motion> motion(double half_action) const {
        const auto event =
            event_of(arcs_of(profile_, choice_, half_action), choice_.follower, request_.turns());
        if (!event || event->back().end - event->front().start > request_.period() + angle_rounding)
            return std::nullopt;
        return Motion(around_period(*event, request_.period()), request_.period());
    }
    /// Crank angle for which the valve is open.
    [[nodiscard]] double open_for(double half_action) const {
        const LiftEvents events = events_at(*motion(half_action), clearance_lift(timing_, choice_.follower));
        return (events.closes - events.opens).radians() / request_.job.engine->cam_per_crank;
    }
    [[nodiscard]] double excess(double half_action) const {
        return open_for(half_action) - duration_of(timing_).radians();
    }
    [[nodiscard]] bool stays_open_too_long() const { return range_ && excess(range_->low) > 0.0; }
    [[nodiscard]] bool keeps_the_card() const {
        return range_ && choice_.lift > clearance_lift(timing_, choice_.follower) &&
               excess(range_->low) <= 0.0 && excess(range_->high) >= 0.0;
    }
    [[nodiscard]] const char* radius_key() const {
        return profile_.nose_radius ? "nose_radius" : "flank_radius";
    }
    [[nodiscard]] bool works_with(double radius, const ShapeChoice& choice) const {
        ArcsProfile changed = profile_;
        (changed.nose_radius ? changed.nose_radius : changed.flank_radius) = radius;
        return ActionAngle(request_, changed, choice).keeps_the_card();
    }
    [[nodiscard]] double radius() const {
        return profile_.nose_radius ? *profile_.nose_radius : *profile_.flank_radius;
    }

    /// "give flank_radius = 16.2 mm or more": the nearest radius above, or below, that keeps the card; tried.
    [[nodiscard]] std::optional<std::string> radius_cure(bool upwards) const {
        if (!std::isfinite(radius()) || radius() <= 0.0) return std::nullopt;
        constexpr double step = 1.1;
        const auto works = [this](double value) { return works_with(value, choice_); };
        const auto limit = nearest_that_works(works, radius(), upwards ? step : 1.0 / step);
        if (!limit) return std::nullopt;
        const auto rounded = upwards ? typed_above : typed_below;
        TypedLength typed = rounded(*limit, request_.job.units);
        if (!works(typed.mm)) typed = rounded(typed.mm, request_.job.units);
        if (!works(typed.mm)) return std::nullopt;
        return std::string("give ") + radius_key() + " = " + typed.words +
               (upwards ? " or more" : " or less");
    }

    struct Cure {
        std::string key;
        std::string remedy;
    };
    /// The radius first: flatter flanks and smaller noses let a shorter action angle have its lift. Then a
    /// little less lift, and last another card.
    [[nodiscard]] Cure cure() const {
        const bool flatter = !range_ || stays_open_too_long();
        const bool upwards = flatter != profile_.nose_radius.has_value();
        if (auto remedy = radius_cure(upwards)) return {request_.profile_key(radius_key()), *remedy};
        const Works with_lift = [this](const ShapeChoice& changed) { return works_with(radius(), changed); };
        const auto lift = largest_working_lift(choice_, with_lift, request_.job.units);
        constexpr double least_share = 0.5;
        if (lift && lift->mm >= least_share * choice_.lift)
            return {request_.profile_key("lift"), "give lift = " + lift->words + " or less"};
        const std::string other = std::string("give another base_radius, lift or ") + radius_key();
        if (!range_) return {request_.profile_key(radius_key()), other};
        const std::string card = request_.entry.valve == Valve::inlet ? "engine.inlet" : "engine.exhaust";
        return {card, "ask for " + degrees_above(open_for(range_->low)) + " to " +
                          degrees_below(open_for(range_->high)) + " degrees, or " + other};
    }

    [[nodiscard]] Diagnostic refused() const {
        const Cure found = cure();
        return request_.refusal(found.key, "duration",
                                "lobe \"" + request_.entry.name +
                                    "\": no action angle keeps this valve open for the card's " +
                                    shortest_fixed(duration_of(timing_).degrees(), 3) +
                                    " crank degrees with that " + radius_key(),
                                found.remedy);
    }

    const ShapeRequest& request_;
    const ArcsProfile& profile_;
    const ShapeChoice& choice_;
    const ValveTiming& timing_;
    std::optional<WorkingRange> range_;  ///< of half action angles with which the shape comes out
};

Outcome<double> half_action_of(const ShapeRequest& request, const ArcsProfile& profile,
                               const ShapeChoice& choice) {
    if (!profile.action_angle) {
        if (timing_of(request.job, request.entry) == nullptr) {
            Diagnostic missing = request.refusal(
                request.profile_key("action_angle"), "action-angle-missing",
                "lobe \"" + request.entry.name + "\" has no valve timing to settle the action angle",
                "give action_angle, or give the lobe a cylinder and [engine] its timing");
            missing.fault = Fault::bad_input;
            return missing;
        }
        return ActionAngle(request, profile, choice).solve();
    }
    const double half = 0.5 * profile.action_angle->radians(), period = request.period();
    if (2.0 * half > period + angle_rounding) {
        return request.refusal(request.profile_key("action_angle"), "event-too-long",
                               "an action angle of " + shortest_fixed(profile.action_angle->degrees(), 4) +
                                   " degrees does not fit " +
                                   (request.entry.repeat == 1 ? "a turn" : "this ring's lobes"),
                               "give action_angle = " + degrees_below(period) + " or less");
    }
    return half;
}

}  // namespace

Outcome<SolvedLobe> shape_from_arcs(const ShapeRequest& request, const ArcsProfile& profile) {
    const ShapeChoice choice{request.follower, profile.base_radius, profile.lift};
    const Works works_at_60_degrees = [&](const ShapeChoice& changed) {
        const double half =
            profile.action_angle ? 0.5 * profile.action_angle->radians() : std::numbers::pi / 3.0;
        return event_of(arcs_of(profile, changed, half), changed.follower, request.turns()).has_value();
    };
    if (auto refused = refused_at_the_heel(request, choice, works_at_60_degrees)) return *refused;
    const auto half = half_action_of(request, profile, choice);
    if (!half) return half.diagnostics();
    const ArcShape shape = arcs_of(profile, choice, *half);
    const auto event = event_of(shape, request.follower, request.turns());
    if (!event) return refused_arcs(request, profile, choice, *half);

    SolvedLobe lobe;
    lobe.base_radius = profile.base_radius;
    lobe.action_angle = CamAngle::from_radians(2.0 * *half);
    lobe.arcs = ArcGeometry{profile.base_radius, profile.lift, lobe.action_angle,
                            shape.curvature == 0.0 ? straight_flank : 1.0 / shape.curvature, shape.nose};
    const int repeat = request.entry.repeat;
    lobe.contour = Contour(round_the_ring(arc_contour(shape, request.turns(), full_turn / repeat), repeat));
    lobe.motion = Motion(around_period(*event, request.period()), request.period());
    lobe.lift = highest_lift(lobe.motion.pieces()).value;
    return lobe;
}

}  // namespace lobewright::profile
