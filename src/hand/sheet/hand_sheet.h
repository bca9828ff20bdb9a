/// The sheet for the bench, in markdown.
///
/// This folder holds a plan's texts: the sheet, its settings as CSV, all of it as JSON, one line for `check`.
#pragma once

#include <lobewright/hand.h>

#include <string>

namespace lobewright::hand {

std::string hand_sheet(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan);

}  // namespace lobewright::hand
