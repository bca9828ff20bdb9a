#include "profile/follower/motion_contour.h"
#include "profile/law/law_motion.h"
#include "profile/motion/monotone_parts.h"
#include "profile/motion/motion_piece.h"
#include "profile/roots.h"
#include "profile/shape/arcs.h"
#include "profile/shape/cure.h"
#include "profile/shape/shape_refusals.h"
#include "profile/timing/nose_direction.h"

#include <algorithm>
#include <cmath>
#include <variant>

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

/// No flank at all works at this action angle: a longer one, or less lift.
NoFlankAndNose no_flank_and_nose(const ShapeRequest& request, const ShapeChoice& choice, double half_action) {
    NoFlankAndNose why{half_action, std::nullopt, std::nullopt};
    const double longest = 0.5 * request.period();
    const auto works = [&](double a) { return working_flanks(request, choice, a).has_value(); };
    if (const auto range = working_range(works, half_action, longest)) {
        why.least_half_action = range->low;
        return why;
    }
    const Works with_lift = [&](const ShapeChoice& changed) {
        return working_flanks(request, changed, half_action).has_value();
    };
    why.largest_lift = largest_working_lift(choice, with_lift, request.job.units);
    return why;
}

/// The shape doesn't come out: with the flanks that do, or what else would cure it.
CannotBe misfit(const ShapeRequest& request, const ShapeChoice& choice, const ArcShape& shape) {
    if (!request.with_remedies) return ArcsMisfit{shape, {}};
    const auto flanks = working_flanks(request, choice, shape.half_action);
    if (!flanks) return no_flank_and_nose(request, choice, shape.half_action);
    return ArcsMisfit{shape, *flanks};
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

    [[nodiscard]] std::variant<double, NoActionAngle> solve() const {
        if (!keeps_the_card()) return why_not();
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
    [[nodiscard]] bool works_with(double radius, const ShapeChoice& choice) const {
        ArcsProfile changed = profile_;
        (changed.nose_radius ? changed.nose_radius : changed.flank_radius) = radius;
        return ActionAngle(request_, changed, choice).keeps_the_card();
    }
    [[nodiscard]] double radius() const {
        return profile_.nose_radius ? *profile_.nose_radius : *profile_.flank_radius;
    }

    /// The nearest radius above, or below, that keeps the card; tried.
    [[nodiscard]] std::optional<NoActionAngle::Radius> radius_cure(bool upwards) const {
        if (!std::isfinite(radius()) || radius() <= 0.0) return std::nullopt;
        constexpr double step = 1.1;
        const auto works = [this](double value) { return works_with(value, choice_); };
        const auto limit = nearest_that_works(works, radius(), upwards ? step : 1.0 / step);
        if (!limit) return std::nullopt;
        const auto rounded = upwards ? typed_above : typed_below;
        TypedLength typed = rounded(*limit, request_.job.units);
        if (!works(typed.mm)) typed = rounded(typed.mm, request_.job.units);
        if (!works(typed.mm)) return std::nullopt;
        return NoActionAngle::Radius{typed, upwards};
    }

    /// Flatter flanks and smaller noses let a shorter action angle have its lift.
    [[nodiscard]] NoActionAngle why_not() const {
        NoActionAngle why;
        why.duration = duration_of(timing_);
        const bool flatter = !range_ || stays_open_too_long();
        why.radius = radius_cure(flatter != profile_.nose_radius.has_value());
        if (why.radius) return why;
        const Works with_lift = [this](const ShapeChoice& changed) { return works_with(radius(), changed); };
        const auto lift = largest_working_lift(choice_, with_lift, request_.job.units);
        constexpr double least_share = 0.5;
        if (lift && lift->mm >= least_share * choice_.lift) why.largest_lift = lift;
        if (range_) why.durations = WorkingRange{open_for(range_->low), open_for(range_->high)};
        return why;
    }

    const ShapeRequest& request_;
    const ArcsProfile& profile_;
    const ShapeChoice& choice_;
    const ValveTiming& timing_;
    std::optional<WorkingRange> range_;  ///< of half action angles with which the shape comes out
};

std::variant<double, CannotBe> half_action_of(const ShapeRequest& request, const ArcsProfile& profile,
                                              const ShapeChoice& choice) {
    if (profile.action_angle) {
        const double half = 0.5 * profile.action_angle->radians();
        if (2.0 * half <= request.period() + angle_rounding) return half;
        return ActionAngleTooLong{*profile.action_angle};
    }
    if (timing_of(request.job, request.entry) == nullptr) return ActionAngleMissing{};
    const auto half = ActionAngle(request, profile, choice).solve();
    if (const auto* why = std::get_if<NoActionAngle>(&half)) return *why;
    return std::get<double>(half);
}

}  // namespace

Outcome<SolvedLobe> shape_from_arcs(const ShapeRequest& request, const ArcsProfile& profile) {
    const ShapeChoice choice{request.follower, profile.base_radius, profile.lift};
    const Works works_at_60_degrees = [&](const ShapeChoice& changed) {
        const double half =
            profile.action_angle ? 0.5 * profile.action_angle->radians() : std::numbers::pi / 3.0;
        return event_of(arcs_of(profile, changed, half), changed.follower, request.turns()).has_value();
    };
    if (const auto why = off_the_heel(request, choice, works_at_60_degrees)) return refusal_of(request, *why);
    const auto solved = half_action_of(request, profile, choice);
    if (const auto* why = std::get_if<CannotBe>(&solved)) return refusal_of(request, *why);
    const double half = std::get<double>(solved);
    const ArcShape shape = arcs_of(profile, choice, half);
    const auto event = event_of(shape, request.follower, request.turns());
    if (!event) return refusal_of(request, misfit(request, choice, shape));

    SolvedLobe lobe;
    lobe.base_radius = profile.base_radius;
    lobe.action_angle = CamAngle::from_radians(2.0 * half);
    lobe.arcs = ArcGeometry{profile.base_radius, profile.lift, lobe.action_angle,
                            shape.curvature == 0.0 ? straight_flank : 1.0 / shape.curvature, shape.nose};
    const int repeat = request.entry.repeat;
    lobe.contour = Contour(round_the_ring(arc_contour(shape, request.turns(), full_turn / repeat), repeat));
    lobe.motion = Motion(around_period(*event, request.period()), request.period());
    lobe.lift = highest_lift(lobe.motion.pieces()).value;
    return lobe;
}

}  // namespace lobewright::profile
