/// What a tool meets along the shaft: the lobes and journals beside the one that it cuts.
#pragma once

#include <lobewright/diagnostic.h>
#include <lobewright/hand.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright::hand {

/// Where a tool of that width (nothing: not known) plunges on each lobe: side by side, the first and the last
/// flush with the lobe's sides. Complains, at `key`, where it would cut into a neighbour.
std::vector<HandPlunge> plan_plunges(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     std::optional<double> tool_width, const std::string& key,
                                     Diagnostics& complaints);

/// A cutter that lies along the shaft: complains, at `key`, about every lobe where its body or neck would
/// foul what stands on either side, so that neither way of mounting it works.
void check_body(const Job& job, const std::vector<SolvedLobe>& lobes, const Cutter& cutter,
                const std::string& key, Diagnostics& complaints);

}  // namespace lobewright::hand
