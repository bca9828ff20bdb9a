/// The lift with the largest area under its limits.
#pragma once

#include "profile/fullest/successive_lifts.h"

#include <lobewright/lobe.h>

#include <optional>
#include <vector>

namespace lobewright::profile {

/// Nothing where no lift keeps the limits. It rises all the way to the peak and falls all the way after it
/// (and `task.rises` says so), unless that would cost more than `worth_a_dip` of the area. On knots of its
/// own choice: close together where the jerk changes and far apart where it stays, found by solving three
/// times. Limits that are not linear are taken as planes about the last lift, within a trust that shrinks
/// where that doesn't hold (successive linear programmes; Fletcher, Practical Methods of Optimization,
/// chapter 14, from memory).
std::optional<LimitedLift> fullest_lift(FullestTask& task);
inline constexpr double worth_a_dip = 5e-4;

/// Knots as parts of the opening (-1 to 0) and of the closing (0 to 1), so that a lift on them changes
/// smoothly with the angles.
std::vector<double> even_parts();
std::vector<double> parts_of(const FullestTask& task, const std::vector<double>& knots);
std::optional<LimitedLift> fullest_lift_on(const FullestTask& task, const std::vector<double>& parts,
                                           Care care);

/// The least excess of the limits that a lift on even parts has: above 0 none keeps them.
double least_excess(FullestTask task);
/// The greatest lift at the peak that keeps them, whatever the task's own; nothing where none does.
std::optional<double> greatest_peak(FullestTask task);

/// What the lift reaches. `given_way`: the same limits, one by one, each a hundredth laxer.
std::vector<ReachedLimit> reached_limits(const FullestTask& task, const LimitedLift& lift,
                                         const std::vector<LiftLimit>& given_way);

}  // namespace lobewright::profile
