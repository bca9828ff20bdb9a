/// Scattered figures round a ring, put together locally.
#pragma once

#include <lobewright/inspect_fit.h>

#include <optional>
#include <vector>

namespace lobewright::inspection {

struct CurvePoint {
    double at = 0.0;     ///< radians
    double value = 0.0;  ///< mm
};

/// What a parabola through the figures near an angle says there: value, slope and bend (per radian, radian²),
/// each with its standard error.
struct LocalFit {
    Estimate value, slope, bend;
};

class LocalCurve {
  public:
    /// `deviation`: of one figure, mm. The ring is `period` radians round.
    LocalCurve(std::vector<CurvePoint> points, double deviation, double period);

    [[nodiscard]] bool empty() const { return points_.empty(); }
    /// By least squares with weights (1 - |d|³)³ (Cleveland 1979, from memory), d the distance in half
    /// widths. Nothing where fewer than five figures lie in the window.
    [[nodiscard]] std::optional<LocalFit> at(double angle, double half_width) const;
    /// The least half width, from `least` on, that holds so many figures nearly everywhere (at nine angles in
    /// ten where figures stand).
    [[nodiscard]] double half_width_for(std::size_t figures, double least) const;
    /// The half width with which what was found all round is told: seven figures together, from two degrees
    /// on. Nothing where there are none, or they lie so far apart that it would be more than 20 degrees.
    [[nodiscard]] std::optional<double> usual_window() const;

  private:
    std::vector<CurvePoint> points_;  ///< ascending, in [0, period), and once more on either side
    double deviation_;
    double period_;
    std::size_t count_;
};

}  // namespace lobewright::inspection
