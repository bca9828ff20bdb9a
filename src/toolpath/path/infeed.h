/// The spiral of a wheel from the stock down to size.
#pragma once

#include "toolpath/path/knot_chain.h"

#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// The path from `start` on, over one turn between each of `turns` and the next, to `last` in as few blocks
/// as its tunnel lets it: along a turn the radial word goes in even parts from the one function to the other.
/// It never goes below, and stands no more than margins.proud of the frame's order over it. Nothing if the
/// grid is too coarse for that. Required: two functions or more, each over the next; `last` lies
/// turns.size() - 1 turns after `start`.
std::optional<KnotChain> infeed_chain(const PassFrame& frame, const std::vector<RadialFunction>& turns,
                                      long long start, const GridKnot& last);

}  // namespace lobewright::toolpath
