/// Contours in closed form for tests of the toolpath, apart from the profile's own.
#pragma once

#include "sampled_contour.h"

#include <lobewright/contour.h>

#include <cmath>

namespace contours {

using lobewright::Contour;
using lobewright::ContourPiece;
using lobewright::ContourPoint;
using lobewright::Vec2;

/// A facing direction from radians.
inline constexpr auto angle_of = lobewright::ShaftAngle::from_radians;

inline ContourPiece arc(const std::string& name, Vec2 centre, double radius, double from, double to) {
    return {name, from, to,
            [=](double t) {
                const Vec2 n = lobewright::unit(t);
                return ContourPoint{centre + radius * n, n, 1.0 / radius, radius};
            },
            true};
}

/// Base circle, convex flanks and nose as arcs; the closed form of a three-arc cam (see the profile's
/// derivation).
inline Contour three_arcs(double base, double lift, double half_action, double flank) {
    const double top = base + lift, e = flank - base;
    const double nose = (flank * flank - e * e - top * top - 2.0 * e * top * std::cos(half_action)) /
                        (2.0 * (flank - top - e * std::cos(half_action)));
    const double d = top - nose;
    const double phi =
        std::asin(d * std::sin(half_action) / (flank - nose));  // turn of the normal along the flank
    const Vec2 opening = -e * lobewright::unit(half_action);    // centre of the flank on the + side
    const Vec2 closing = -e * lobewright::unit(-half_action);
    const double turn = lobewright::full_turn;
    return Contour({arc("nose", {d, 0.0}, nose, -(half_action - phi), half_action - phi),
                    arc("flank", opening, flank, half_action - phi, half_action),
                    arc("base circle", {0.0, 0.0}, base, half_action, turn - half_action),
                    arc("flank", closing, flank, turn - half_action, turn - half_action + phi)});
}

/// h(β) = base + a (1 + cos β)^n / 2^n: smooth, without a dwell; the contour of a flat follower. Required:
/// convex.
inline Contour smooth_bump(double base, double a, int n) {
    return sampled_contour::of(
        {{"lobe", -std::numbers::pi, std::numbers::pi,
          [=](double t) {
              const double c = 0.5 * (1.0 + std::cos(t)), s = -0.5 * std::sin(t), k = -0.5 * std::cos(t);
              const double p2 = std::pow(c, n - 2), p1 = p2 * c;
              const double h = base + a * p1 * c, h1 = a * n * p1 * s;
              const double h2 = a * n * ((n - 1) * p2 * s * s + p1 * k);
              const Vec2 u = lobewright::unit(t);
              return ContourPoint{h * u + h1 * lobewright::quarter_turn(u), u, 1.0 / (h + h2), h + h2};
          },
          false}});
}

/// r(θ) = base + a ((1 + cos mθ) / 2)^n: m bumps, hollow between them where n or m is large.
inline Contour polar_bump(double base, double a, int n, int m) {
    const auto at = [=](double t) {
        const double c = 0.5 * (1.0 + std::cos(m * t)), s = -0.5 * m * std::sin(m * t),
                     k = -0.5 * m * m * std::cos(m * t);
        const double p2 = std::pow(c, n - 2), p1 = p2 * c;
        const double r = base + a * p1 * c, r1 = a * n * p1 * s, r2 = a * n * ((n - 1) * p2 * s * s + p1 * k);
        const double v = std::sqrt(r * r + r1 * r1);
        const Vec2 u = lobewright::unit(t), w = lobewright::quarter_turn(u);
        const Vec2 tangent = (r1 * u + r * w) / v;
        return ContourPoint{r * u, -lobewright::quarter_turn(tangent),
                            (r * r + 2.0 * r1 * r1 - r * r2) / (v * v * v), v};
    };
    return sampled_contour::of({{"bumps", -std::numbers::pi, std::numbers::pi, at, false}});
}

}  // namespace contours
