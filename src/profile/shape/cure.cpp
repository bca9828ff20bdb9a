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

std::optional<Diagnostic> refused_at_the_heel(const ShapeRequest& request, const ShapeChoice& choice,
                                              const Works& works) {
    const Follower& follower = choice.follower;
    if (reaches(follower, choice.base_radius, 0.0)) return std::nullopt;
    if (!request.with_remedies)
        return request.refusal(request.profile_key("base_radius"), "does-not-reach", {}, {});
    const Units units = request.job.units;
    const double rp = choice.base_radius + follower.radius;
    const auto with = [&](double Follower::*key, double value) {
        ShapeChoice changed = choice;
        changed.follower.*key = value;
        return works(changed);
    };
    if (follower.kind != FollowerKind::pivoted) {
        const auto range = working_range([&](double e) { return with(&Follower::offset, e); }, -rp, rp);
        return request.refusal(request.follower_key("offset"), "offset",
                               "the follower's line passes the shaft's axis at " +
                                   length_words(std::abs(follower.offset), units) +
                                   ", no nearer than its centre's " + length_words(rp, units) +
                                   " at zero lift",
                               range ? "give an offset from " + typed_above(range->low, units).words +
                                           " to " + typed_below(range->high, units).words
                                     : "give offset = 0 and a larger base_radius");
    }
    const double c = follower.pivot_radius, arm = follower.arm_length;
    const auto range = working_range([&](double p) { return with(&Follower::pivot_radius, p); },
                                     std::abs(rp - arm), rp + arm);
    return request.refusal(request.follower_key("pivot_radius"), "arm-does-not-reach",
                           "an arm of " + length_words(arm, units) + " on a pivot " + length_words(c, units) +
                               " from the axis can't hold its centre " + length_words(rp, units) +
                               " from the axis, where zero lift has it",
                           range ? "give a pivot_radius from " + typed_above(range->low, units).words +
                                       " to " + typed_below(range->high, units).words
                                 : "give a longer arm_length");
}

Diagnostic refused_with_cure(const ShapeRequest& request, const ShapeChoice& choice, const Works& works,
                             bool lift_may_change, const std::string& code, const std::string& what) {
    if (!request.with_remedies) return request.refusal(request.profile_key("base_radius"), code, what, {});
    const Units units = request.job.units;
    if (const auto base = smallest_base_radius(choice, works, units)) {
        return request.refusal(request.profile_key("base_radius"), code, what,
                               "give base_radius = " + base->words + " or more");
    }
    if (lift_may_change) {
        if (const auto lift = largest_working_lift(choice, works, units)) {
            return request.refusal(request.profile_key("lift"), code,
                                   what + ", and no base radius cures that",
                                   "give lift = " + lift->words + " or less");
        }
    }
    return request.refusal(request.profile_key("base_radius"), code, what + ", and no base radius cures that",
                           "give the lobe another follower or a gentler motion");
}

}  // namespace lobewright::profile
