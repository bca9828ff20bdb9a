#include "inspect/fit/lobe_readings.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace lobewright::inspection {
namespace {

constexpr double finest_scatter = 1e-7;  // mm: a ten-thousandth of a micrometre

double beta_of(const SolvedLobe& lobe, const MeasuredReading& reading) {
    return -sign_of(lobe.turns) * wrapped(reading.cam_angle).radians();
}

}  // namespace

std::vector<std::size_t> order_round(const SolvedLobe& lobe, const MeasuredLobe& measured) {
    std::vector<std::size_t> order(measured.readings.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return beta_of(lobe, measured.readings[a]) < beta_of(lobe, measured.readings[b]);
    });
    return order;
}

std::vector<RayReading> rays_of(const SolvedLobe& lobe, const MeasuredLobe& measured,
                                const std::vector<std::size_t>& order) {
    std::vector<RayReading> rays;
    for (const std::size_t i : order)
        rays.push_back({beta_of(lobe, measured.readings[i]), measured.readings[i].reading});
    return rays;
}

std::vector<RayReading> thinned(const std::vector<RayReading>& readings, std::size_t most) {
    if (readings.size() <= most) return readings;
    std::vector<RayReading> some;
    for (std::size_t i = 0; i < most; ++i)
        some.push_back(readings[i * readings.size() / most]);
    return some;
}

double least_scatter(double step) {
    return std::max(finest_scatter, step / std::sqrt(12.0));
}

}  // namespace lobewright::inspection
