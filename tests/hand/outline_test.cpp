#include "catch.h"
#include "hand/outline/filed_nose.h"
#include "trials.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

using namespace lobewright;
using namespace lobewright::hand;

namespace {

ShaftAngle rad(double radians) {
    return ShaftAngle::from_radians(radians);
}

/// Whether a cut has left a point, straight from the definition of its shape.
bool leaves(const HandCut& cut, Vec2 point) {
    if (cut.shape == HandCut::Shape::flat) return dot(point, unit_towards(cut.facing)) <= cut.distance;
    const double away = length(point - cut.centre());
    return cut.shape == HandCut::Shape::swept_arc ? away <= cut.radius : away >= cut.radius;
}

/// Radius on a ray by bisection of membership alone, walking outwards from the axis.
double radius_by_walking(const std::vector<HandCut>& cuts, double blank_radius, double direction) {
    const auto inside = [&](double r) {
        return r <= blank_radius && std::all_of(cuts.begin(), cuts.end(), [&](const HandCut& cut) {
                   return leaves(cut, r * unit(direction));
               });
    };
    double low = 0.0;
    while (inside(low + 0.01))
        low += 0.01;
    double high = low + 0.01;
    for (int i = 0; i < 60; ++i)
        (inside((low + high) / 2) ? low : high) = (low + high) / 2;
    return low;
}

std::vector<HandCut> random_cuts(HandCut::Shape shape, double base, std::mt19937& random) {
    const double radius = std::uniform_real_distribution<>(1.2 * base, 6 * base)(random);
    std::vector<HandCut> cuts;
    const int count = shape == HandCut::Shape::round ? 24 : 1 + static_cast<int>(random() % 40);
    for (int i = 0; i < count; ++i) {
        const double facing =
            shape == HandCut::Shape::round
                ? full_turn * (i + 0.4 * (static_cast<double>(random() % 100) / 100)) / count
                : std::uniform_real_distribution<>(-7.0, 7.0)(random);
        if (shape == HandCut::Shape::swept_arc) cuts.push_back(swept_cut(rad(facing), radius - base, radius));
        if (shape == HandCut::Shape::flat) cuts.push_back(flat_cut(rad(facing), base));
        if (shape == HandCut::Shape::round) cuts.push_back(round_cut(rad(facing), base + radius, radius));
    }
    return cuts;
}

}  // namespace

TEST_CASE("the outline is the brute-force intersection of the cuts, to a millionth of a mm") {
    const unsigned seed = GENERATE(1u, 2u, 3u);
    std::mt19937 random(seed);
    INFO("seed " << seed);
    for (const auto shape : {HandCut::Shape::swept_arc, HandCut::Shape::flat, HandCut::Shape::round}) {
        for (int i = 0; i < 12; ++i) {
            const double base = 6.0, blank = std::uniform_real_distribution<>(6.3, 9.0)(random);
            const auto cuts = random_cuts(shape, base, random);
            const auto outline = outline_of(cuts, blank);
            REQUIRE(outline.has_value());
            for (int k = 0; k < trials(200); ++k) {
                const double direction = std::uniform_real_distribution<>(-7.0, 7.0)(random);
                const double walked = radius_by_walking(cuts, blank, direction);
                INFO("shape " << static_cast<int>(shape) << ", " << cuts.size() << " cuts, direction "
                              << direction);
                REQUIRE(std::abs(outline_radius(*outline, rad(direction)) - walked) < 1e-6);
            }
        }
    }
}

TEST_CASE("the outline's pieces join and go once round") {
    std::mt19937 random(11);
    for (const auto shape : {HandCut::Shape::swept_arc, HandCut::Shape::flat, HandCut::Shape::round}) {
        const Outline outline = *outline_of(random_cuts(shape, 6.0, random), 8.5);
        for (std::size_t i = 0; i < outline.size(); ++i) {
            const bool last = i + 1 == outline.size();
            const OutlinePiece& next = outline[last ? 0 : i + 1];
            CHECK_NEAR(length(outline[i].end - next.start), 0.0, 1e-12);
            CHECK_NEAR(outline[i].to.radians(), next.from.radians() + (last ? full_turn : 0.0), 1e-12);
        }
    }
}

TEST_CASE("a blank that no cut reaches stays round") {
    const Outline outline = *outline_of({flat_cut(rad(1.0), 9.0)}, 8.5);
    REQUIRE(outline.size() == 1);
    CHECK_NEAR(outline_radius(outline, rad(2.0)), 8.5, 1e-15);
    CHECK_NEAR(first_touch(outline, rad(2.0), std::nullopt), 8.5, 1e-15);
    CHECK_NEAR(first_touch(outline, rad(2.0), 5.0), 13.5, 1e-15);
    CHECK_NEAR(farthest_from(outline, {-19.0, 0.0}), 27.5, 1e-15);
}

