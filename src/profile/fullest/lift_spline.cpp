#include "profile/fullest/lift_spline.h"

#include "profile/motion/motion_piece.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

constexpr std::size_t degree = 3;
constexpr std::size_t settled = 3;  // coefficients at either end
constexpr double rounding = 1e-12;  // of the largest weight: one that is 0 but for the formulas' rounding

}  // namespace

/// The four splines that are not 0 in a cell.
struct LiftSpline::Basis {
    std::array<LiftSeries, degree + 1> series;

    [[nodiscard]] double weighted(std::size_t i, const LiftWeights& weights) const {
        const Lift lift = lift_of(series[i]);
        return weights[0] * lift.lift + weights[1] * lift.velocity + weights[2] * lift.acceleration +
               weights[3] * lift.jerk;
    }
};

LiftSpline::LiftSpline(std::vector<double> knots, const Lift& start, const Lift& end)
    : knots_(std::move(knots)), coefficients_(cells() + degree, 0.0) {
    const std::size_t last = cells();
    settle_end(start, knots_[1] - knots_[0], knots_[2] - knots_[1], true);
    settle_end(end, knots_[last] - knots_[last - 1], knots_[last - 1] - knots_[last - 2], false);
}

/// Without acceleration the settled coefficients lie on a straight line: each is the line's lift at the mean
/// of its three inner knots.
void LiftSpline::settle_end(const Lift& lift, double step, double next_step, bool at_start) {
    const double sense = at_start ? 1.0 : -1.0;
    const std::array<double, settled> away{0.0, step / 3.0, (2.0 * step + next_step) / 3.0};
    for (std::size_t i = 0; i < settled; ++i) {
        const std::size_t place = at_start ? i : coefficients_.size() - 1 - i;
        coefficients_[place] = lift.lift + sense * away[i] * lift.velocity;
    }
}

double LiftSpline::knot(std::size_t index) const {
    const std::size_t inner = index < degree ? 0 : index - degree;
    return knots_[std::min(inner, cells())];
}

std::size_t LiftSpline::cell_at(double angle) const {
    const auto after = std::upper_bound(knots_.begin() + 1, knots_.end() - 1, angle);
    return static_cast<std::size_t>(after - knots_.begin()) - 1;
}

void LiftSpline::set_free_coefficients(const std::vector<double>& values) {
    std::copy(values.begin(), values.end(), coefficients_.begin() + settled);
}

LiftSpline::Basis LiftSpline::basis(std::size_t cell, double angle) const {
    const LiftSeries x = LiftSeries::variable(angle);
    Basis found;
    found.series[0] = LiftSeries(1.0);
    for (std::size_t order = 1; order <= degree; ++order) {
        LiftSeries carried(0.0);
        for (std::size_t i = 0; i < order; ++i) {
            const double low = knot(cell + degree + 1 + i - order), high = knot(cell + degree + 1 + i);
            const LiftSeries part = found.series[i] / (high - low);
            found.series[i] = carried + (high - x) * part;
            carried = (x - low) * part;
        }
        found.series[order] = carried;
    }
    return found;
}

Lift LiftSpline::at(std::size_t cell, double angle) const {
    const Basis splines = basis(cell, angle);
    LiftSeries sum(0.0);
    for (std::size_t i = 0; i <= degree; ++i)
        sum += coefficients_[cell + i] * splines.series[i];
    return lift_of(sum);
}

BandRow LiftSpline::row(std::size_t cell, double angle, const LiftWeights& weights) const {
    const Basis splines = basis(cell, angle);
    const std::size_t last_free = coefficients_.size() - settled;
    std::array<double, degree + 1> found{};
    double largest = 0.0;
    for (std::size_t i = 0; i <= degree; ++i) {
        found[i] = splines.weighted(i, weights);
        largest = std::max(largest, std::abs(found[i]));
    }
    BandRow row;
    row.first = std::clamp(cell, settled, last_free - band_width) - settled;
    for (std::size_t i = 0; i <= degree; ++i) {
        if (std::abs(found[i]) < rounding * largest) continue;
        const std::size_t coefficient = cell + i;
        if (coefficient < settled || coefficient >= last_free)
            row.bound -= found[i] * coefficients_[coefficient];
        else
            row.near[coefficient - settled - row.first] = found[i];
    }
    return row;
}

double LiftSpline::area_weight(std::size_t coefficient) const {
    return (knot(coefficient + degree + 1) - knot(coefficient)) / (degree + 1);
}

std::vector<double> LiftSpline::area_weights() const {
    std::vector<double> weights(free_coefficients());
    for (std::size_t i = 0; i < weights.size(); ++i)
        weights[i] = area_weight(i + settled);
    return weights;
}

double LiftSpline::area() const {
    double sum = 0.0;
    for (std::size_t i = 0; i < coefficients_.size(); ++i)
        sum += coefficients_[i] * area_weight(i);
    return sum;
}

}  // namespace lobewright::profile
