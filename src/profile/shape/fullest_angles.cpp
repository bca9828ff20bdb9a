#include "profile/shape/fullest_angles.h"

#include "profile/fullest/fullest_relief.h"
#include "profile/law/law_motion.h"
#include "profile/motion/motion_piece.h"
#include "profile/shape/fullest_event.h"
#include "profile/timing/nose_direction.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace lobewright::profile {
namespace {

/// Of the sum of both angles, before the knots are chosen.
constexpr double rough_precision = 1e-4;
/// Radians: angles of less make no lift.
constexpr double shortest_angles = 0.02;

/// What ramps take of the turn, radians.
double taken(const FullestProfile& profile) {
    double sum = 0.0;
    for (const auto& ramp : {profile.opening_ramp, profile.closing_ramp})
        if (ramp) sum += ramp->angle.radians();
    return sum;
}

FullestProfile with_sum(const FullestProfile& profile, double sum) {
    FullestProfile changed = profile;
    changed.opening_angle = CamAngle::from_radians(*profile.opening_share * sum);
    changed.closing_angle = CamAngle::from_radians(sum) - changed.opening_angle;
    return changed;
}

FullestTask task_of(const ShapeRequest& request, const FullestProfile& profile) {
    return fullest_task(request, profile, profile.limits);
}

/// Why no lift of these angles keeps the limits.
LimitsInTheWay in_the_way(const ShapeRequest& request, const FullestProfile& profile) {
    LimitsInTheWay why{profile.lift, std::nullopt, std::nullopt};
    if (!request.with_remedies) return why;
    const Units units = request.units();
    why.relief = nearest_relief(profile.limits, units, [&](const FullestLimits& limits) {
        return fullest_task(request, profile, limits);
    });
    if (!profile.lift) return why;
    FullestProfile lower = profile;
    const auto greatest = greatest_peak(task_of(request, profile));
    constexpr int most_tries = 10;
    for (int i = 0; greatest && i < most_tries; ++i) {
        const TypedLength typed = typed_below(*greatest * (1.0 - 1e-3 * i), units);
        lower.lift = typed.mm;
        FullestTask task = task_of(request, lower);
        if (fullest_lift(task)) {
            why.greatest_lift = typed;
            break;
        }
    }
    return why;
}

/// Where `f`, which grows, is 0, by secants kept in a bracket (the Illinois method, Dahlquist and Björck,
/// Numerical Methods, chapter 6, from memory); far fewer steps than for the last bits, which a lift of a
/// programme hasn't.
double crossing_of(const std::function<double(double)>& f, double low, double at_low, double high,
                   double at_high, double precision) {
    constexpr int most_steps = 60;
    const double close = precision * high;
    double before = 0.0;
    for (int step = 0; step < most_steps && high - low > close; ++step) {
        const double x = low + (high - low) * at_low / (at_low - at_high), at = f(x);
        const bool same_side = at * before > 0.0;
        const bool arrived = at == 0.0 || std::min(x - low, high - x) < close;
        if (arrived) return x;
        if (at < 0.0) {
            low = x, at_low = at, at_high *= same_side ? 0.5 : 1.0;
        } else {
            high = x, at_high = at, at_low *= same_side ? 0.5 : 1.0;
        }
        before = at;
    }
    return 0.5 * (low + high);
}

class CardAngles {
  public:
    CardAngles(const ShapeRequest& request, const FullestProfile& profile, const ValveTiming& timing)
        : request_(request),
          profile_(profile),
          threshold_(card_lift(timing, request.follower())),
          wanted_(duration_of(timing)),
          most_(request.period() - taken(profile)) {}

    [[nodiscard]] std::variant<FullestWithAngles, CannotBe> solve() const {
        if (!fullest_lift_on(task(most_, false), even_parts(), Care::rough))
            return CannotBe(in_the_way(request_, with_sum(profile_, most_)));
        const double least = shortest();
        const auto too_long = [this](double sum) { return roughly_too_long(sum); };
        const WorkingRange durations{too_long(least), too_long(most_)};
        if (durations.low > 0.0 || durations.high < 0.0) {
            return CannotBe(NoLawAngles{
                wanted_, {durations.low + wanted_.radians(), durations.high + wanted_.radians()}});
        }
        const double about =
            crossing_of(too_long, least, durations.low, most_, durations.high, rough_precision);
        return refined(about);
    }

