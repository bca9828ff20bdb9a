#include "proof/judge/contact_way.h"

#include "base/elementary/elementary.h"

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

/// A place of the design, and how far from the section's middle it lies on a flat that touches it there.
struct DesignPlace {
    Vec2 point;
    Vec2 normal;
    double sideways = 0.0;  // mm
};

DesignPlace place_of(const DesignRay& ray, const PlaneSection& section) {
    // n·e = lean and n·e' = -slope lean / radius, with e the ray and e' a quarter turn from it.
    const Vec2 e = unit(ray.psi);
    const Vec2 normal = ray.lean * e - ray.slope * ray.lean / ray.radius * quarter_turn(e);
    const Vec2 point = ray.radius * e;
    return {point, normal, dot(point, quarter_turn(normal)) - section.shift};
}

/// Where the section stands that touches there: with its flat, square to the normal; where the contact stands
/// past the flat's end, with the corner.
struct Touching {
    double facing = 0.0;  // radians
    double low = 0.0;     // mm, of its lowest point from the axis
};

Touching touching(const DesignPlace& at, const PlaneSection& section) {
    if (section.half_flat > 0.0 && std::abs(at.sideways) <= section.half_flat)
        return {direction(at.normal), dot(at.point, at.normal)};
    const Vec2 centre = at.point + section.corner * at.normal;
    const double beside = section.shift + (at.sideways < 0.0 ? -section.half_flat : section.half_flat);
    const double far = length(centre), lean = elementary::asin(std::clamp(beside / far, -1.0, 1.0));
    return {direction(centre) - lean, far * elementary::cos(lean) - section.corner};
}

/// Where the contact passes from the flat to a corner or back between two places, in their order. On a
/// straight flank it rests on the flat at one facing, and only beyond that place runs on.
std::vector<DesignPlace> hand_overs(const DesignPlace& a, const DesignPlace& b, const PlaneSection& section) {
    std::vector<DesignPlace> found;
    for (const double edge : {-section.half_flat, section.half_flat}) {
        const double before = edge - a.sideways, after = b.sideways - edge;
        if (section.half_flat == 0.0 || before * after <= 0.0) continue;
        const double share = before / (before + after);
        const Vec2 normal = a.normal + share * (b.normal - a.normal);
        found.push_back({a.point + share * (b.point - a.point), normal / length(normal), edge});
    }
    if (a.sideways > b.sideways) std::reverse(found.begin(), found.end());
    return found;
}

/// Where the contact goes on by more than this (mm) within so little (radians, far less than a step of any
/// grid), it leaps: along a straight flank that rests on the flat.
constexpr double least_leap = 1e-3, width_of_leap = 1e-9;

}  // namespace

ContactWay::ContactWay(const std::vector<DesignRay>& rays, const PlaneSection& section) {
    DesignPlace last = place_of(rays.front(), section);
    const Touching first = touching(last, section);
    facings_.push_back(first.facing);
    ways_.push_back(0.0);
    lows_.push_back(first.low);
    const auto go_on_to = [&](const DesignPlace& next) {
        const Touching there = touching(next, section);
        const double turned = wrapped_radians(there.facing - facings_.back());
        facings_.push_back(facings_.back() + std::max(0.0, turned));
        lows_.push_back(there.low);
        ways_.push_back(ways_.back() + length(next.point - last.point));
        last = next;
    };
    for (const DesignRay& ray : rays) {
        const DesignPlace next = place_of(ray, section);
        for (const DesignPlace& place : hand_overs(last, next, section))
            go_on_to(place);
        go_on_to(next);
    }
}

ContactWay::Share ContactWay::share_at(double facing) const {
    const double turns = std::floor((facing - facings_.front()) / full_turn);
    // Rounding may put the seam itself just before the first facing.
    const double within = std::max(facing - turns * full_turn, facings_.front());
    const auto after = std::upper_bound(facings_.begin(), facings_.end(), within);
    if (after == facings_.end()) return {facings_.size() - 1, 1.0, turns};
    const auto i = static_cast<std::size_t>(after - facings_.begin());
    return {i, (within - facings_[i - 1]) / (facings_[i] - facings_[i - 1]), turns};
}

double ContactWay::at(double facing) const {
    const auto [after, share, turns] = share_at(facing);
    return turns * ways_.back() + ways_[after - 1] + share * (ways_[after] - ways_[after - 1]);
}

double ContactWay::low_at(double facing) const {
    const Share at = share_at(facing);
    return lows_[at.after - 1] + at.of_gap * (lows_[at.after] - lows_[at.after - 1]);
}

double ContactWay::fall(double facing_a, double facing_b) const {
    return low_at(facing_a) - low_at(facing_b);
}

double ContactWay::between(double facing_a, double facing_b) const {
    const auto [first, last] = std::minmax(facing_a, facing_b);
    const auto beside_leap = [this](double facing, double aside) {
        const double here = at(facing), there = at(facing + aside);
        return std::abs(there - here) > least_leap ? there : here;
    };
    return std::max(0.0, beside_leap(last, -width_of_leap) - beside_leap(first, width_of_leap));
}

}  // namespace lobewright::proof
