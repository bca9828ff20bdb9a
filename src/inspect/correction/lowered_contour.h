/// A contour that lies a little below another. This room makes of a lobe's error what a second cut is led
/// along.
#pragma once

#include <lobewright/contour.h>

#include <cstddef>
#include <vector>

namespace lobewright::inspection {

/// By how much the reciprocal of a contour's polar radius rises over the polar direction (lobe's frame): a
/// periodic cubic B-spline with one coefficient (1/mm, >= 0) for every step of a turn, from -pi on (de Boor,
/// A Practical Guide to Splines, from memory). It lies between its least and its greatest coefficient, and
/// has two continuous derivatives.
///
/// In the reciprocal q of the radius a straight line is a wave of one turn, and curvature is (q + q'') / (1 +
/// (q'/q)²)^1.5: so what is straight or hollow shows in a sum of the two curves.
class Lowering {
  public:
    explicit Lowering(std::vector<double> coefficients) : coefficients_(std::move(coefficients)) {}

    struct Rise {
        double value = 0.0;  ///< 1/mm
        double slope = 0.0;  ///< per radian
        double bend = 0.0;   ///< per radian²
    };
    [[nodiscard]] Rise at(double direction) const;
    [[nodiscard]] std::size_t size() const { return coefficients_.size(); }
    [[nodiscard]] double step() const;
    /// The direction at which a coefficient counts most, which is a knot.
    [[nodiscard]] double direction_of(std::size_t index) const;
    /// Whether it is constant between that knot and the next.
    [[nodiscard]] bool level_after(std::size_t knot) const;
    [[nodiscard]] double coefficient(std::size_t index) const { return coefficients_[index]; }

  private:
    [[nodiscard]] double coefficient(std::ptrdiff_t index) const;
    std::vector<double> coefficients_;
};

/// The contour with every radius r made 1 / (1/r + rise). Its pieces end where the other's do and at the
/// knots between which it is not level; arcs about the axis stay arcs where it is.
Contour lowered(const Contour& contour, const Lowering& lowering);

/// The point below `at` in the same polar direction, by the rise there.
ContourPoint lowered_point(const ContourPoint& at, const Lowering::Rise& rise);

}  // namespace lobewright::inspection
