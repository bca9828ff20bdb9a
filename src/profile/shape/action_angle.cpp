#include "profile/shape/action_angle.h"

#include "profile/follower/motion_contour.h"
#include "profile/law/law_motion.h"
#include "profile/motion/motion_piece.h"
#include "profile/roots.h"
#include "profile/shape/arc_ramps.h"
#include "profile/timing/nose_direction.h"

#include <cmath>

namespace lobewright::profile {

double deeper_by(const ArcsProfile& profile) {
    return profile.ramps ? profile.ramps->lift : 0.0;
}

bool settles_action(const ArcsProfile& profile) {
    return profile.flank_radius && profile.nose_radius;
}

ArcLobe arcs_of(const ArcsProfile& profile, const ShapeChoice& choice, double action) {
    const double base = choice.base_radius, peak = base + choice.lift;
    if (!profile.flank_radius) {
        const ArcShape side = shape_from_nose(base, peak, 0.5 * action, *profile.nose_radius);
        return {side, side};
    }
    const double opening = 1.0 / *profile.flank_radius;
    const double closing = 1.0 / profile.closing_flank_radius.value_or(*profile.flank_radius);
    if (profile.nose_radius) {
        return {shape_from_both(base, peak, opening, *profile.nose_radius),
                shape_from_both(base, peak, closing, *profile.nose_radius)};
    }
    if (profile.closing_flank_radius) return lobe_between(base, peak, action, opening, closing);
    const ArcShape side = shape_from_flank(base, peak, 0.5 * action, opening);
    return {side, side};
}

std::optional<std::vector<MotionPiece>> event_of(const ArcLobe& lobe, const Follower& follower, Sense turns,
                                                 double deeper) {
    if (!lobe.exists() || !reaches(follower, lobe.base() - deeper, 0.0)) return std::nullopt;
    return arc_event(lobe, follower, turns, deeper);
}

namespace {

/// The half action angle that keeps the valve open as long as [engine] asks.
class ActionAngle {
  public:
    ActionAngle(const ShapeRequest& request, const ArcsProfile& profile, const ShapeChoice& choice)
        : request_(request),
          profile_(profile),
          choice_(choice),
          timing_(*request.timing()),
          range_(working_range([this](double a) { return motion(a).has_value(); }, 0.0,
                               0.5 * request.period())) {}

    [[nodiscard]] std::variant<double, NoActionAngle> solve() const {
        if (!keeps_the_card()) return why_not();
        if (const auto half = root_between(range_->low, range_->high)) return *half;
        // Somewhere between, the shape doesn't come out: the first stretch without such a place has the root.
        constexpr int stretches = 64;
        const double step = (range_->high - range_->low) / stretches;
        for (int i = 0; i < stretches; ++i) {
            const double low = range_->low + i * step, high = low + step;
            if (!motion(low) || !motion(high) || excess(low) > 0.0 || excess(high) < 0.0) continue;
            if (const auto half = root_between(low, high)) return *half;
        }
        return why_not();
    }

  private:
    [[nodiscard]] std::optional<Motion> motion(double half_action) const {
        const auto event = ramped_event(half_action);
        const double most = request_.period() + angle_rounding;
        if (!event || !(event->back().end - event->front().start <= most))  // nor where it is no number
            return std::nullopt;
        return Motion(around_period(*event, request_.period()), request_.period());
    }
    [[nodiscard]] std::optional<std::vector<MotionPiece>> ramped_event(double half_action) const {
        auto event = event_of(arcs_of(profile_, choice_, 2.0 * half_action), choice_.follower,
                              request_.turns(), deeper_by(profile_));
        if (!event || !profile_.ramps) return event;
        const auto ramped = with_ramps(*event, *profile_.ramps);
        const auto* pieces = std::get_if<std::vector<MotionPiece>>(&ramped);
        return pieces == nullptr ? std::nullopt : std::optional(*pieces);
    }
    /// Crank angle for which the valve is open.
    [[nodiscard]] double open_for(double half_action) const {
        const LiftEvents events = events_at(*motion(half_action), card_lift(timing_, choice_.follower));
        return (events.closes - events.opens).radians() / request_.cause.cam_per_crank;
    }
    [[nodiscard]] double excess(double half_action) const {
        return open_for(half_action) - duration_of(timing_).radians();
    }
    /// Nothing where the shape doesn't come out on the way to it. Required: excess has different signs there.
    [[nodiscard]] std::optional<double> root_between(double low, double high) const {
        bool comes_out = true;
        const double root = root_of(
            [&](double half_action) {
                comes_out = comes_out && motion(half_action).has_value();
                return comes_out ? excess(half_action) : 0.0;
            },
            low, high);
        return comes_out ? std::optional(root) : std::nullopt;
    }
    [[nodiscard]] bool stays_open_too_long() const { return range_ && excess(range_->low) > 0.0; }
    [[nodiscard]] bool keeps_the_card() const {
        return range_ && choice_.lift + deeper_by(profile_) > card_lift(timing_, choice_.follower) &&
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
        if (!std::isfinite(radius()) || radius() <= 0.0 || profile_.closing_flank_radius) return std::nullopt;
        constexpr double step = 1.1;
        const auto works = [this](double value) { return works_with(value, choice_); };
        const auto limit = nearest_that_works(works, radius(), upwards ? step : 1.0 / step);
        if (!limit) return std::nullopt;
        const auto rounded = upwards ? typed_above : typed_below;
        TypedLength typed = rounded(*limit, request_.units());
        if (!works(typed.mm)) typed = rounded(typed.mm, request_.units());
        if (!works(typed.mm)) return std::nullopt;
        return NoActionAngle::Radius{typed, upwards};
    }

    /// Flatter flanks and smaller noses let a shorter action angle have its lift.
    [[nodiscard]] NoActionAngle why_not() const {
        NoActionAngle why;
        why.duration = duration_of(timing_);
        if (!request_.with_remedies) return why;
        const bool flatter = !range_ || stays_open_too_long();
        why.radius = radius_cure(flatter != profile_.nose_radius.has_value());
        if (why.radius) return why;
        const Works with_lift = [this](const ShapeChoice& changed) { return works_with(radius(), changed); };
        const auto lift = largest_working_lift(choice_, with_lift, request_.units());
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

}  // namespace

std::variant<double, CannotBe> action_angle_of(const ShapeRequest& request, const ArcsProfile& profile,
                                               const ShapeChoice& choice) {
    const double most = request.period() + angle_rounding;
    if (settles_action(profile)) {
        const double action = arcs_of(profile, choice, 0.0).action();
        if (action <= most) return action;
        return ActionAngleTooLong{CamAngle::from_radians(action)};
    }
    if (profile.action_angle) {
        if (profile.action_angle->radians() <= most) return profile.action_angle->radians();
        return ActionAngleTooLong{*profile.action_angle};
    }
    if (request.timing() == nullptr) return ActionAngleMissing{};
    const auto half = ActionAngle(request, profile, choice).solve();
    if (const auto* why = std::get_if<NoActionAngle>(&half)) return *why;
    return 2.0 * std::get<double>(half);
}

}  // namespace lobewright::profile
