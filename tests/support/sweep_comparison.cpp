#include "golden_section.h"
#include "sweep.h"

#include <algorithm>
#include <numbers>

using namespace lobewright;

namespace sweep {
namespace {

/// A ray whose deviation is an extreme among its neighbours', and what it may still gain between them.
struct Suspect {
    int ray = 0;
    double value = 0.0;
    double gain = 0.0;
};

/// The least of f over a turn, by `rays` samples (`values`) and golden sections around those that can still
/// win, the likeliest first.
template <class F>
std::pair<double, double> least_of(F f, const std::vector<double>& values) {
    const int rays = static_cast<int>(values.size());
    const double step = 2.0 * std::numbers::pi / rays;
    const auto value = [&](int i) { return values[static_cast<std::size_t>((i + rays) % rays)]; };
    std::vector<Suspect> suspects;
    for (int i = 0; i < rays; ++i) {
        if (value(i) > value(i - 1) || value(i) > value(i + 1)) continue;
        suspects.push_back({i, value(i), std::max(value(i - 1), value(i + 1)) - value(i)});
    }
    std::sort(suspects.begin(), suspects.end(),
              [](const Suspect& a, const Suspect& b) { return a.value - a.gain < b.value - b.gain; });
    const auto first = std::min_element(values.begin(), values.end());
    std::pair<double, double> best{static_cast<double>(first - values.begin()) * step, *first};
    for (const Suspect& s : suspects) {
        if (s.value - s.gain >= best.second) break;
        const auto found = close_in(f, (s.ray - 1) * step, s.ray * step, (s.ray + 1) * step, s.value, 16);
        if (found.second < best.second) best = found;
    }
    return best;
}

}  // namespace

double deviation_on(const Slab& slab, const SolvedLobe& lobe, double phi, double left_on) {
    const double beta = phi - lobe.at.radians();
    const Vec2 left = slab.radius_on(phi) * unit(beta);
    double towards = beta;
    double off = 0.0;
    for (int i = 0; i < 4; ++i) {
        const ContourPoint foot = lobe.contour.on_ray(ShaftAngle::from_radians(towards)).at;
        off = dot(left - foot.point, foot.normal);
        const double next = direction(left - off * foot.normal);
        if (std::abs(next - towards) < 1e-7) break;
        towards = next;
    }
    return off - left_on;
}

Comparison compare(const Slab& slab, const SolvedLobe& lobe, double left_on, int rays) {
    const double step = 2.0 * std::numbers::pi / rays;
    std::vector<double> off(static_cast<std::size_t>(rays));
    for (int i = 0; i < rays; ++i)
        off[static_cast<std::size_t>(i)] = deviation_on(slab, lobe, i * step, left_on);
    const auto deepest = least_of([&](double phi) { return deviation_on(slab, lobe, phi, left_on); }, off);
    for (double& value : off)
        value = -value;
    const auto proudest = least_of([&](double phi) { return -deviation_on(slab, lobe, phi, left_on); }, off);
    return {deepest.second, deepest.first, -proudest.second, proudest.first};
}

}  // namespace sweep
