#include "profile/shape/cure.h"

#include "profile/follower/motion_contour.h"

#include <cmath>

namespace lobewright::profile {
namespace {

constexpr int samples = 64;

/// Halves the way from a value that works to one that fails; gives the last that works.
double last_that_works(const std::function<bool(double)>& works, double good, double bad) {
    const double whole = std::abs(good - bad);
    while (std::abs(good - bad) > boundary_precision * whole) {
        const double middle = 0.5 * (good + bad);
        if (middle == good || middle == bad) break;
        (works(middle) ? good : bad) = middle;
    }
    return good;
}

}  // namespace

std::optional<WorkingRange> working_range(const std::function<bool(double)>& works, double low, double high) {
    const auto sample = [&](int i) { return low + (high - low) * (i + 0.5) / samples; };
    int first = 0;
    while (first < samples && !works(sample(first)))
        ++first;
    if (first == samples) return std::nullopt;
    int last = first;
    while (last + 1 < samples && works(sample(last + 1)))
        ++last;
    return WorkingRange{last_that_works(works, sample(first), first == 0 ? low : sample(first - 1)),
                        last_that_works(works, sample(last), last + 1 == samples ? high : sample(last + 1))};
}

std::optional<double> nearest_that_works(const std::function<bool(double)>& works, double from, double step) {
    constexpr double farthest = 1000.0;
    double bad = from, good = step * from;
    while (!works(good)) {
        if (good > farthest * from || good * farthest < from) return std::nullopt;
        bad = good;
        good *= step;
    }
    return last_that_works(works, good, bad);
}

std::optional<TypedLength> smallest_base_radius(const ShapeChoice& choice, const Works& works, Units units) {
    const auto with = [&](double base) {
        ShapeChoice changed = choice;
        changed.base_radius = base;
        return works(changed);
    };
    const auto limit = nearest_that_works(with, choice.base_radius, 1.05);
    if (!limit) return std::nullopt;
    TypedLength typed = typed_above(*limit, units);
    if (!with(typed.mm)) typed = typed_above(typed.mm, units);
    return with(typed.mm) ? std::optional(typed) : std::nullopt;
}

std::optional<TypedLength> largest_working_lift(const ShapeChoice& choice, const Works& works, Units units) {
    const auto with = [&](double lift) {
        ShapeChoice changed = choice;
        changed.lift = lift;
        return works(changed);
    };
    const auto range = working_range(with, 0.0, choice.lift);
    if (!range) return std::nullopt;
    TypedLength typed = typed_below(range->high, units);
    if (!with(typed.mm)) typed = typed_below(typed.mm, units);
    return with(typed.mm) ? std::optional(typed) : std::nullopt;
}

std::optional<CannotBe> off_the_heel(const ShapeRequest& request, const ShapeChoice& choice,
                                     const Works& works) {
    const Follower& follower = choice.follower;
    if (reaches(follower, choice.base_radius, 0.0)) return std::nullopt;
    if (follower.has_flat_face()) return PadOffTheHeel{std::abs(choice.base_radius + *follower.pad_depth)};
    const double rp = choice.base_radius + follower.radius;
    const auto range_of = [&](double Follower::*key, double low, double high) -> std::optional<WorkingRange> {
        if (!request.with_remedies) return std::nullopt;
        const auto with = [&](double value) {
            ShapeChoice changed = choice;
            changed.follower.*key = value;
            return works(changed);
        };
        return working_range(with, low, high);
    };
    if (follower.kind != FollowerKind::pivoted)
        return LineTooFarAside{rp, range_of(&Follower::offset, -rp, rp)};
    const double arm = follower.arm_length;
    return ArmOffTheHeel{rp, range_of(&Follower::pivot_radius, std::abs(rp - arm), rp + arm)};
}

ImpossibleMotion impossible_motion(const ShapeRequest& request, const ShapeChoice& choice, const Works& works,
                                   bool lift_may_change, const MotionJudgement& judgement) {
    ImpossibleMotion why{judgement, std::nullopt, std::nullopt};
    if (!request.with_remedies) return why;
    const Units units = request.units();
    why.least_base_radius = smallest_base_radius(choice, works, units);
    if (!why.least_base_radius && lift_may_change)
        why.largest_lift = largest_working_lift(choice, works, units);
    return why;
}

}  // namespace lobewright::profile
