/// Roots and least values of smooth functions of one variable, by Boost.Math.
#pragma once

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <utility>

namespace lobewright {

/// The root of `f` between the two, to the last bits (algorithm 748, Alefeld, Potra, Shi 1995).
/// Required: f changes its sign there, or is 0 at an end.
template <class F>
double root_of(const F& f, double low, double high) {
    if (low > high) std::swap(low, high);
    const double at_low = f(low), at_high = f(high);
    if (at_low == 0.0) return low;
    if (at_high == 0.0) return high;
    std::uintmax_t steps = 200;
    const auto [a, b] = boost::math::tools::toms748_solve(f, low, high, at_low, at_high,
                                                          boost::math::tools::eps_tolerance<double>(), steps);
    return 0.5 * (a + b);
}

/// Where a function is least, and its value there.
struct Least {
    double at = 0.0;
    double value = std::numeric_limits<double>::infinity();
};

/// The least value of `f` on [start, end], both ends included: the best of `parts` + 1 samples, then Brent's
/// search between its neighbours. The value is good to about 1e-15 of its size; a dip narrower than a part
/// may be missed. Where `f` is NaN anywhere among the samples, so is the value.
template <class F>
Least least_of(const F& f, double start, double end, int parts) {
    Least best;
    const double step = (end - start) / parts;
    for (int i = 0; i <= parts; ++i) {
        const double x = i == parts ? end : start + i * step;
        const double value = f(x);
        if (std::isnan(value)) return {x, value};
        if (value < best.value) best = {x, value};
    }
    constexpr int half_of_the_bits = std::numeric_limits<double>::digits / 2;
    const auto [x, value] = boost::math::tools::brent_find_minima(
        f, std::max(start, best.at - step), std::min(end, best.at + step), half_of_the_bits);
    return value < best.value ? Least{x, value} : best;
}

/// Samples for a stretch of that many radians: at most half a degree apart, at least 64.
inline int parts_of(double radians) {
    return std::max(64, static_cast<int>(std::ceil(std::abs(radians) * (360.0 / std::numbers::pi))));
}

}  // namespace lobewright
