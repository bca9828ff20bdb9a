#include "hand/finish/least_value.h"

#include <boost/math/tools/minima.hpp>

#include <algorithm>
#include <cstdint>

namespace lobewright::hand {

double least_value(const std::function<double(double)>& function, double low, double high) {
    constexpr int samples = 64;
    const auto at = [&](int i) { return low + (high - low) * i / samples; };
    int best = 0;
    double value = function(low);
    for (int i = 1; i <= samples; ++i) {
        const double here = function(at(i));
        if (here < value) value = here, best = i;
    }
    constexpr int bits = 40;
    std::uintmax_t iterations = 60;
    const auto refined = boost::math::tools::brent_find_minima(
        function, at(std::max(0, best - 1)), at(std::min(samples, best + 1)), bits, iterations);
    return std::min(value, refined.second);
}

}  // namespace lobewright::hand
