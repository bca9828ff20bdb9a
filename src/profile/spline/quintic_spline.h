/// Splines of degree 5 in B-spline form: on a stretch, with all of value and four derivatives vanishing at
/// its ends, or round a ring.
#pragma once

#include "profile/spline/banded_least_squares.h"

#include <lobewright/motion.h>

#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace lobewright::profile {

inline constexpr int spline_degree = 5;

/// One linear equation in a basis's coefficients: those from `first` on, round the ring where there is one.
struct SplineRow {
    std::size_t first = 0;
    std::vector<double> coefficients;
};

/// The B-splines of degree 5 on simple knots (de Boor, A Practical Guide to Splines, chapters IX and X). A
/// spline of them has four continuous derivatives.
class QuinticBasis {
  public:
    using Ends = BandedLeastSquares::Ends;
    /// Required: knots ascend strictly. Open: at least 7 knots, and only the B-splines that lie wholly
    /// between the first and the last, so that the splines go on as 0 outside. Ring: the last knot is the
    /// first one again, a period on, and there are at least 13.
    QuinticBasis(std::vector<double> knots, Ends ends);

    [[nodiscard]] std::size_t size() const { return size_; }
    [[nodiscard]] Ends ends() const { return ends_; }
    [[nodiscard]] const std::vector<double>& knots() const { return knots_; }

    /// The equation's left side for the spline's `order`th derivative at x, between the first and the last
    /// knot.
    [[nodiscard]] SplineRow row(double x, int order) const;

  private:
    [[nodiscard]] std::size_t span_of(double x) const;

    std::vector<double> knots_;
    std::vector<double> padded_;  // knots_ with spline_degree more at each end
    Ends ends_;
    std::size_t size_;
};

/// A spline ready for use: its Taylor polynomial at every knot.
class QuinticSpline {
  public:
    QuinticSpline(const QuinticBasis& basis, std::span<const double> coefficients);

    /// Open: 0 outside the knots. Ring: x is taken modulo the period.
    [[nodiscard]] Lift at(double x) const;
    /// Required: from the first knot to the last, but for rounding.
    [[nodiscard]] LiftBounds within(const Interval& x) const;
    [[nodiscard]] const std::vector<double>& knots() const { return knots_; }

  private:
    using Coefficients = std::array<double, spline_degree + 1>;
    [[nodiscard]] std::size_t interval_of(double x) const;

    std::vector<double> knots_;
    std::vector<Coefficients> taylor_;
    bool ring_;
};

}  // namespace lobewright::profile
