/// The proof's sections of a cutter, against the bodies that they are cut from.
#include "catch.h"
#include "inside_cases.h"
#include "near.h"
#include "proof/section/moving_section.h"

#include <lobewright/plane.h>

#include <algorithm>
#include <cmath>
#include <random>

using namespace inside;

TEST_CASE("a plane beside the axis of a ball cuts a smaller circle, as much higher") {
    const CutterPart ball = upright(5.0, 5.0);
    const auto beside = ball.section(3.0);
    REQUIRE(beside);
    CHECK_NEAR(beside->corner, 4.0, 1e-12);  // 3, 4, 5
    CHECK_NEAR(beside->raise, 1.0, 1e-12);
    CHECK_NEAR(beside->half_width(), 4.0, 1e-12);
    CHECK_FALSE(ball.section(5.0));
}

TEST_CASE("a square end is as wide as the chord, whatever the plane") {
    const CutterPart end = upright(5.0, 0.0);
    const auto beside = end.section(-4.0);
    REQUIRE(beside);
    CHECK_NEAR(beside->half_flat, 3.0, 1e-12);
    CHECK(beside->raise == 0.0);
    CHECK(beside->corner == 0.0);
}

TEST_CASE("a disc is the same in every plane of its width, and nothing beyond") {
    const CutterPart part = disc(16.0, 6.0);
    CHECK(part.section(-3.0) == part.section(2.9));
    CHECK_FALSE(part.section(3.01));
    CHECK(part.uniform(-3.0, 3.0));
}

TEST_CASE("towards its rounded end a parallel mill shrinks by the corner's circle") {
    CutterPart part = disc(6.0, 20.0);
    part.corner = 1.0, part.rounded_end = -1;
    const auto near_end = part.section(part.first + 0.4);
    REQUIRE(near_end);
    CHECK_NEAR(near_end->corner, 5.0 + std::sqrt(1.0 - 0.36), 1e-12);
    CHECK_NEAR(near_end->raise, 6.0 - near_end->corner, 1e-12);
    const auto [first, last] = part.changing();
    CHECK(first == part.first);
    CHECK_NEAR(last, part.first + 1.0, 1e-12);
    CHECK(part.section(last + 0.01) == part.section(0.0));
}

TEST_CASE("a section comes as near to the axis as any ray from there enters it") {
    constexpr unsigned seed = 77;
    std::mt19937 random(seed);
    const auto between = [&](double a, double b) { return std::uniform_real_distribution(a, b)(random); };
    for (int trial = 0; trial < 200; ++trial) {
        PlaneSection section;
        section.raise = between(0.0, 2.0);
        section.half_flat = between(0.0, 1.0) < 0.4 ? 0.0 : between(0.5, 6.0);
        section.corner = section.half_flat == 0.0 || between(0.0, 1.0) < 0.5 ? between(0.5, 12.0) : 0.0;
        section.shift = between(-12.0, 12.0);
        const double tip = between(3.0, 12.0);
        double nearest = nowhere;
        for (int ray = -8000; ray <= 8000; ++ray) {
            const SweepStep still{{1.0, 0.0}, 0.0, tip + section.raise, 0.0};
            nearest = std::min(nearest, least_entry(section, still, unit(ray * 1.5 / 8000.0)).radius);
        }
        INFO("trial " << trial << " of seed " << seed);
        CHECK_NEAR(section.distance_from_axis(tip), nearest,
                   2e-3);  // a ray misses the place by so much at most
    }
}

TEST_CASE("a section that holds another is entered by every ray before it is") {
    CutterPart lying = upright(5.0, 0.0), hollow = upright(5.0, 0.5), moved = upright(5.0, 0.0);
    lying.shape = CutterPart::Shape::lying, lying.half_length = 6.0;
    hollow.dish = 0.05;
    moved.shift = 1.0;
    const std::vector<CutterPart> parts{
        upright(5.0, 0.0), upright(5.0, 1.0), upright(5.0, 5.0), lying, hollow, moved, disc(5.0, 10.0)};
    std::vector<PlaneSection> sections;
    for (const CutterPart& part : parts) {
        for (const double off : {0.0, 0.7, 2.0, 3.9, 4.4, 4.9})
            sections.push_back(*part.section(off));
    }
    constexpr double tip = 7.0;
    int held = 0;
    for (const PlaneSection& a : sections) {
        for (const PlaneSection& b : sections) {
            if (!holds(a, b)) continue;
            ++held;
            const SweepStep still_a{{1.0, 0.0}, 0.0, tip + a.raise, 0.0},
                still_b{{1.0, 0.0}, 0.0, tip + b.raise, 0.0};
            for (int ray = -400; ray <= 400; ++ray) {
                const Vec2 along = unit(ray * 1.2 / 400.0);
                CHECK(least_entry(a, still_a, along).radius <= least_entry(b, still_b, along).radius + 1e-9);
            }
        }
    }
    CHECK(held > 100);
    // The nearer slice of an end that is not hollow, or of a cutter lying across.
    for (const CutterPart& part : {parts[0], parts[1], parts[2], parts[3], parts[5]}) {
        CHECK(holds(*part.section(0.0), *part.section(1.0)));
        CHECK(holds(*part.section(-2.0), *part.section(4.5)));
        CHECK_FALSE(holds(*part.section(4.5), *part.section(2.0)));
    }
    CHECK_FALSE(holds(*hollow.section(0.0), *hollow.section(1.0)));
}
