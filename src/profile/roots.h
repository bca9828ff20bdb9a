/// Roots of smooth functions of one variable, by Boost.Math.
#pragma once

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <utility>

namespace lobewright::profile {

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

/// Samples for a stretch of that many radians: at most half a degree apart, at least 64.
inline int parts_of(double radians) {
    return std::max(64, static_cast<int>(std::ceil(std::abs(radians) * (360.0 / std::numbers::pi))));
}

}  // namespace lobewright::profile
