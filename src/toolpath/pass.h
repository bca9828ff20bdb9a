/// One pass over a lobe: the way in on the heel, once round with the overlap, the way out; or the sectors of
/// it that are not air.
///
/// Manners. The shaft turns one way through all passes, so that every start is come to from the same side and
/// no slack of the rotary axis shows. The way in and the way out lie on the heel, where X stands still: the
/// cutter comes down along a parabola while the shaft turns and meets the surface along its tangent; it
/// leaves the same way. It never stands still in contact, never comes down on a flank, and goes from lobe to
/// lobe retracted. Rapids stay outside the blank; between their level and the stock the cutter moves at feed.
#pragma once

#include "toolpath/path_builder.h"
#include "toolpath/radial_function.h"

namespace lobewright::toolpath {

struct PassOrder {
    Pass pass;  ///< lobe, kind, ring, axial, left_on
    Margins margins;
    double feed = 0.0;   ///< mm/min along the surface
    double stock = 0.0;  ///< mm over the pass's surface on the heel
};

/// Once round, with the overlap. The tolerance's tunnel must be open on the grid: otherwise false, and
/// nothing is added.
[[nodiscard]] bool cut_round(PathBuilder& path, const Setup& setup, const RadialFunction& function,
                             const PassOrder& order);

/// Only where the section stands less than `gap` outside the blank: each such sector from air to air, the
/// rest skipped at rapid. Goes once round (as cut_round) where there is no air. Returns as cut_round.
[[nodiscard]] bool cut_sectors(PathBuilder& path, const Setup& setup, const RadialFunction& function,
                               const PassOrder& order);

}  // namespace lobewright::toolpath
