#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

double noise_of(double steps) {
    return step_noise + 0x1p-48 * std::abs(steps);
}

long long whole(double steps) {
    constexpr double most = 9e18;
    return static_cast<long long>(std::clamp(steps, -most, most));
}

}  // namespace

long long nearest_step(double steps) {
    const double size = std::floor(std::abs(steps) + 0.5 + noise_of(steps));
    return whole(std::copysign(size, steps));
}

long long step_above(double steps) {
    return whole(std::ceil(steps - noise_of(steps)));
}

long long step_below(double steps) {
    return whole(std::floor(steps + noise_of(steps)));
}

}  // namespace lobewright
