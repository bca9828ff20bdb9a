/// The sheet for the bench, in markdown.
#pragma once

#include <lobewright/hand.h>

#include <string>

namespace lobewright {

std::string hand_sheet(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan);

}  // namespace lobewright
