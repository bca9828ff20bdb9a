#include "hand/finish/ridges.h"

#include "catch.h"

#include <lobewright/angle.h>

#include <cmath>

using namespace lobewright;
using namespace lobewright::hand;

namespace {
ShaftAngle deg(double degrees) {
    return ShaftAngle::from_degrees(degrees);
}
}  // namespace

// The heights below were worked out by brute force, independently of these formulas, to 1e-8 mm.
TEST_CASE("ridges have the heights of the independent table") {
    constexpr double digit = 5.1e-9;  // half of the last one printed
    CHECK_NEAR(ridge_between_flats(20, deg(1)), 0.00076157, digit);
    CHECK_NEAR(ridge_between_flats(20, deg(2)), 0.00304656, digit);
    CHECK_NEAR(ridge_between_flats(20, deg(5)), 0.01905370, digit);
    CHECK_NEAR(ridge_between_flats(100, deg(2)), 0.01523280, digit);
    CHECK_NEAR(ridge_between_flats(100, deg(5)), 0.09526852, digit);
    CHECK_NEAR(ridge_between_rounds(20, 10, deg(2)), 0.00914665, digit);
    CHECK_NEAR(ridge_between_rounds(100, 10, deg(2)), 0.16925118, digit);
    CHECK_NEAR(ridge_between_arcs(20, 50, deg(5)), 0.01142656, digit);
    CHECK_NEAR(ridge_between_arcs(20, 25, deg(10)), 0.01522816, digit);
    CHECK_NEAR(ridge_between_arcs(20, 20, deg(10)), 0.0, digit);
}

TEST_CASE("for small steps all three come to the square of the step and the sum of the curvatures") {
    const ShaftAngle step = deg(0.1);
    const double s = 20 * step.radians();
    CHECK_RELATIVE(ridge_between_flats(20, step), s * s / 8 * (1 / 20.0), 1e-5);
    CHECK_RELATIVE(ridge_between_rounds(20, 10, step), s * s / 8 * (1 / 20.0 + 1 / 10.0), 1e-5);
    CHECK_RELATIVE(ridge_between_arcs(20, 50, step), s * s / 8 * (1 / 20.0 - 1 / 50.0), 1e-5);
}

TEST_CASE("the step for a ridge leaves just that ridge") {
    for (const double height : {0.0005, 0.005, 0.05}) {
        CHECK_RELATIVE(ridge_between_flats(6, step_for_flats(6, height)), height, 1e-9);
        CHECK_RELATIVE(ridge_between_rounds(6, 5, step_for_rounds(6, 5, height)), height, 1e-9);
        CHECK_RELATIVE(ridge_between_arcs(6, 25, step_for_arcs(6, 25, height)), height, 1e-9);
    }
}

TEST_CASE("where no step leaves such a ridge, the widest that makes sense comes back") {
    CHECK_NEAR(step_for_arcs(20, 20.001, 0.01).radians(), full_turn, 0.0);
    const double meet = step_for_rounds(6, 1, 5.0).radians();
    CHECK_NEAR(7 * std::sin(meet / 2), 1.0, 1e-12);
}
