/// The plans for cutting one lobe that are worth comparing.
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/path/path_builder.h"

#include <vector>

namespace lobewright::toolpath {

/// One lobe, cut from the blank to its last spring pass by each roughing that rough_depth allows and that may
/// be the fastest; none where the grid is too coarse for the tolerance. Impossible where the cutter can't
/// reach the whole lobe clear of everything else.
Possible<std::vector<PathPart>> lobe_plans(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                           std::size_t index);

}  // namespace lobewright::toolpath
