/// What else the cutter would touch while it cuts a lobe at full depth: other lobes, journals, and with its
/// neck, shank or holder the lobe's own blank. This room holds that search, the bodies and outlines across
/// the shaft that it lays against each other, and the sizes of the cutter that would go clear.
///
/// Along the shaft everything is an interval; across it, a section against a section. (The body of a parallel
/// end mill lies over the lobes that follow on the spindle's side: on a shaft of several lobes it takes a
/// disc with a slim neck, or a radial cutter.)
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/section/radial_function.h"
#include "toolpath/setup.h"

#include <lobewright/lobe.h>

#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// The cutter over one lobe at full depth.
struct CutterOverLobe {
    std::size_t lobe = 0;                     ///< index in the solved lobes
    std::vector<double> places;               ///< the axial word, mm, in the order of cutting
    const std::vector<CutterContact>& nodes;  ///< contacts of the finish pass, frame of the lobe
    bool with_edge = true;                    ///< false: only neck, shank and holder are looked at
};

/// The first thing that the cutter touches; nothing if it goes clear.
std::optional<Clash> find_clash(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                const CutterOverLobe& over);

/// Nothing where the cutter goes clear; else what it touches, and the size of it that goes clear.
std::optional<NeighbourInTheWay> neighbour_in_the_way(const Setup& setup,
                                                      const std::vector<SolvedLobe>& lobes,
                                                      const CutterOverLobe& over);

}  // namespace lobewright::toolpath