  private:
    [[nodiscard]] FullestTask task(double sum, bool rises) const {
        FullestTask task = task_of(request_, with_sum(profile_, sum));
        task.rises = rises;
        return task;
    }
    /// Crank radians by which the valve is open too long; as if it never opened where no lift keeps the
    /// limits.
    [[nodiscard]] double excess(double sum, const std::vector<double>& parts, bool rises, Care care) const {
        const FullestTask there = task(sum, rises);
        const auto lift = fullest_lift_on(there, parts, care);
        if (!lift || lift->spline.at(there.peak).lift <= threshold_) return -wanted_.radians();
        const double period = request_.period();
        const Motion motion(around_period(fullest_event(with_sum(profile_, sum), lift->spline), period),
                            period);
        const LiftEvents events = events_at(motion, threshold_);
        return (events.closes - events.opens).radians() / request_.cause.cam_per_crank - wanted_.radians();
    }
    [[nodiscard]] double roughly_too_long(double sum) const {
        return excess(sum, even_parts(), false, Care::rough);
    }
    /// The shortest sum of angles on which the limits can be kept and the valve opens.
    [[nodiscard]] double shortest() const {
        constexpr double precision = 1e-4;
        double bad = shortest_angles, good = most_;
        const auto opens = [this](double sum) { return roughly_too_long(sum) > -wanted_.radians(); };
        if (opens(bad)) return bad;
        while (good - bad > precision) {
            const double middle = 0.5 * (good + bad);
            (opens(middle) ? good : bad) = middle;
        }
        return good;
    }
    /// On the knots that the lift asks for near there.
    [[nodiscard]] std::variant<FullestWithAngles, CannotBe> refined(double about) const {
        FullestTask there = task(about, false);
        const auto known = fullest_lift(there);
        if (!known) return CannotBe(in_the_way(request_, with_sum(profile_, about)));
        const auto parts = parts_of(there, known->spline.knots());
        const auto too_long = [&](double sum) { return excess(sum, parts, there.rises, Care::exact); };
        double sum = about;
        for (double near = 0.01; near < 1.0; near *= 2.0) {
            const double low = about * (1.0 - near), high = std::min(most_, about * (1.0 + near));
            const double at_low = too_long(low), at_high = too_long(high);
            if (at_low > 0.0 || at_high < 0.0) continue;
            sum = crossing_of(too_long, low, at_low, high, at_high, card_precision);
            break;
        }
        const FullestTask final_task = task(sum, there.rises);
        auto lift = fullest_lift_on(final_task, parts, Care::exact);
        if (!lift) return CannotBe(in_the_way(request_, with_sum(profile_, sum)));
        return FullestWithAngles{with_sum(profile_, sum), final_task, std::move(*lift)};
    }

    const ShapeRequest& request_;
    const FullestProfile& profile_;
    double threshold_;
    CrankAngle wanted_;
    double most_;
};

}  // namespace

std::variant<FullestWithAngles, CannotBe> with_fullest_angles(const ShapeRequest& request,
                                                              const FullestProfile& profile) {
    const double period = request.period();
    if (!profile.opening_share) {
        FullestTask task = task_of(request, profile);
        if (taken(profile) + task.end > period + angle_rounding) {
            return CannotBe(EventTooLong{CamAngle::from_radians(taken(profile) + task.end),
                                         CamAngle::from_radians(period)});
        }
        auto lift = fullest_lift(task);
        if (!lift) return CannotBe(in_the_way(request, profile));
        return FullestWithAngles{profile, task, std::move(*lift)};
    }
    const ValveTiming* timing = request.timing();
    if (timing == nullptr) return CannotBe(LawAnglesMissing{});
    if (period - taken(profile) <= shortest_angles)
        return CannotBe(EventTooLong{CamAngle::from_radians(taken(profile)), CamAngle::from_radians(period)});
    return CardAngles(request, profile, *timing).solve();
}

}  // namespace lobewright::profile
