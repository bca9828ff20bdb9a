#include "inspect/fit/local_curve.h"

#include "inspect/fit/small_matrix.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace lobewright::inspection {
namespace {

constexpr std::size_t least_figures = 5;

bool before(const CurvePoint& a, const CurvePoint& b) {
    return a.at < b.at;
}

double weight_of(double distance) {
    const double near = 1.0 - std::abs(distance) * distance * distance;
    return near > 0.0 ? near * near * near : 0.0;
}

}  // namespace

LocalCurve::LocalCurve(std::vector<CurvePoint> points, double deviation, double period)
    : deviation_(deviation), period_(period), count_(points.size()) {
    for (CurvePoint& point : points)
        point.at -= period * std::floor(point.at / period);
    std::sort(points.begin(), points.end(), before);
    for (const double turn : {-1.0, 0.0, 1.0}) {
        for (const CurvePoint& point : points)
            points_.push_back({point.at + turn * period, point.value});
    }
}

std::optional<LocalFit> LocalCurve::at(double angle, double half_width) const {
    const double place = angle - period_ * std::floor(angle / period_);
    const double reach = std::min(half_width, 0.5 * period_);
    const auto first =
        std::lower_bound(points_.begin(), points_.end(), CurvePoint{place - reach, 0.0}, before);
    const auto last = std::upper_bound(first, points_.end(), CurvePoint{place + reach, 0.0}, before);
    if (last - first < static_cast<std::ptrdiff_t>(least_figures)) return std::nullopt;
    SmallMatrix normal(3), squares(3);
    std::vector<double> right(3);
    for (auto point = first; point != last; ++point) {
        const double d = (point->at - place) / reach, weight = weight_of(d);
        const std::array<double, 3> row{1.0, d, d * d};
        normal.add_square(row.data(), weight);
        squares.add_square(row.data(), weight * weight);
        for (std::size_t k = 0; k < 3; ++k)
            right[k] += weight * row[k] * point->value;
    }
    const auto inverse = inverse_of(normal);
    if (!inverse) return std::nullopt;
    const auto found = product(*inverse, right);
    const SmallMatrix spread = product(product(*inverse, squares), *inverse);
    const auto estimate = [&](std::size_t k, double unit) {
        return Estimate{unit * found[k], unit * deviation_ * std::sqrt(std::max(0.0, spread(k, k)))};
    };
    return LocalFit{estimate(0, 1.0), estimate(1, 1.0 / reach), estimate(2, 2.0 / (reach * reach))};
}

double LocalCurve::half_width_for(std::size_t figures, double least) const {
    if (count_ == 0) return least;
    std::vector<double> needed;
    const std::size_t side = figures / 2;
    for (std::size_t i = count_; i < 2 * count_; ++i) {
        const std::size_t back = std::min(i, side), on = std::min(points_.size() - 1 - i, side);
        needed.push_back(std::max(points_[i].at - points_[i - back].at, points_[i + on].at - points_[i].at));
    }
    const auto most = needed.begin() + static_cast<std::ptrdiff_t>(needed.size() * 9 / 10);
    std::nth_element(needed.begin(), most, needed.end());
    return std::min(0.5 * period_, std::max(least, 1.001 * *most));
}

std::optional<double> LocalCurve::usual_window() const {
    constexpr double per_degree = std::numbers::pi / 180.0;
    constexpr std::size_t figures_together = 7;
    constexpr double least = 2.0 * per_degree, widest = 20.0 * per_degree;
    const double window = half_width_for(figures_together, least);
    return empty() || window > widest ? std::nullopt : std::optional(window);
}

}  // namespace lobewright::inspection
