/// What the finish of a plan by hand means for the engine: said once, for every method.
#pragma once

#include <lobewright/hand.h>

#include <vector>

namespace lobewright::hand {

/// Puts among the plan's findings, lobe by lobe: errors where the valve could not work (ridges that hold it
/// open, a lobe cut away), warnings for what lies further off than most_off_design or most_off_time, notes
/// for smaller gouges.
void tell_finish(const Job& job, const std::vector<SolvedLobe>& lobes, HandPlan& plan);

}  // namespace lobewright::hand
