#include "proof/judge/surface_feed.h"

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

/// The facing of the section that touches there: with its flat, square to the normal; where the contact
/// stands past the flat's end, with the corner.
double touching_facing(const DesignPlace& at, const PlaneSection& section) {
    if (section.half_flat > 0.0 && std::abs(at.sideways) <= section.half_flat) return direction(at.normal);
    const Vec2 centre = at.point + section.corner * at.normal;
    const double beside = section.shift + (at.sideways < 0.0 ? -section.half_flat : section.half_flat);
    return direction(centre) - elementary::asin(std::clamp(beside / length(centre), -1.0, 1.0));
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

/// Shares of the wanted feed: what the mean over a block may run over it before it is told, and what is an
/// error: common practice, no source.
constexpr double feed_warned_of = 1.1, feed_refused = 1.5;

}  // namespace

ContactWay::ContactWay(const std::vector<DesignRay>& rays, const PlaneSection& section) {
    DesignPlace last = place_of(rays.front(), section);
    facings_.push_back(touching_facing(last, section));
    ways_.push_back(0.0);
    const auto go_on_to = [&](const DesignPlace& next) {
        const double turned = wrapped_radians(touching_facing(next, section) - facings_.back());
        facings_.push_back(facings_.back() + std::max(0.0, turned));
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

double ContactWay::at(double facing) const {
    const double turns = std::floor((facing - facings_.front()) / full_turn);
    // Rounding may put the seam itself just before the first facing.
    const double within = std::max(facing - turns * full_turn, facings_.front());
    const auto after = std::upper_bound(facings_.begin(), facings_.end(), within);
    if (after == facings_.end()) return (turns + 1.0) * ways_.back();
    const auto i = static_cast<std::size_t>(after - facings_.begin());
    const double share = (within - facings_[i - 1]) / (facings_[i] - facings_[i - 1]);
    return turns * ways_.back() + ways_[i - 1] + share * (ways_[i] - ways_[i - 1]);
}

double ContactWay::between(double facing_a, double facing_b) const {
    const auto [first, last] = std::minmax(facing_a, facing_b);
    const auto beside_leap = [this](double facing, double aside) {
        const double here = at(facing), there = at(facing + aside);
        return std::abs(there - here) > least_leap ? there : here;
    };
    return std::max(0.0, beside_leap(last, -width_of_leap) - beside_leap(first, width_of_leap));
}

void check_surface_feed(const ShaftMoves& moves, const MoveMarks& finishes, const LobePlanes& lobe,
                        const CutterPart& cutting, double surface_feed, Findings& findings) {
    const auto section = cutting.section(cutting.widest_offset(-1e9, 1e9));
    if (!section) return;
    const ContactWay way(lobe.rays, *section);
    for (const int i : finishes.in_order()) {
        const ShaftMove move = moves[i];
        if (move.rapid || move.seconds == 0.0) continue;
        const double feed = way.between(move.from.facing, move.to.facing) / move.seconds * 60.0;
        if (feed <= feed_warned_of * surface_feed) continue;
        std::string message = findings.words().surface_feed(feed, surface_feed);
        if (feed > feed_refused * surface_feed) {
            findings.error("surface-feed", move.line, std::move(message));
        } else {
            findings.warn("surface-feed", move.line, std::move(message));
        }
    }
}

}  // namespace lobewright::proof
