/// What the finish of a plan by hand means for the engine: said once, for every method.
#pragma once

#include "hand/facts.h"

namespace lobewright::hand {

/// A gouge of less is no more than rounding on the dial, mm.
inline constexpr double least_gouge = 0.001;

/// Lobe by lobe: a valve that could not work (held open by ridges, or never opened by a lobe cut away), what
/// lies further off than most_off_design or most_off_time, and smaller gouges.
void remark_finish(const std::vector<HandFinish>& finish, Remarks& remarks);

}  // namespace lobewright::hand
