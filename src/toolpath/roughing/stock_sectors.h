/// Where a ring of roughing meets stock, and where only air.
#pragma once

#include "toolpath/section/radial_function.h"
#include "toolpath/setup.h"

#include <vector>

namespace lobewright::toolpath {

/// A stretch of a ring that lies in stock, whole steps of travel.
struct StockSector {
    long long from = 0;
    long long to = 0;
    bool whole = false;  ///< all round
};

/// The sectors of one turn in which there is stock, in any slice of the cutter's whose flat is half as wide
/// as `narrowest` (mm) or wider. A ring that is all in stock starts where there is the least of it.
std::vector<StockSector> sectors_in_stock(const Setup& setup, const RadialFunction& function,
                                          double narrowest = every_slice_alike);

}  // namespace lobewright::toolpath
