/// The part of a pass that runs along the lobe.
#pragma once

#include "toolpath/path/knot_chain.h"

#include <optional>

namespace lobewright::toolpath {

/// The path along the lobe between two places of travel, in steps: through the tolerance's tunnel, level
/// wherever X stands still on the heel, with knots enough for the machine's limits on jumps. Nothing if the
/// grid is too coarse for the tunnel.
std::optional<KnotChain> contour_chain(const PassFrame& frame, long long from, long long to);

/// A knot at `at`, if the block over it is level.
void divide_level(Knots& knots, long long at);

}  // namespace lobewright::toolpath
