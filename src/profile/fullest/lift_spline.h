/// A lift as a cubic spline: its jerk is constant from knot to knot, lift, velocity and acceleration are
/// continuous.
#pragma once

#include "profile/fullest/band_program.h"

#include <lobewright/motion.h>

#include <array>
#include <cstddef>
#include <vector>

namespace lobewright::profile {

/// A weighted sum of lift, velocity, acceleration and jerk: their weights.
using LiftWeights = std::array<double, 4>;

/// By the coefficients of B-splines (de Boor, On calculating with B-splines, 1972, from memory): three of
/// them at either end are settled by lift and velocity there, the acceleration being 0; the others are free.
class LiftSpline {
  public:
    /// Knots ascend, five at least; from the one at either end the lift goes on at constant velocity, or
    /// stands.
    LiftSpline(std::vector<double> knots, const Lift& start, const Lift& end);

    [[nodiscard]] const std::vector<double>& knots() const { return knots_; }
    /// Stretches between neighbouring knots.
    [[nodiscard]] std::size_t cells() const { return knots_.size() - 1; }
    [[nodiscard]] std::size_t cell_at(double angle) const;
    [[nodiscard]] std::size_t free_coefficients() const { return cells() - 3; }
    void set_free_coefficients(const std::vector<double>& values);

    /// Radians; of a cell's end too. The jerk is the cell's.
    [[nodiscard]] Lift at(std::size_t cell, double angle) const;
    [[nodiscard]] Lift at(double angle) const { return at(cell_at(angle), angle); }

    /// The weighted sum at a place as a row of the free coefficients, `bound` being what the settled ones
    /// leave of 0.
    [[nodiscard]] BandRow row(std::size_t cell, double angle, const LiftWeights& weights) const;
    /// Area by free coefficient.
    [[nodiscard]] std::vector<double> area_weights() const;
    [[nodiscard]] double area() const;

  private:
    struct Basis;
    [[nodiscard]] Basis basis(std::size_t cell, double angle) const;
    /// Knots with those at the ends four times over.
    [[nodiscard]] double knot(std::size_t index) const;
    [[nodiscard]] double area_weight(std::size_t coefficient) const;
    void settle_end(const Lift& lift, double step, double next_step, bool at_start);

    std::vector<double> knots_;
    std::vector<double> coefficients_;
};

}  // namespace lobewright::profile
