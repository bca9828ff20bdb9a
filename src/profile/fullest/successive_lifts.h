/// Limits that are not linear, by one linear programme after the other.
#pragma once

#include "profile/fullest/lift_program.h"

#include <optional>
#include <vector>

namespace lobewright::profile {

/// How near the steps come to the limits that are not linear, and to the best.
enum class Care {
    rough,  ///< within a hundredth of a limit, for a lift that is only a step itself
    exact,  ///< every limit is kept
};

/// The lift of that aim on these knots that keeps all limits (Aim::excess: the least excess of them),
/// starting from `known` where that is given. Nothing where the steps end at none. One step where every limit
/// is linear.
std::optional<LimitedLift> lift_by_steps(const FullestTask& task, const std::vector<double>& knots, Aim aim,
                                         Care care, const LiftSpline* known = nullptr);

bool is_linear(const FullestTask& task);

}  // namespace lobewright::profile
