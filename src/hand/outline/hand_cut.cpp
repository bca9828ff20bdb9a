#include "hand/outline/hand_cut.h"

#include "base/elementary/elementary.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewright::hand {
namespace {

using Shape = HandCut::Shape;

constexpr double infinity = std::numeric_limits<double>::infinity();

}  // namespace

HandCut swept_cut(ShaftAngle facing, double offset, double swept_radius) {
    return {Shape::swept_arc, facing, -offset, swept_radius};
}
HandCut flat_cut(ShaftAngle facing, double distance) {
    return {Shape::flat, facing, distance, 0.0};
}
HandCut round_cut(ShaftAngle facing, double centre_distance, double cutter_radius) {
    return {Shape::round, facing, centre_distance, cutter_radius};
}

std::optional<Vec2> corner_between(const HandCut& first, const HandCut& second) {
    if (first.shape == Shape::flat) {
        const Vec2 u = unit_towards(first.facing);
        const auto [sine, cosine] = elementary::sine_and_cosine((second.facing - first.facing).radians());
        if (sine <= 0.0) return std::nullopt;
        const double along = (second.distance - first.distance * cosine) / sine;
        return first.distance * u + along * quarter_turn(u);
    }
    const Vec2 between = second.centre() - first.centre();
    const double half = length(between) / 2.0;
    if (half > first.radius || half == 0.0) return std::nullopt;
    const Vec2 across = quarter_turn(between) / (2.0 * half);
    const double reach = std::sqrt(first.radius * first.radius - half * half);
    return (first.centre() + second.centre()) / 2.0 + reach * across;
}

double exit_along(const HandCut& cut, Vec2 point, Vec2 normal) {
    if (cut.shape == Shape::flat) {
        const Vec2 u = unit_towards(cut.facing);
        const double steepness = dot(normal, u);
        return steepness > 0.0 ? (cut.distance - dot(point, u)) / steepness : infinity;
    }
    const Vec2 to_centre = cut.centre() - point;
    const double along = dot(to_centre, normal);
    const double across = cross(to_centre, normal);
    const double half_squared = cut.radius * cut.radius - across * across;
    if (cut.shape == Shape::swept_arc) return along + std::sqrt(std::max(0.0, half_squared));
    if (half_squared < 0.0 || along < 0.0) return infinity;
    return along - std::sqrt(half_squared);
}

double exit_of_blank(double blank_radius, Vec2 point, Vec2 normal) {
    const double across = cross(point, normal);
    return std::sqrt(std::max(0.0, blank_radius * blank_radius - across * across)) - dot(point, normal);
}

double radius_under(const HandCut& cut, ShaftAngle direction) {
    return exit_along(cut, {}, unit_towards(direction));
}

}  // namespace lobewright::hand
