/// The bar against the lobes that are to come out of it.
#pragma once

#include "job/layout.h"

#include <lobewright/lobe.h>

namespace lobewright::profile {

/// As faults_of_blank for the solved lobes' own contours, with `left_on` along the normal.
Diagnostics faults_of_blank(const Job& job, const std::vector<SolvedLobe>& lobes, double left_on = 0.0);

/// Lobes that can't stand as [stock] says: in a hollow no surface runs parallel to the design farther out
/// than the hollow's radius. One for each such lobe.
Diagnostics faults_of_stock(const Job& job, const std::vector<SolvedLobe>& lobes);

}  // namespace lobewright::profile
