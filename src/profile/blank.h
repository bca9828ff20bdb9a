/// The bar against the lobes that are to come out of it.
#pragma once

#include "job/layout.h"

#include <lobewright/lobe.h>

namespace lobewright::profile {

/// As faults_of_blank for the solved lobes' own contours, with `left_on` along the normal.
Diagnostics faults_of_blank(const Job& job, const std::vector<SolvedLobe>& lobes, double left_on = 0.0);

}  // namespace lobewright::profile
