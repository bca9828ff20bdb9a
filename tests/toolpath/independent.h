/// The radial function and its tunnel once more, by other means than the planner's, for bounds in tests.
#pragma once

#include <lobewright/lobe.h>

#include <cmath>
#include <vector>

namespace independent {

using namespace lobewright;

/// Where a round section of radius R parallel to the shaft stands when the direction `beta` (lobe's frame)
/// faces it.
struct Stand {
    double radial = 0.0;  ///< of its edge
    double cosine = 1.0;  ///< of the angle between the contact's normal and the radial direction
    double arc = 0.0;     ///< of the contour, from the chain's start, by chords
};

/// Every stand of a whole turn at `count` equal steps, from -180 degrees: the outer parallel curve is traced
/// in points so dense that a straight line between two of them is good to 1e-8 mm, and read off in polar
/// form.
inline std::vector<Stand> stands(const Contour& contour, double radius, int count) {
    struct Traced {
        double direction, distance, cosine, arc;
    };
    std::vector<Traced> traced;
    Vec2 before{};
    double arc = 0.0, unwrapped = 0.0;
    for (const ContourPiece& piece : contour.pieces()) {
        constexpr int each = 40000;
        for (int i = 0; i < each; ++i) {
            const ContourPoint p = piece.at(piece.start + (piece.end - piece.start) * i / each);
            const Vec2 centre = p.point + radius * p.normal;
            const double towards = direction(centre);
            unwrapped = traced.empty() ? towards : unwrapped + wrapped_radians(towards - unwrapped);
            if (!traced.empty()) arc += length(p.point - before);
            before = p.point;
            traced.push_back({unwrapped, length(centre), dot(p.normal, centre) / length(centre), arc});
        }
    }
    std::vector<Stand> found;
    std::size_t at = 0;
    double whole = traced.front().direction;
    const Vec2 first = contour.pieces().front().at(contour.pieces().front().start).point;
    const double round = arc + length(first - before);
    traced.push_back({whole + full_turn, traced.front().distance, traced.front().cosine, round});
    for (int i = 0; i < count; ++i) {
        double wanted = -std::numbers::pi + full_turn * i / count;
        double turns = std::floor((wanted - whole) / full_turn);
        wanted -= turns * full_turn;
        if (at + 1 >= traced.size() || traced[at].direction > wanted) at = 0;
        while (at + 2 < traced.size() && traced[at + 1].direction < wanted)
            ++at;
        const Traced &a = traced[at], &b = traced[at + 1];
        const double share = (wanted - a.direction) / (b.direction - a.direction);
        found.push_back({a.distance + share * (b.distance - a.distance) - radius,
                         a.cosine + share * (b.cosine - a.cosine),
                         a.arc + share * (b.arc - a.arc) + turns * round});
    }
    return found;
}

/// A bound that no path beats: the fewest straight pieces that pass between low and high at all places when
/// they need not even join. Runs are grown one place at a time; a run can be crossed by a line if no lower
/// place asks for a steeper slope than some pair of places allows, all pairs compared.
inline int fewest_unjoined(const std::vector<double>& at, const std::vector<double>& low,
                           const std::vector<double>& high) {
    int pieces = 0;
    std::size_t start = 0;
    while (start < at.size()) {
        ++pieces;
        double least = -1e300,
               most = 1e300;  // slopes between the run's places that all its lines keep between
        std::size_t end = start + 1;
        for (; end < at.size(); ++end) {
            double new_least = least, new_most = most;
            bool possible = true;
            for (std::size_t i = start; i < end; ++i) {
                const double run = at[end] - at[i];
                new_most = std::min(new_most, (high[end] - low[i]) / run);
                new_least = std::max(new_least, (low[end] - high[i]) / run);
            }
            possible = new_least <= new_most;
            if (!possible) break;
            least = new_least, most = new_most;
        }
        start = end;
    }
    return pieces;
}

}  // namespace independent
