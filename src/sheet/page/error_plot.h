/// A lobe's error over the cam angle as a picture that needs no script.
#pragma once

#include <lobewright/inspect_fit.h>

#include <string>

namespace lobewright::sheet {

struct ErrorPlot {
    std::string svg;
    std::string caption;  ///< what its marks mean
};

/// Cam angle from -180 to 180 degrees across, error upwards (measured less design). Readings are dots, those
/// set aside crosses, those beyond the plot's edge a triangle at it. The line is the follower's lift error
/// that neighbouring readings say together, the band about it two standard errors either way; the broad band
/// about zero is the tolerance. At most `most_dots` readings are drawn, evenly taken.
ErrorPlot error_plot(const LobeInspection& found, const std::string& lobe, Units units);
inline constexpr std::size_t most_dots = 720;

}  // namespace lobewright::sheet
