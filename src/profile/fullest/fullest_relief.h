/// Where no lift keeps its limits: what would do.
#pragma once

#include "profile/fullest/fullest_lift.h"
#include "profile/fullest/limit_words.h"

#include <functional>
#include <optional>

namespace lobewright::profile {

/// The task of other limits.
using TaskOf = std::function<FullestTask(const FullestLimits&)>;

/// The limit that has to give way least, as a part of itself, of those that would do alone; with the value
/// that does, tried. Nothing where none does within a factor of about a hundred. Required: no lift keeps
/// `limits`.
std::optional<TypedLimit> nearest_relief(const FullestLimits& limits, Units units, const TaskOf& task_of);

}  // namespace lobewright::profile
