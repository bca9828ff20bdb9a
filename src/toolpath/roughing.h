/// From the blank to the finish pass: which rings, what each leaves.
///
/// A ring is the parallel curve of the finished surface: every ring leaves the same along the normal
/// everywhere, so the depth of cut is the same on heel, flank and nose, and the cutter's engagement stays
/// even; where the ring lies outside the blank the cutter goes over at rapid. All rings of a lobe are equally
/// deep, none deeper than rough_depth. A ring never goes below its curve, so it never eats into what the next
/// one is to find.
#pragma once

#include "toolpath/setup.h"

#include <vector>

namespace lobewright::toolpath {

struct Ring {
    PassKind kind = PassKind::roughing;
    int number = 0;        ///< of a roughing ring, from 1
    double left_on = 0.0;  ///< mm along the normal, over the design
    Margins margins;
    double stock = 0.0;  ///< mm over this ring on the heel
};

/// The passes over one lobe at one axial position, in order. `least_radius` is the contour's least distance
/// from the axis; `finish` how far the finished surface may lie off. The finish pass finds half of
/// rough_depth, 0.25 mm at most. Where the last ring's own margin makes that uneven by more than half, a
/// semi-finish pass goes between.
std::vector<Ring> rings(const Setup& setup, double least_radius, Margins finish);

}  // namespace lobewright::toolpath
