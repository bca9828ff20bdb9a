#include "profile/spline/quintic_spline.h"

#include "base/interval_arithmetic.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

/// The knots with `spline_degree` more before and behind: those of the ring's neighbouring turns, or, on an
/// open stretch, evenly spaced ones that only complete the arithmetic.
std::vector<double> padded(const std::vector<double>& knots, QuinticBasis::Ends ends) {
    constexpr std::size_t pad = spline_degree;
    const bool ring = ends == QuinticBasis::Ends::ring;
    const double period = knots.back() - knots.front();
    const std::size_t intervals = knots.size() - 1;
    std::vector<double> all;
    for (std::size_t i = pad; i >= 1; --i) {
        const double step = (knots[1] - knots[0]) * static_cast<double>(i);
        all.push_back(ring ? knots[intervals - i] - period : knots.front() - step);
    }
    all.insert(all.end(), knots.begin(), knots.end());
    for (std::size_t i = 1; i <= pad; ++i) {
        const double step = (knots[intervals] - knots[intervals - 1]) * static_cast<double>(i);
        all.push_back(ring ? knots[i] + period : knots.back() + step);
    }
    return all;
}

/// Values at x of the degree + 1 B-splines that are not 0 between t[span] and t[span + 1], by the recurrence
/// of Cox and de Boor.
std::vector<double> basis_values(const std::vector<double>& t, std::size_t span, double x, int degree) {
    std::vector<double> values{1.0};
    for (std::size_t d = 1; d <= static_cast<std::size_t>(degree); ++d) {
        std::vector<double> next(d + 1, 0.0);
        for (std::size_t i = 0; i < d; ++i) {
            const double left = t[span + 1 + i - d];
            const double right = t[span + 1 + i];
            next[i] += values[i] * (right - x) / (right - left);
            next[i + 1] += values[i] * (x - left) / (right - left);
        }
        values = std::move(next);
    }
    return values;
}

/// Bounds of a polynomial's value and derivatives: its coefficients taken to the middle of the stretch, where
/// the terms' bounds add up to little more than the sum's.
LiftBounds polynomial_bounds(std::array<double, spline_degree + 1> c, const Interval& u) {
    for (std::size_t low = 0; low < spline_degree; ++low) {
        for (std::size_t k = spline_degree; k-- > low;)
            c[k] += u.middle() * c[k + 1];
    }
    const Interval off = u - u.middle();
    LiftBounds bounds;
    for (Interval& bound : bounds) {
        Interval sum = 0.0;
        for (std::size_t k = spline_degree + 1; k-- > 0;)
            sum = c[k] + off * sum;
        bound = sum;
        for (std::size_t k = 0; k < spline_degree; ++k)  // on to the derivative
            c[k] = static_cast<double>(k + 1) * c[k + 1];
        c[spline_degree] = 0.0;
    }
    return bounds;
}

}  // namespace

QuinticBasis::QuinticBasis(std::vector<double> knots, Ends ends)
    : knots_(std::move(knots)),
      padded_(padded(knots_, ends)),
      ends_(ends),
      size_(ends == Ends::ring ? knots_.size() - 1 : knots_.size() - (spline_degree + 1)) {}

/// The index in padded_ of the knot before x.
std::size_t QuinticBasis::span_of(double x) const {
    const auto after = std::upper_bound(knots_.begin() + 1, knots_.end() - 1, x);
    return static_cast<std::size_t>(after - knots_.begin()) - 1 + spline_degree;
}

SplineRow QuinticBasis::row(double x, int order) const {
    const std::size_t span = span_of(x);
    std::vector<double> values = basis_values(padded_, span, x, spline_degree - order);
    // The derivative's coefficients are differences of the spline's: d (c_j - c_j-1) / (t_j+d - t_j).
    for (std::size_t d = static_cast<std::size_t>(spline_degree - order) + 1; d <= spline_degree; ++d) {
        std::vector<double> next(d + 1, 0.0);
        for (std::size_t i = 0; i < d; ++i) {
            const double factor =
                static_cast<double>(d) / (padded_[span + 1 + i] - padded_[span + 1 + i - d]);
            next[i] -= values[i] * factor;
            next[i + 1] += values[i] * factor;
        }
        values = std::move(next);
    }
    const std::size_t first = span - spline_degree;  // of all B-splines on the padded knots
    if (ends_ == Ends::ring) return {first % size_, std::move(values)};
    const std::size_t skipped = first < spline_degree ? spline_degree - first : 0;
    const std::size_t start = first + skipped - spline_degree;
    const std::size_t count = std::min(values.size() - skipped, size_ - start);
    const auto from = values.begin() + static_cast<std::ptrdiff_t>(skipped);
    return {start, std::vector<double>(from, from + static_cast<std::ptrdiff_t>(count))};
}

QuinticSpline::QuinticSpline(const QuinticBasis& basis, std::span<const double> coefficients)
    : knots_(basis.knots()), ring_(basis.ends() == QuinticBasis::Ends::ring) {
    for (std::size_t i = 0; i + 1 < knots_.size(); ++i) {
        Coefficients taylor{};
        double factorial = 1.0;
        for (int order = 0; order <= spline_degree; ++order) {
            if (order > 0) factorial *= order;
            const SplineRow row = basis.row(knots_[i], order);
            double sum = 0.0;
            for (std::size_t j = 0; j < row.coefficients.size(); ++j) {
                sum += row.coefficients[j] * coefficients[(row.first + j) % coefficients.size()];
            }
            taylor[static_cast<std::size_t>(order)] = sum / factorial;
        }
        taylor_.push_back(taylor);
    }
}

/// The interval between knots that x lies in.
std::size_t QuinticSpline::interval_of(double x) const {
    const auto after = std::upper_bound(knots_.begin() + 1, knots_.end() - 1, x);
    return static_cast<std::size_t>(after - knots_.begin()) - 1;
}

Lift QuinticSpline::at(double x) const {
    if (ring_) {
        const double period = knots_.back() - knots_.front();
        x -= period * std::floor((x - knots_.front()) / period);
    } else if (x <= knots_.front() || x >= knots_.back()) {
        return {};
    }
    const std::size_t interval = interval_of(x);
    const double u = x - knots_[interval];
    const auto& c = taylor_[interval];
    return {((((c[5] * u + c[4]) * u + c[3]) * u + c[2]) * u + c[1]) * u + c[0],
            (((5 * c[5] * u + 4 * c[4]) * u + 3 * c[3]) * u + 2 * c[2]) * u + c[1],
            ((20 * c[5] * u + 12 * c[4]) * u + 6 * c[3]) * u + 2 * c[2],
            (60 * c[5] * u + 24 * c[4]) * u + 6 * c[3]};
}

LiftBounds QuinticSpline::within(const Interval& x) const {
    const Interval part = kept_within(x, knots_.front(), knots_.back());
    const std::size_t first = interval_of(part.low);
    LiftBounds bounds;
    for (std::size_t i = first; i + 1 < knots_.size() && (i == first || knots_[i] < part.high); ++i) {
        const Interval u = kept_within(part, knots_[i], knots_[i + 1]) - knots_[i];
        const LiftBounds here = polynomial_bounds(taylor_[i], u);
        for (std::size_t order = 0; order < bounds.size(); ++order)
            bounds[order] = i == first ? here[order] : hull(bounds[order], here[order]);
    }
    return bounds;
}

}  // namespace lobewright::profile
