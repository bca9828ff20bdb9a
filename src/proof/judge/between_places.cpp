#include "proof/judge/between_places.h"

#include "proof/judge/plane_verdict.h"

namespace lobewright::proof {
namespace {

constexpr double plane_slack = 1e-6;

}  // namespace

std::optional<double> PlacePair::proudest_ray(const std::vector<DesignRay>& rays) const {
    const double middle = 0.5 * (a_ + b_);
    const PlaneSweep from_a(moves_, part_, middle, stock_, a_), from_b(moves_, part_, middle, stock_, b_);
    std::optional<double> proudest;
    double highest = 0.0;
    Left a, b;
    for (const DesignRay& ray : rays) {
        a = from_a.left_on(ray.psi, a.step);
        b = from_b.left_on(ray.psi, b.step);
        if (a.step < 0 || b.step < 0) continue;
        const double foretold = 0.5 * (deviation(a, ray) + deviation(b, ray));
        if (proudest && foretold <= highest) continue;
        highest = foretold;
        proudest = ray.psi;
    }
    return proudest;
}

double PlacePair::difference(double z, double psi) const {
    return PlaneSweep(moves_, part_, z, stock_, a_).left_on(psi).radius -
           PlaneSweep(moves_, part_, z, stock_, b_).left_on(psi).radius;
}

std::optional<double> PlacePair::ridge_on(double psi) const {
    double low = a_, high = b_;
    if (difference(low, psi) >= 0.0 || difference(high, psi) <= 0.0) return std::nullopt;
    while (high - low > plane_slack) {
        const double middle = 0.5 * (low + high);
        (difference(middle, psi) < 0.0 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace lobewright::proof
