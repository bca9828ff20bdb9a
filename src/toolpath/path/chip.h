/// How thick the chip of a tooth gets, by the way of the cut; the formulas stand in cutting_data.h.
#pragma once

#include "toolpath/section/radial_function.h"
#include "toolpath/setup.h"

#include <vector>

namespace lobewright::toolpath {

/// mm of a tooth's chip, where it is thickest, per radian that the shaft turns from one tooth to the next,
/// while the contact runs over these nodes and takes `depth` mm along the normal; 0 where nothing is taken.
double chip_per_turning(const Setup& setup, const std::vector<CutterContact>& nodes, double depth);

/// Radians that the shaft turns from one tooth to the next, for each that it turns in a second; 0 for a
/// wheel.
double seconds_per_tooth(const Setup& setup);

}  // namespace lobewright::toolpath
