/// The planes across the shaft that stand for a lobe's whole width.
///
/// A parallel cutter's section is the same along its length, so that between the places along the shaft where
/// one begins or ends one plane stands for all. Towards a rounded tip, and beside the axis of a cutter that
/// stands radially or lies across, sections shrink with the distance: the deepest plane is then that of the
/// cutter's axis (or the lobe's edge nearest to it), the proudest that farthest from all axes: the lobe's
/// edges and between two neighbouring places.
///
/// Where the cutter goes along the lobe while the shaft turns (a helix) the place changes with the angle:
/// planes then stand evenly over the width, and what lies between them is looked for turn by turn (see
/// helix_ridges.h).
#pragma once

#include "proof/judge/contact_way.h"
#include "proof/judge/design_rays.h"
#include "proof/sweep/plane_sweep.h"

#include <lobewright/lobe.h>

namespace lobewright::proof {

/// One lobe with its fixed rays and the places of its planes along the shaft.
struct LobePlanes {
    const SolvedLobe* lobe = nullptr;
    Design design;
    std::vector<DesignRay> rays;
    ContactWay way;          ///< of the cutter's widest section
    std::vector<double> zs;  ///< mm, ascending
    bool complete = true;    ///< false: there would be more than `most_planes`, and only that many stand here
};
inline constexpr std::size_t most_planes = 2000;

/// Where along the shaft a program cuts.
struct CuttingPlaces {
    std::vector<double> zs;  ///< mm, ascending: where the moves that come into the stock, and stay at one
                             ///< place, are made; of a slide, its beginning and its end
    bool slides = false;     ///< some move cuts on its way from one place to another
};
CuttingPlaces cutting_places(const ShaftMoves& moves, double stock);

/// The indices of the places from `low` to `high`: one past the last.
struct IndexRange {
    std::size_t begin = 0, end = 0;
    [[nodiscard]] bool empty() const { return begin == end; }
    bool operator==(const IndexRange&) const = default;
};
IndexRange places_between(const std::vector<double>& places, double low, double high);

/// Planes in which the same sections make the same moves stand there once.
LobePlanes lobe_planes(const SolvedLobe& lobe, double allowance, const CuttingPlaces& places,
                       const CutterBody& body);

}  // namespace lobewright::proof
