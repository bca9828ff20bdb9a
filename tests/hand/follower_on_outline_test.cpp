#include "hand/outline/follower_on_outline.h"

#include "catch.h"
#include "hand_jobs.h"

#include <cmath>

using namespace hand_jobs;
using namespace lobewright::hand;

namespace {

Follower roller(double radius, double offset) {
    Follower follower;
    follower.kind = FollowerKind::roller;
    follower.radius = radius;
    follower.offset = offset;
    return follower;
}

ShaftAngle deg(double degrees) {
    return ShaftAngle::from_degrees(degrees);
}

/// A disc of radius r about a point e off the axis, in quarters.
Outline quarters(double e, double r) {
    Outline outline;
    for (int k = 0; k < 4; ++k) {
        OutlinePiece piece;
        piece.centre = {e, 0};
        piece.radius = r;
        piece.start = piece.centre + r * unit(rad(90.0 * k));
        piece.end = piece.centre + r * unit(rad(90.0 * (k + 1)));
        outline.push_back(piece);
    }
    return outline;
}

/// A square of half side h, its sides across 0, 90, 180 and 270 degrees.
Outline square_outline(double h) {
    Outline outline;
    for (int k = 0; k < 4; ++k) {
        OutlinePiece piece;
        piece.bend = OutlinePiece::Bend::straight;
        piece.normal = unit(rad(90.0 * k));
        piece.start = std::sqrt(2.0) * h * unit(rad(90.0 * k - 45));
        piece.end = std::sqrt(2.0) * h * unit(rad(90.0 * k + 45));
        outline.push_back(piece);
    }
    return outline;
}

}  // namespace

TEST_CASE("on a disc set off centre a flat follower moves by the cosine") {
    for (double facing = 0; facing < 360; facing += 7)
        CHECK_NEAR(lift_on_outline(quarters(2, 10), Follower{}, 8, deg(facing)),
                   2 + 2 * std::cos(rad(facing)), 1e-12);
}

TEST_CASE("on a disc set off centre a roller's centre keeps its distance from the disc's") {
    // e cos θ + sqrt((R + r)² - (e sin θ + offset)²), the crank and rod of the textbooks.
    for (const double offset : {0.0, 1.5, -2.0}) {
        for (double facing = 0; facing < 360; facing += 7) {
            const double across = 2 * std::sin(rad(facing)) + offset,
                         seat = std::sqrt(13 * 13 - offset * offset);
            const double wanted = 2 * std::cos(rad(facing)) + std::sqrt(15 * 15 - across * across) - seat;
            CHECK_NEAR(lift_on_outline(quarters(2, 10), roller(5, offset), 8, deg(facing)), wanted, 1e-12);
        }
    }
}

TEST_CASE("a knife follows the disc's own radius") {
    Follower knife = roller(0, 0);
    knife.kind = FollowerKind::knife;
    for (double facing = 0; facing < 360; facing += 7) {
        const double radius =
            2 * std::cos(rad(facing)) + std::sqrt(100 - std::pow(2 * std::sin(rad(facing)), 2));
        CHECK_NEAR(lift_on_outline(quarters(2, 10), knife, 8, deg(facing)), radius - 8, 1e-12);
    }
}

TEST_CASE("a pivoted roller's arm and the two centres make the triangle of the textbooks") {
    Follower finger;
    finger.kind = FollowerKind::pivoted;
    finger.radius = 8;
    finger.pivot_radius = 30;
    finger.arm_length = 28;
    for (const Sense side : {Sense::ccw, Sense::cw}) {
        finger.side = side;
        const double seat = 8 + 8, s = sign_of(side);
        const double at_axis = std::acos((900 + seat * seat - 784) / (2 * 30 * seat));
        const double at_pivot = std::acos((900 + 784 - seat * seat) / (2 * 30 * 28));
        for (double facing = 0; facing < 360; facing += 7) {
            const double to_pivot = rad(facing) - s * at_axis;
            const Vec2 pivot = 30 * unit(to_pivot), disc{2, 0};
            // From the pivot: between the ways to the shaft's axis and to the disc's centre, then the arm's
            // own angle.
            const double d = length(disc - pivot);
            const double arm_to_disc = std::acos((d * d + 784 - 18 * 18) / (2 * d * 28));
            const double disc_past_axis = wrapped_radians(direction(disc - pivot) - direction(-pivot));
            const double turned_by = arm_to_disc - s * disc_past_axis - at_pivot;
            const double wanted = 28 * turned_by;
            CHECK_NEAR(lift_on_outline(quarters(2, 10), finger, 8, deg(facing)), wanted, 1e-9);
        }
    }
}

