#include "toolpath/neighbours/cross_section.h"

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include <cmath>

namespace lobewright::toolpath {
namespace {

namespace bg = boost::geometry;
using Polygon = bg::model::polygon<bg::model::d2::point_xy<double>>;

Polygon polygon_of(const Outline& outline) {
    Polygon polygon;
    for (const Vec2 p : outline)
        bg::append(polygon.outer(), bg::model::d2::point_xy<double>(p.x, p.y));
    bg::correct(polygon);
    return polygon;
}

/// Sine of the angle between two tangents below which they count as parallel: where they meet would be
/// rounding by some 1e-7 of the points' distance.
constexpr double parallel = 1e-9;

/// Where the tangents at two points of the contour meet; the points' middle where they are parallel.
Vec2 tangents_meet(const ContourPoint& a, const ContourPoint& b) {
    const double sine = cross(a.normal, b.normal);
    if (std::abs(sine) < parallel) return 0.5 * (a.point + b.point);
    const double along = dot(b.point - a.point, b.normal) / sine;
    return a.point + along * quarter_turn(a.normal);
}

}  // namespace

Outline outline_of(const Contour& contour, double left_on) {
    constexpr int each = 360;
    std::vector<ContourPoint> points;
    for (const ContourPiece& piece : contour.pieces()) {
        for (int i = 0; i <= each; ++i) {
            points.push_back(piece.at(piece.start + (piece.end - piece.start) * i / each));
            points.back().point = points.back().point + left_on * points.back().normal;
        }
    }
    Outline outline;
    for (std::size_t i = 0; i < points.size(); ++i) {
        outline.push_back(points[i].point);
        const ContourPoint& next = points[(i + 1) % points.size()];
        if (cross(points[i].normal, next.normal) > 0.0) outline.push_back(tangents_meet(points[i], next));
    }
    return outline;
}

Outline turned(const Outline& outline, ShaftAngle by) {
    Outline found = outline;
    const Vec2 towards = unit(by.radians());
    for (Vec2& p : found)
        p = lobewright::turned(p, towards);
    return found;
}

std::function<bool(const Outline&)> meeting(const Outline& fixed) {
    return [polygon = polygon_of(fixed)](const Outline& other) {
        return bg::intersects(polygon, polygon_of(other));
    };
}

std::function<double(Vec2)> distance_from(const Outline& fixed) {
    return [polygon = polygon_of(fixed)](Vec2 p) {
        return bg::distance(bg::model::d2::point_xy<double>(p.x, p.y), polygon);
    };
}

}  // namespace lobewright::toolpath
