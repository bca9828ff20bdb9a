#include "proof/sweep/standing_curve.h"

#include <lobewright/angle.h>

#include <algorithm>
#include <cmath>

namespace lobewright::proof {

StandingCurve::Node StandingCurve::on(double psi) const {
    const double start = nodes_.front().psi;
    const double rest = std::fmod(psi - start, full_turn);
    const double within = start + (rest < 0.0 ? rest + full_turn : rest);
    const auto after = std::upper_bound(nodes_.begin() + 1, nodes_.end() - 1, within,
                                        [](double at, const Node& node) { return at < node.psi; });
    const Node &a = *(after - 1), &b = *after;
    const double gap = b.psi - a.psi;
    if (gap <= 0.0) return {psi, a.radius, a.slope};
    const double t = std::clamp((within - a.psi) / gap, 0.0, 1.0), u = 1.0 - t;
    const double rise = b.radius - a.radius;
    const double radius =
        a.radius + rise * t * t * (3.0 - 2.0 * t) + gap * t * u * (a.slope * u - b.slope * t);
    const double slope =
        6.0 * rise / gap * t * u + a.slope * u * (1.0 - 3.0 * t) + b.slope * t * (3.0 * t - 2.0);
    return {psi, radius, slope};
}

}  // namespace lobewright::proof
