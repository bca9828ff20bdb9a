/// Where a hole of the shaft points.
#pragma once

#include <lobewright/lobe.h>

#include <vector>

namespace lobewright::profile {

/// From the datum, unwrapped: its own angle, or that and its lobe's nose.
ShaftAngle hole_direction(const Hole& hole, const std::vector<SolvedLobe>& lobes);

}  // namespace lobewright::profile
