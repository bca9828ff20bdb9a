#include "profile/blank.h"

namespace lobewright::profile {

Diagnostics faults_of_blank(const Job& job, const std::vector<SolvedLobe>& lobes, double left_on) {
    std::vector<LobeReach> reaches;
    for (const SolvedLobe& lobe : lobes)
        reaches.push_back({lobe.name, lobe.contour.largest_radius() + left_on});
    return faults_of_blank(job, reaches);
}

}  // namespace lobewright::profile
