/// The change that cures a refused shape, found by trying it.
#pragma once

#include "base/text/typed_length.h"
#include "profile/shape/cannot_be.h"
#include "profile/shape/lobe_shape.h"

#include <functional>
#include <optional>

namespace lobewright::profile {

/// What a cure may change.
struct ShapeChoice {
    Follower follower;
    double base_radius = 0.0;
    double lift = 0.0;
};
/// Whether a shape comes out with that choice.
using Works = std::function<bool(const ShapeChoice&)>;

inline constexpr double boundary_precision = 1e-12;
/// The boundaries, to `boundary_precision` of the way between two samples, of where `works` holds between
/// `low` and `high` (ends left out): round the sample in the middle of the first run of those of 64 that
/// work. Nothing if none works.
std::optional<WorkingRange> working_range(const std::function<bool(double)>& works, double low, double high);

/// The value nearest to `from` that works, found by steps of the factor `step` away from it (below 1:
/// downwards) and then by halving. Nothing within a factor of about a thousand. Required: `from` fails.
std::optional<double> nearest_that_works(const std::function<bool(double)>& works, double from, double step);

/// The smallest base radius above the present one with which it works, as it can be typed; tried.
std::optional<TypedLength> smallest_base_radius(const ShapeChoice& choice, const Works& works, Units units);
/// The largest lift below the present one, likewise.
std::optional<TypedLength> largest_working_lift(const ShapeChoice& choice, const Works& works, Units units);

/// The heel first: a translating follower's line within Rp of the axis, a pivoted one's arm, pivot radius and
/// Rp a triangle. Why not, or nothing where the follower stands on the base circle.
std::optional<CannotBe> off_the_heel(const ShapeRequest& request, const ShapeChoice& choice,
                                     const Works& works);

/// A motion that can't be, with its cure, if the request wants remedies: the smallest base radius, else
/// (where it may change) the largest lift.
ImpossibleMotion impossible_motion(const ShapeRequest& request, const ShapeChoice& choice, const Works& works,
                                   bool lift_may_change, const MotionJudgement& judgement);

}  // namespace lobewright::profile
