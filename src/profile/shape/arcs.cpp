#include "profile/shape/arcs.h"

#include "base/elementary/elementary.h"
#include "profile/motion/motion_piece.h"
#include "profile/roots.h"
#include "profile/shape/arc_sides.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::profile {
namespace {

/// A curve of constant curvature by its arc length.
struct ArcPath {
    Vec2 start;
    Vec2 start_normal;
    double curvature = 0.0;

    [[nodiscard]] ContourPoint at(double way) const {
        const double half = 0.5 * curvature * way;
        const double chord = half == 0.0 ? way : way * elementary::sin(half) / half;
        const Vec2 half_turn = unit(half);
        const Vec2 chord_normal = turned(start_normal, half_turn);
        return {start + chord * quarter_turn(chord_normal), turned(chord_normal, half_turn), curvature, 1.0};
    }
};

/// Length of the arc of that curvature over a chord.
double arc_length(double chord, double curvature) {
    const double sine = 0.5 * chord * curvature;
    return sine == 0.0 ? chord : chord * elementary::asin(sine) / sine;
}

double made_straight(double curvature, double peak) {
    return std::abs(curvature) * peak < flattest_curvature ? 0.0 : curvature;
}

}  // namespace

PlacedSides placed(const ArcLobe& lobe, Sense turns) {
    if (turns == Sense::ccw) return {lobe.closing, lobe.opening, "closing flank", "opening flank"};
    return {lobe.opening, lobe.closing, "opening flank", "closing flank"};
}

Vec2 joint_point(const ArcShape& side) {
    return Vec2{side.nose_centre(), 0.0} + side.nose * unit(side.joint_normal());
}

double ArcShape::joint_normal() const {
    const Vec2 along = (1.0 - base * curvature) * unit(half_action) + Vec2{curvature * nose_centre(), 0.0};
    return curvature == 0.0 ? half_action : direction(along);
}

bool ArcShape::exists() const {
    if (!(half_action > 0.0 && half_action < std::numbers::pi)) return false;
    if (!(nose > 0.0 && nose < peak && curvature * nose < 1.0 && curvature * base < 1.0)) return false;
    const double psi = joint_normal();
    return psi > 0.0 && nose_centre() * elementary::cos(psi) + nose > 0.0;
}

ArcShape shape_from_flank(double base, double peak, double half_action, double curvature) {
    const double b = base, h = peak, c = elementary::cos(half_action), k = made_straight(curvature, peak);
    const double nose =
        (2.0 * (b - h * c) - k * (b * b + h * h - 2.0 * b * h * c)) / (2.0 * (1.0 - c + k * (b * c - h)));
    return {b, h, half_action, k, nose};
}

ArcShape shape_from_nose(double base, double peak, double half_action, double nose) {
    const double b = base, n = nose, d = peak - n, c = elementary::cos(half_action);
    const double k = 2.0 * (n - b + d * c) / (n * n - b * b - d * d + 2.0 * d * b * c);
    return {b, peak, half_action, made_straight(k, peak), nose};
}

ArcShape shape_from_both(double base, double peak, double curvature, double nose) {
    const double b = base, n = nose, d = peak - n, k = made_straight(curvature, peak);
    const double cosine = (2.0 * (b - n) + k * (n * n - b * b - d * d)) / (2.0 * d * (1.0 - b * k));
    return {b, peak, elementary::acos(std::clamp(cosine, -1.0, 1.0)), k, n};
}

ArcLobe lobe_between(double base, double peak, double action, double opening_curvature,
                     double closing_curvature) {
    const auto with_nose = [&](double nose) {
        return ArcLobe{shape_from_both(base, peak, opening_curvature, nose),
                       shape_from_both(base, peak, closing_curvature, nose)};
    };
    // The action angle grows with the nose, up to one of the sharper flank's radius.
    constexpr double beside_the_limit = 1e-9;
    const double sharpest = std::max({opening_curvature, closing_curvature, 1.0 / peak});
    const double low = beside_the_limit * peak, high = (1.0 - beside_the_limit) / sharpest;
    const auto excess = [&](double nose) { return with_nose(nose).action() - action; };
    if (excess(low) >= 0.0) return with_nose(0.0);
    if (excess(high) <= 0.0) return with_nose(0.0);
    return with_nose(root_of(excess, low, high));
}

FlankRange flank_range(double base, double peak, double half_action) {
    const double b = base, h = peak, c = elementary::cos(half_action);
    const double most_convex = 2.0 * (b - h * c) / (b * b + h * h - 2.0 * b * h * c);
    // The more hollow the flank, the more the contour leans over where it meets the nose: halve the way to
    // the limit.
    constexpr double beside_the_limit = 1e-9;  // of 1 / h: where the nose has shrunk to 1e-9 of h
    constexpr double beyond_any = 1e6;         // of 1 / h: a hollow of a millionth of h holds no flank
    constexpr double last_bits = 1e-15;        // of 1 / h
    constexpr int most_halvings = 80;          // from beyond_any down to last_bits
    double works = most_convex - beside_the_limit / h, fails = -beyond_any / h;
    if (!shape_from_flank(b, h, half_action, works).exists()) return {most_convex, most_convex};
    for (int i = 0; i < most_halvings && works - fails > last_bits / h; ++i) {
        const double middle = 0.5 * (works + fails);
        (shape_from_flank(b, h, half_action, middle).exists() ? works : fails) = middle;
    }
    return {works, most_convex};
}

namespace {

double flank_length(const ArcShape& side) {
    return arc_length(length(side.base * unit(side.half_action) - joint_point(side)), side.curvature);
}

}  // namespace

std::vector<ContourPiece> arc_contour(const ArcLobe& lobe, Sense turns, double pitch) {
    const auto [low, high, low_name, high_name] = placed(lobe, turns);
    const auto piece = [](const char* name, Vec2 start, double normal, double curvature, double end) {
        const ArcPath path{start, unit(normal), curvature};
        return ContourPiece{name, 0.0, end, [path](double way) { return path.at(way); }, true};
    };
    const double low_psi = low.joint_normal(), high_psi = high.joint_normal();
    std::vector<ContourPiece> pieces{
        piece(low_name, mirrored(low.base * unit(low.half_action)), -low.half_action, low.curvature,
              flank_length(low)),
        piece("nose", mirrored(joint_point(low)), -low_psi, 1.0 / low.nose, (low_psi + high_psi) * low.nose),
        piece(high_name, joint_point(high), high_psi, high.curvature, flank_length(high))};
    const double heel = pitch - lobe.action();
    if (heel > angle_rounding)
        pieces.push_back(piece("base circle", lobe.base() * unit(high.half_action), high.half_action,
                               1.0 / lobe.base(), heel * lobe.base()));
    return pieces;
}

}  // namespace lobewright::profile
