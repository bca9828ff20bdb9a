/// Which size of the cutter would go clear of what it touches.
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/setup.h"

#include <lobewright/lobe.h>

#include <vector>

namespace lobewright::toolpath {

/// The largest diameter, the slimmest neck, the narrowest width or the shortest overhang with which the
/// cutter goes clear while it cuts lobe `index`, found by bisection with the same test that found the clash.
NeighbourInTheWay with_cure(const Setup& setup, const std::vector<SolvedLobe>& lobes, std::size_t index,
                            const Clash& clash);

}  // namespace lobewright::toolpath
