/// How a section of the cutter touches points, by its definition alone: a flat, its two rounded corners, and
/// how far its middle stands aside.
#pragma once

#include <lobewright/angle.h>
#include <lobewright/contour.h>
#include <lobewright/plane.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace by_definition {

using namespace lobewright;

struct Section {
    double half_flat = 0.0, corner = 0.0, shift = 0.0;
};

/// The tip distance at which the section comes to touch that point, facing u.
inline double needed(const Section& s, Vec2 p, Vec2 u) {
    const double over = std::abs(dot(p, quarter_turn(u)) - s.shift) - s.half_flat;
    if (over > s.corner) return -std::numeric_limits<double>::infinity();
    return dot(p, u) - (over <= 0.0 ? 0.0 : s.corner - std::sqrt(s.corner * s.corner - over * over));
}

/// The tip distance at which it comes to touch any of them.
inline double tip_over(const Section& s, const std::vector<Vec2>& points, Vec2 u) {
    double tip = -std::numeric_limits<double>::infinity();
    for (const Vec2 p : points)
        tip = std::max(tip, needed(s, p, u));
    return tip;
}

/// The most by which the section, touching at each of so many turns, stays off any of the points.
inline double never_touched(const Section& s, const std::vector<Vec2>& points, int turns) {
    std::vector<double> least(points.size(), std::numeric_limits<double>::infinity());
    for (int i = 0; i < turns; ++i) {
        const Vec2 u = unit(full_turn * i / turns);
        const double tip = tip_over(s, points, u);
        for (std::size_t j = 0; j < points.size(); ++j)
            least[j] = std::min(least[j], tip - needed(s, points[j], u));
    }
    return *std::max_element(least.begin(), least.end());
}

/// So many of each piece of a contour, that far outside of it.
inline std::vector<Vec2> points_of(const Contour& contour, double left_on, int each) {
    std::vector<Vec2> points;
    for (const ContourPiece& piece : contour.pieces()) {
        for (int i = 0; i < each; ++i) {
            const ContourPoint p = piece.at(piece.start + (piece.end - piece.start) * i / each);
            points.push_back(p.point + left_on * p.normal);
        }
    }
    return points;
}

}  // namespace by_definition
