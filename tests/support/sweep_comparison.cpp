#include "golden_section.h"
#include "sweep.h"

#include <algorithm>
#include <limits>
#include <numbers>

using namespace lobewright;

namespace sweep {

double deviation_on(const Slab& slab, const SolvedLobe& lobe, double phi, double left_on) {
    const double beta = phi - lobe.at.radians();
    const Vec2 left = slab.radius_on(phi) * unit(beta);
    double towards = beta;
    double off = 0.0;
    for (int i = 0; i < 4; ++i) {
        const ContourPoint foot = lobe.contour.on_ray(towards).at;
        off = dot(left - foot.point, foot.normal);
        towards = direction(left - off * foot.normal);
    }
    return off - left_on;
}

Comparison compare(const Slab& slab, const SolvedLobe& lobe, double left_on, int rays) {
    const double step = 2.0 * std::numbers::pi / rays;
    std::vector<double> off(static_cast<std::size_t>(rays));
    for (int i = 0; i < rays; ++i)
        off[static_cast<std::size_t>(i)] = deviation_on(slab, lobe, i * step, left_on);
    const auto extreme = [&](double sign) {
        const auto f = [&](double phi) { return sign * deviation_on(slab, lobe, phi, left_on); };
        const auto value = [&](int i) { return sign * off[static_cast<std::size_t>((i + rays) % rays)]; };
        std::pair<double, double> best{0.0, std::numeric_limits<double>::infinity()};
        for (int i = 0; i < rays; ++i) {
            if (value(i) < best.second) best = {i * step, value(i)};
        }
        for (int i = 0; i < rays; ++i) {
            const double gain = std::max(value(i - 1), value(i + 1)) - value(i);
            if (value(i) > value(i - 1) || value(i) > value(i + 1) || value(i) - gain >= best.second)
                continue;
            const auto found = close_in(f, (i - 1) * step, i * step, (i + 1) * step, value(i), 24);
            if (found.second < best.second) best = found;
        }
        return std::pair{best.first, sign * best.second};
    };
    const auto [deepest_at, deepest] = extreme(1.0);
    const auto [proudest_at, proudest] = extreme(-1.0);
    return {deepest, deepest_at, proudest, proudest_at};
}

}  // namespace sweep
