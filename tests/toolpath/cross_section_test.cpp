// Outlines across the shaft: against the contours that they enclose, and circles.

#include "toolpath/neighbours/cross_section.h"

#include "catch.h"
#include "contours.h"

#include <algorithm>
#include <cmath>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

/// Where the ray from the axis leaves the outline.
double radius_of(const Outline& outline, double direction) {
    const Vec2 u = unit(direction), v = quarter_turn(u);
    double radius = 0.0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Vec2 a = outline[i], b = outline[(i + 1) % outline.size()];
        const double s = dot(a, v), t = dot(b, v);
        if ((s > 0.0) == (t > 0.0)) continue;
        const Vec2 at = a + (b - a) * (s / (s - t));
        if (dot(at, u) > 0.0) radius = std::max(radius, dot(at, u));
    }
    return radius;
}

}  // namespace

TEST_CASE("an outline encloses its contour with what is left on, and hardly more") {
    const Contour lobes[] = {contours::three_arcs(6.0, 2.4, 60.0 * full_turn / 360.0, 25.0),
                             contours::smooth_bump(8.0, 2.0, 3)};
    for (const Contour& lobe : lobes) {
        const Outline plain = outline_of(lobe, 0.0);
        for (double beta = -3.1; beta < 3.1; beta += 0.0137) {
            const double over = radius_of(plain, beta) - lobe.polar_radius(ShaftAngle::from_radians(beta));
            CHECK(over >= -1e-9);
            CHECK(over <= 1e-3);
        }
        // A parallel curve: every corner of the outline lies that far from the contour's nearest point or
        // further.
        for (const Vec2 p : outline_of(lobe, 0.3)) {
            double nearest = 1e9;
            for (const Vec2 q : plain)
                nearest = std::min(nearest, length(p - q));
            CHECK_NEAR(nearest, 0.3, 5e-3);
        }
    }
}

TEST_CASE("a turned outline has its points turned, and keeps its distances from the axis") {
    const Outline outline = outline_of(contours::smooth_bump(8.0, 2.0, 3), 0.0);
    const Outline round = turned(outline, contours::angle_of(1.1));
    REQUIRE(round.size() == outline.size());
    for (std::size_t i = 0; i < outline.size(); i += 17) {
        CHECK_NEAR(length(round[i]), length(outline[i]), 1e-12);
        CHECK_NEAR(wrapped_radians(direction(round[i]) - direction(outline[i])), 1.1, 1e-12);
    }
}

TEST_CASE(
    "two circles meet where their centres are nearer than their radii together, and stand off by the rest") {
    const Contour circle({contours::arc("circle", {}, 5.0, -std::numbers::pi, std::numbers::pi)});
    const Contour other({contours::arc("circle", {8.0, 0.0}, 2.0, -std::numbers::pi, std::numbers::pi)});
    const auto meets = meeting(outline_of(circle, 0.0));
    const auto distance = distance_from(outline_of(circle, 0.0));
    CHECK_FALSE(meets(outline_of(other, 0.99)));
    CHECK(meets(outline_of(other, 1.01)));
    for (double beta = 0.0; beta < 6.0; beta += 0.3) {
        CHECK_NEAR(distance(9.0 * unit(beta)), 4.0, 1e-3);
        CHECK(distance(4.9 * unit(beta)) == 0.0);
    }
}
