#include "profile/hole_direction.h"

#include <algorithm>

namespace lobewright::profile {

ShaftAngle hole_direction(const Hole& hole, const std::vector<SolvedLobe>& lobes) {
    const auto lobe = std::find_if(lobes.begin(), lobes.end(),
                                   [&](const SolvedLobe& each) { return each.name == hole.lobe; });
    return lobe == lobes.end() ? hole.at : lobe->at + hole.at;
}

}  // namespace lobewright::profile