TEST_CASE("on flats a follower rides their faces and corners") {
    CHECK_NEAR(lift_on_outline(square_outline(5), Follower{}, 5, deg(0)), 0.0, 1e-12);
    CHECK_NEAR(lift_on_outline(square_outline(5), Follower{}, 5, deg(45)), 5 * (std::sqrt(2.0) - 1), 1e-12);
    CHECK_NEAR(lift_on_outline(square_outline(5), roller(3, 0), 5, deg(0)), 0.0, 1e-12);
    CHECK_NEAR(lift_on_outline(square_outline(5), roller(3, 0), 5, deg(45)), 5 * std::sqrt(2.0) - 5, 1e-12);
    // At 30 degrees the roller's line passes the face first: 8 / cos 30 - 8, its foot at 8 tan 30 = 4.6 of 5.
    CHECK_NEAR(lift_on_outline(square_outline(5), roller(3, 0), 5, deg(30)), 8 / std::cos(rad(30)) - 8,
               1e-12);
}

TEST_CASE(
    "in a hollow that a round cutter left, a smaller roller sits deep and a larger one on the corners") {
    Outline outline = square_outline(5);
    outline[0].bend =
        OutlinePiece::Bend::hollow;  // the face across 0 degrees, now an arc of 13 about (17, 0)
    outline[0].centre = {5 + 12, 0};
    outline[0].radius = 13;
    // Its ends stand at (5, ±5), its middle at 4.
    CHECK_NEAR(lift_on_outline(outline, roller(3, 0), 5, deg(0)), 17 - 10 - 8, 1e-12);
    const double on_corners = 5 + std::sqrt(20 * 20 - 25.0);
    CHECK_NEAR(lift_on_outline(outline, roller(20, 0), 5, deg(0)), on_corners - 25, 1e-12);
}

TEST_CASE("on a disc set off centre a tilted face rises by the cosine of its own normal's turn") {
    for (const double tilt : {10.0, -20.0}) {
        Follower follower;
        follower.face_tilt = SpaceAngle::from_degrees(tilt);
        for (double facing = 0; facing < 360; facing += 7) {
            const double height = 10 + 2 * std::cos(rad(facing + tilt));
            CHECK_NEAR(lift_on_outline(quarters(2, 10), follower, 8, deg(facing)),
                       (height - 8) / std::cos(rad(tilt)), 1e-12);
        }
    }
}

TEST_CASE("a flat pad on an arm turns until it clears disc and corner") {
    Follower pad;
    pad.kind = FollowerKind::pivoted;
    pad.pivot_radius = 30;
    pad.arm_length = 28;
    pad.pad_depth = 3;
    // What lies so far out along the face's normal, the arm turned by that angle from where it stands on the
    // heel.
    const auto support_of_disc = [](Vec2 normal) { return 10 + dot(Vec2{2, 0}, normal); };
    const auto support_of_square = [](Vec2 normal) { return 5 * (std::abs(normal.x) + std::abs(normal.y)); };
    const auto check = [&](const Outline& outline, const auto& support, double base) {
        for (const Sense side : {Sense::ccw, Sense::cw}) {
            pad.side = side;
            for (double facing = 0; facing < 360; facing += 7) {
                const Vec2 f = unit(rad(facing));
                const double ahead = base + 3, across = std::sqrt(900 - ahead * ahead);
                const Vec2 pivot = ahead * f - sign_of(side) * across * quarter_turn(f);
                const auto clear = [&](double turn) {
                    const Vec2 normal = turned(f, unit(-sign_of(side) * turn));
                    return dot(pivot, normal) - 3 - support(normal);
                };
                double low = -0.3, high = 0.6;
                for (int i = 0; i < 60; ++i)
                    (clear(0.5 * (low + high)) > 0 ? high : low) = 0.5 * (low + high);
                CHECK_NEAR(lift_on_outline(outline, pad, base, deg(facing)), 28 * low, 1e-9);
            }
        }
    };
    check(quarters(2, 10), support_of_disc, 8);
    check(square_outline(5), support_of_square, 5);
}
