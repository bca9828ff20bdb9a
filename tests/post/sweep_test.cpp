#include "sweep.h"

#include "catch.h"
#include "wheel_body.h"

#include <numbers>
#include <random>

using namespace lobewright;

namespace {

constexpr double degree = std::numbers::pi / 180.0;

sweep::Body end_mill(double radius, double corner, double side) {
    sweep::Body body;
    body.shape = sweep::Body::Shape::end;
    body.radius = radius;
    body.corner = corner;
    body.side = side;
    body.facing_per_degree = -degree;
    return body;
}

sweep::Body lying(double radius, double half_length) {
    sweep::Body body;
    body.shape = sweep::Body::Shape::lying;
    body.radius = radius;
    body.half_length = half_length;
    body.facing_per_degree = degree;
    return body;
}

/// A turn and a bit at a radial word that wanders by up to a tenth, in uneven blocks.
std::vector<sweep::Position> wandering(double radial, std::mt19937& random) {
    std::vector<sweep::Position> positions = {{radial + 10.0, 0.0, 0.0, true}};
    positions.push_back({radial, 0.0, 0.0, false});
    std::uniform_real_distribution<double> turn(0.3, 9.0);
    std::uniform_real_distribution<double> off(0.0, 0.1 * radial);
    while (positions.back().rotary < 370.0) {
        positions.push_back({radial + off(random), 0.0, positions.back().rotary + turn(random), false});
    }
    return positions;
}

/// The least over a hundred times as many samples, and no cleverness.
double dense(const std::vector<sweep::Position>& positions, const sweep::Body& body, double z, double blank,
             double phi) {
    double best = blank;
    for (std::size_t i = 1; i < positions.size(); ++i) {
        const sweep::Position& a = positions[i - 1];
        const sweep::Position& b = positions[i];
        constexpr int steps = 2000;
        for (int k = 0; k < steps; ++k) {
            const auto between = [&](double p, double q) { return p + (q - p) * k / steps; };
            const sweep::Position here{between(a.radial, b.radial), 0.0, between(a.rotary, b.rotary), false};
            best = std::min(best, sweep::Slab({here, here}, body, z, blank).radius_on(phi));
        }
    }
    return best;
}

}  // namespace

TEST_CASE("a cutter at one distance all round leaves a circle, whichever its shape") {
    const std::vector<sweep::Position> positions = {
        {40.0, 0.0, 0.0, true}, {20.0, 0.0, 0.0}, {20.0, 0.0, 365.0}};
    const auto leaves = [&](const sweep::Body& body, double z, double radius) {
        const sweep::Slab slab(positions, body, z, radius + 3.0);
        for (int i = 0; i < 90; ++i)
            CHECK_NEAR(slab.radius_on(4.0 * i * degree), radius, 1e-9);
    };
    leaves(wheel_body(13.0), 1.0, 7.0);
    leaves(end_mill(5.0, 0.0, 0.0), 0.0, 20.0);
    leaves(end_mill(5.0, 1.0, 2.0), 0.0, 20.0);
    leaves(end_mill(5.0, 5.0, 0.0), 3.0, 21.0);  // a ball, off its axis by 3: 5 - 4 higher
    leaves(lying(6.0, 4.0), 0.0, 20.0);
}

TEST_CASE("facets stand proud between their middles by r / cos(d/2) - r") {
    std::vector<sweep::Position> positions;
    for (int i = 0; i < 36; ++i) {
        positions.push_back({30.0, 0.0, 10.0 * i, true});
        positions.push_back({20.0, 0.0, 10.0 * i, false});
    }
    const sweep::Slab slab(positions, end_mill(5.0, 0.0, 0.0), 0.0, 22.0);
    CHECK_NEAR(slab.radius_on(5.0 * degree), 20.0 / std::cos(5.0 * degree), 5e-5);
}

TEST_CASE("the sweep's radius on a ray is within 0.05 um of dense samples") {
    std::mt19937 random(20260729);
    const std::vector<std::pair<sweep::Body, double>> bodies = {
        {wheel_body(4.0), 0.0},         {wheel_body(16.0), 0.0},        {end_mill(5.0, 0.0, 0.0), 0.0},
        {end_mill(5.0, 0.5, 3.0), 0.0}, {end_mill(3.0, 3.0, 0.0), 1.0}, {end_mill(5.0, 1.0, 1.0), 2.0},
        {lying(8.0, 10.0), 0.0}};
    std::uniform_real_distribution<double> angle(0.0, 360.0);
    for (const auto& [body, z] : bodies) {
        const double radial = 10.0 - body.tip_from_word;
        const auto positions = wandering(radial, random);
        const sweep::Slab slab(positions, body, z, 14.0);
        for (int i = 0; i < 3; ++i) {
            const double phi = angle(random) * degree;
            const double wanted = dense(positions, body, z, 14.0, phi);
            CAPTURE(static_cast<int>(body.shape), body.radius, body.corner, z, phi);
            CHECK(slab.radius_on(phi) <= wanted + 1e-9);
            CHECK(slab.radius_on(phi) >= wanted - 5e-5);
        }
    }
}

TEST_CASE("the sweep tells a rapid that goes through stock from one that leaves it") {
    const sweep::Body body = wheel_body(10.0);
    std::vector<sweep::Position> positions = {{40.0, 0.0, 0.0, true}, {16.0, 0.0, 0.0}, {16.0, 0.0, 370.0}};
    positions.push_back({40.0, 0.0, 370.0, true});
    CHECK(sweep::rapids_in_stock(positions, body, 8.0, {0.0}) == 0);
    positions.push_back({15.9, 0.0, 370.0, true});  // into what is left, and out of it again
    positions.push_back({40.0, 0.0, 370.0, true});
    CHECK(sweep::rapids_in_stock(positions, body, 8.0, {0.0}) == 2);
    positions.push_back({40.0, 10.0, 370.0, true});
    positions.push_back({16.5, 10.0, 370.0, true});  // where nothing was cut before
    CHECK(sweep::rapids_in_stock(positions, body, 8.0, {0.0}) == 2);
    CHECK(sweep::rapids_in_stock(positions, body, 8.0, {0.0, 9.0}) == 3);
}
