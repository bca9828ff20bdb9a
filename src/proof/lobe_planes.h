/// The planes across the shaft that stand for a lobe's whole width.
///
/// A parallel cutter's section is the same along its length, so that between the places along the shaft where
/// one begins or ends one plane stands for all. Towards a rounded tip, and beside the axis of a cutter that
/// stands radially or lies across, sections shrink with the distance: the deepest plane is then that of the
/// cutter's axis (or the lobe's edge nearest to it), the proudest that farthest from all axes: the lobe's
/// edges and between two neighbouring places.
#pragma once

#include "proof/design_rays.h"
#include "proof/plane_sweep.h"

#include <lobewright/lobe.h>

namespace lobewright::proof {

/// One lobe with its fixed rays and the places of its planes along the shaft.
struct LobePlanes {
    const SolvedLobe* lobe = nullptr;
    Design design;
    std::vector<DesignRay> rays;
    std::vector<double> zs;
    bool complete = true;  ///< false: there would be more than `most_planes`, and only that many stand here
};
inline constexpr std::size_t most_planes = 2000;

/// Planes in which the same sections make the same moves stand there once.
LobePlanes lobe_planes(const SolvedLobe& lobe, double allowance, const std::vector<ShaftMove>& moves,
                       const CutterBody& body, double stock);

/// The places along the shaft at which moves cut into the stock, ascending.
std::vector<double> cutting_places(const std::vector<ShaftMove>& moves, double stock);

}  // namespace lobewright::proof
