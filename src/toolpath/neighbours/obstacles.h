/// What stands along the shaft round the lobe that is cut. What isn't cut yet is a disc of the blank's
/// radius, or, where the lobe stands already, one about that; a lobe that is cut already is its contour, with
/// what is left on.
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/setup.h"

#include <lobewright/interval.h>
#include <lobewright/lobe.h>

#include <vector>

namespace lobewright::toolpath {

struct Obstacle {
    ObstacleKind kind = ObstacleKind::blank;
    std::size_t index = 0;  ///< of the solved lobe, or of the journal
    Interval along;         ///< the shaft, mm
    double radius = 0.0;    ///< mm, of the disc that holds it
};

/// Everything but lobe `own`: lobes before it in shaft order are cut already, those after it are blanks.
std::vector<Obstacle> other_obstacles(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                      std::size_t own);

/// What the cutter's shank and holder find on the lobe itself: a parallel cutter steps away from its spindle,
/// so that they come over what is cut; others stand over the blank.
Obstacle own_obstacle(const Setup& setup, const std::vector<SolvedLobe>& lobes, std::size_t own);

}  // namespace lobewright::toolpath
