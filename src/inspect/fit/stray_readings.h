/// Single bad readings, and how much the good ones scatter.
#pragma once

#include <vector>

namespace lobewright::inspection {

/// The standard deviation of one reading about its neighbours: of each its distance from the middle of the
/// two beside it, taken robustly. `residuals` round a ring, by angle.
double scatter_about_neighbours(const std::vector<double>& residuals);

/// Which readings stand out: farther than 6 deviations, and than half the spread of their eight neighbours,
/// from all but the farthest two of these. A lobe's own error, which neighbours share, doesn't. `least`: the
/// scatter that is there at least.
std::vector<bool> stray_readings(const std::vector<double>& residuals, double least);

/// Which of a lobe's lifts, of which nothing is known, stand out: farther from a cubic through two on either
/// side than 6 deviations of all, and half of what a change of the bend beside them (where a flank begins)
/// can account for. Angles ascend over one turn, none twice; at least 12 remain.
std::vector<bool> stray_lifts(const std::vector<double>& angles, const std::vector<double>& lifts,
                              double least);

/// In place of those that stand out the lift of a cubic through two on either side. Required: as stray_lifts
/// has it.
std::vector<double> mended_lifts(const std::vector<double>& angles, const std::vector<double>& lifts,
                                 const std::vector<bool>& stray);

}  // namespace lobewright::inspection
