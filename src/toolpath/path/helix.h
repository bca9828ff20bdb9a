/// A wide lobe finished in one continuous pass: the cutter goes along it while the shaft turns.
///
/// It is as sensible for a parallel cutter as for a ball: one way in and one way out in the place of many,
/// and no step between places. Where one place covers the lobe there is nothing to go along. What leaves no
/// ridge between two places that far apart leaves none between two turns; a turn more at either end does what
/// a helix leaves out.
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/path/pass_frame.h"
#include "toolpath/section/axial_steps.h"

#include <optional>

namespace lobewright::toolpath {

/// From the first of the places to the last, no further on in a turn than the cutter covers. Required: two or
/// more.
Helix helix_over(const Setup& setup, const AxialSteps& steps);

/// Where the job asks for a helix over these places and the controller would run it away (see
/// linear_floor.h).
std::optional<HelixTooSlow> helix_too_slow(const Setup& setup, const std::vector<CutterContact>& nodes,
                                           const AxialSteps& steps);

}  // namespace lobewright::toolpath
