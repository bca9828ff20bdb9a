/// Readings that do not belong to the curve of their neighbours.
#pragma once

#include "profile/readings/ordered_readings.h"

namespace lobewright::profile {

struct Outlier {
    std::size_t index = 0;  ///< in the ring
    double off = 0.0;       ///< mm above the curve through the neighbours
};

/// An outlier is a reading, or two side by side, farther than `least` off the curve through the neighbours,
/// and eight times as far as these, with the outliers left out, lie off among themselves. A step in the
/// acceleration is none: there the neighbours differ, too. Required: at least 12 readings.
std::vector<Outlier> outliers_of(const ReadingRing& ring, double least);

}  // namespace lobewright::profile
