#include "proof/judge/surface_feed.h"

#include "base/elementary/elementary.h"

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

/// The facing of the section that touches the design at the ray's point: with its flat, square to the normal;
/// where the contact stands past the flat's end, with the corner there.
double touching_facing(const DesignRay& ray, const PlaneSection& section) {
    // n·e = lean and n·e' = -slope lean / radius, with e the ray and e' a quarter turn from it.
    const Vec2 normal =
        ray.lean * unit(ray.psi) - ray.slope * ray.lean / ray.radius * quarter_turn(unit(ray.psi));
    const Vec2 point = ray.radius * unit(ray.psi);
    const double sideways = dot(point, quarter_turn(normal)) - section.shift;
    if (section.half_flat > 0.0 && std::abs(sideways) <= section.half_flat) return direction(normal);
    const Vec2 centre = point + section.corner * normal;
    const double beside = section.shift + (sideways < 0.0 ? -section.half_flat : section.half_flat);
    return direction(centre) - elementary::asin(std::clamp(beside / length(centre), -1.0, 1.0));
}

/// Shares of the wanted feed: what the mean over a block may run over it before it is told, and what is an
/// error: common practice, no source.
constexpr double feed_warned_of = 1.1, feed_refused = 1.5;

}  // namespace

ContactWay::ContactWay(const std::vector<DesignRay>& rays, const PlaneSection& section) {
    for (std::size_t i = 0; i < rays.size(); ++i) {
        double facing = touching_facing(rays[i], section);
        double way = 0.0;
        if (i > 0) {
            facing = facings_.back() + std::max(0.0, wrapped_radians(facing - facings_.back()));
            way = ways_.back() +
                  length(rays[i].radius * unit(rays[i].psi) - rays[i - 1].radius * unit(rays[i - 1].psi));
        }
        facings_.push_back(facing);
        ways_.push_back(way);
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
    return std::abs(at(facing_b) - at(facing_a));
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
