/// Points and vectors in the plane across the shaft, seen from the drive end.
#pragma once

#include <cmath>

namespace lobewright {

/// Millimetres; x along the frame's zero direction, y 90 degrees counter-clockwise of it.
struct Vec2 {
    double x = 0.0;
    double y = 0.0;

    friend constexpr Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
    friend constexpr Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
    friend constexpr Vec2 operator-(Vec2 a) { return {-a.x, -a.y}; }
    friend constexpr Vec2 operator*(double k, Vec2 a) { return {k * a.x, k * a.y}; }
    friend constexpr Vec2 operator*(Vec2 a, double k) { return k * a; }
    friend constexpr Vec2 operator/(Vec2 a, double k) { return {a.x / k, a.y / k}; }
};

constexpr double dot(Vec2 a, Vec2 b) {
    return a.x * b.x + a.y * b.y;
}
/// z of the cross product: positive where b lies counter-clockwise of a.
constexpr double cross(Vec2 a, Vec2 b) {
    return a.x * b.y - a.y * b.x;
}
/// sqrt(x² + y²). Not hypot: its last bits differ between C libraries, and a job's bytes must not.
inline double length(Vec2 a) {
    return std::sqrt(dot(a, a));
}
/// Unit vector in the direction `radians`; the same bits on every machine.
Vec2 unit(double radians);
/// Direction of a in radians, [-π, π], -π only where y is -0; the same bits on every machine.
double direction(Vec2 a);
/// The turn from a's direction to b's, as `direction` gives it.
double angle_between(Vec2 a, Vec2 b);
/// a turned by 90 degrees counter-clockwise.
constexpr Vec2 quarter_turn(Vec2 a) {
    return {-a.y, a.x};
}
/// a turned counter-clockwise by the angle whose unit vector is `by`.
constexpr Vec2 turned(Vec2 a, Vec2 by) {
    return {a.x * by.x - a.y * by.y, a.x * by.y + a.y * by.x};
}

}  // namespace lobewright
