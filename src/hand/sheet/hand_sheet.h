/// The sheet for the bench: its route, and that in markdown.
///
/// This folder holds a plan's texts: the sheet, the route as steps, its settings as CSV, all of it as JSON,
/// one line for `check`.
#pragma once

#include "hand/sheet/route.h"

#include <lobewright/hand.h>

#include <string>

namespace lobewright::hand {

Route written_route(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan);

std::string hand_sheet(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan);

}  // namespace lobewright::hand
