/// What readings say of a lobe that nothing is known of. This room makes profiles of readings.
#pragma once

#include "inspect/fit/phase_fit.h"

#include <vector>

namespace lobewright::inspection {

/// The reading on the base circle: where readings lie densest (the half-sample mode of Robertson and Cryer
/// 1974, from memory), and the mean of those that are within three standard deviations of it. What lies below
/// it is the heel's scatter alone, which settles these.
double heel_level(const std::vector<RayReading>& readings);

/// Where the lobe stands above half its height: the middle of that stretch is its phase, to begin with.
/// Radians, in the readings' own directions.
struct RoughLobe {
    double level = 0.0;
    double lift = 0.0;
    double nose = 0.0;        ///< direction of the middle at half height
    double half_width = 0.0;  ///< of that stretch
};
/// Required: readings by ascending beta, at least eight.
RoughLobe rough_lobe(const std::vector<RayReading>& readings);

}  // namespace lobewright::inspection