TEST_CASE("round cuts too far apart to meet within the blank are refused") {
    // A cutter of 2 mm between two places 30 degrees apart leaves a wall that overhangs.
    CHECK_FALSE(outline_of({round_cut(rad(0.0), 7.0, 1.0), round_cut(rad(0.52), 7.0, 1.0)}, 8.5).has_value());
}

TEST_CASE("the way out along a normal is where the point stops being left") {
    std::mt19937 random(5);
    const auto number = [&](double low, double high) {
        return std::uniform_real_distribution<>(low, high)(random);
    };
    for (int i = 0; i < 300; ++i) {
        const std::vector<HandCut> cuts = {swept_cut(rad(number(-3, 3)), 19, 25),
                                           flat_cut(rad(number(-3, 3)), 6),
                                           round_cut(rad(number(-3, 3)), 11, 5)};
        for (const HandCut& cut : cuts) {
            const Vec2 normal = unit_towards(cut.facing + rad(number(-0.3, 0.3)));
            const Vec2 point = 5.5 * unit_towards(cut.facing + rad(number(-0.2, 0.2)));
            const double exit = exit_along(cut, point, normal);
            if (!std::isfinite(exit)) continue;
            CHECK(leaves(cut, point + (exit - 1e-9) * normal));
            CHECK_FALSE(leaves(cut, point + (exit + 1e-9) * normal));
        }
    }
}

TEST_CASE("where the tool first meets metal is where a fine search finds it") {
    std::mt19937 random(9);
    for (const auto shape : {HandCut::Shape::swept_arc, HandCut::Shape::flat, HandCut::Shape::round}) {
        for (int i = 0; i < 10; ++i) {
            const auto cuts = random_cuts(shape, 6.0, random);
            const Outline outline = *outline_of(cuts, 8.5);
            const HandCut next{shape, rad(0.3 * i), cuts.front().distance, cuts.front().radius};
            const Vec2 u = unit_towards(next.facing);
            double found = 0.0;
            for (int k = 0; k < 40000; ++k) {
                const double direction = full_turn * k / 40000;
                const Vec2 point = outline_radius(outline, rad(direction)) * unit(direction);
                const double across = cross(point, u);
                if (shape == HandCut::Shape::swept_arc)
                    found = std::max(found, length(point - next.centre()));
                if (shape == HandCut::Shape::flat) found = std::max(found, dot(point, u));
                if (shape == HandCut::Shape::round && std::abs(across) < next.radius)
                    found = std::max(found,
                                     dot(point, u) + std::sqrt(next.radius * next.radius - across * across));
            }
            const double told = shape == HandCut::Shape::swept_arc ? farthest_from(outline, next.centre())
                                : shape == HandCut::Shape::flat
                                    ? first_touch(outline, next.facing, std::nullopt)
                                    : first_touch(outline, next.facing, next.radius);
            CHECK_NEAR(told, found, 3e-4);
            CHECK(told >= found - 1e-9);
        }
    }
}

TEST_CASE("a filed nose takes the outline down to its arc and tangents, and nowhere adds metal") {
    const double b = 6, lift = 2.4, e = 19, a = std::numbers::pi / 3, n = 2.383098591549296;
    const double centre = b + lift - n;
    const FiledNose nose{rad(0.4), centre, n, rad(std::atan2(e * std::sin(a), centre + e * std::cos(a)))};
    const Outline cut = *outline_of(
        {swept_cut(rad(0.4 - a), e, b + e), swept_cut(rad(0.4 + a), e, b + e), swept_cut(rad(3.5), e, b + e)},
        8.5);
    const Outline done = filed(cut, nose);
    for (int k = 0; k < 720; ++k) {
        const ShaftAngle direction = rad(full_turn * k / 720);
        const double allowed = std::min(outline_radius(cut, direction), radius_under_file(nose, direction));
        CHECK_NEAR(outline_radius(done, direction), allowed, 1e-9);
    }
    CHECK_NEAR(outline_radius(done, rad(0.4)), b + lift, 1e-12);
    for (std::size_t i = 0; i + 1 < done.size(); ++i)
        CHECK_NEAR(length(done[i].end - done[i + 1].start), 0.0, 1e-9);
    CHECK_NEAR(length(done.back().end - done.front().start), 0.0, 1e-9);
}

TEST_CASE("the way out through a filed nose is its arc in front of it and its tangents beside it") {
    const FiledNose nose{rad(0.0), 6.0, 2.0, rad(1.0)};
    CHECK_NEAR(exit_along(nose, {7.0, 0.0}, {1.0, 0.0}), 1.0, 1e-12);
    CHECK_NEAR(exit_along(nose, {9.0, 0.0}, {1.0, 0.0}), -1.0, 1e-12);
    const Vec2 normal = unit(1.0), along = quarter_turn(normal);
    const Vec2 on_tangent = Vec2{6.0, 0.0} + 2.0 * normal + 3.0 * along;
    CHECK_NEAR(exit_along(nose, on_tangent - 0.5 * normal, normal), 0.5, 1e-12);
}
