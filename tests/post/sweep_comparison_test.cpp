#include "catch.h"
#include "sweep.h"
#include "wheel_body.h"

#include <numbers>

using namespace lobewright;

namespace {

constexpr double degree = std::numbers::pi / 180.0;

/// A disc of radius `radius` whose centre lies `eccentricity` from the axis towards the nose.
SolvedLobe eccentric(double radius, double eccentricity, double at_degrees) {
    SolvedLobe lobe;
    lobe.at = ShaftAngle::from_degrees(at_degrees);
    lobe.contour = Contour(
        {{"disc", 0.0, 2.0 * std::numbers::pi,
          [=](double t) {
              return ContourPoint{Vec2{eccentricity, 0.0} + radius * unit(t), unit(t), 1.0 / radius, radius};
          },
          true}});
    return lobe;
}

/// The wheel's centre on the offset of the disc by `gap` more than it should, at every `step` degrees.
std::vector<sweep::Position> round_the_disc(double reach, double eccentricity, double at, double step) {
    std::vector<sweep::Position> positions = {{reach + 20.0, 0.0, 0.0, true}};
    for (double rotary = 0.0; rotary <= 370.0; rotary += step) {
        const double angle = -rotary * degree - at * degree;
        const double side = eccentricity * std::sin(angle);
        positions.push_back(
            {eccentricity * std::cos(angle) + std::sqrt(reach * reach - side * side), 0.0, rotary});
    }
    return positions;
}

}  // namespace

TEST_CASE("a lobe cut too large or too deep is so by as much along the normal") {
    for (const double off : {0.5, 0.003, 0.0, -0.003}) {
        const auto positions = round_the_disc(7.0 + 16.0 + off, 1.5, 40.0, 0.5);
        const sweep::Slab slab(positions, wheel_body(16.0), 1.0, 12.0);
        const sweep::Comparison found = sweep::compare(slab, eccentric(7.0, 1.5, 40.0), 0.0, 180);
        CHECK_NEAR(found.deepest, off, 2e-5);
        CHECK_NEAR(found.proudest, off, 2e-5);
        const sweep::Comparison left = sweep::compare(slab, eccentric(7.0, 1.5, 40.0), off, 180);
        CHECK_NEAR(left.deepest, 0.0, 2e-5);
    }
}

TEST_CASE(
    "the extremes of a comparison lie between its rays too, within 0.05 um of eight times as many rays") {
    const auto positions = round_the_disc(7.0 + 16.0, 1.5, 40.0, 7.0);
    const sweep::Slab slab(positions, wheel_body(16.0), 0.0, 12.0);
    const SolvedLobe lobe = eccentric(7.0, 1.5, 40.0);
    const sweep::Comparison coarse = sweep::compare(slab, lobe, 0.0, 720);
    double deepest = 0.0;
    double proudest = 0.0;
    for (int i = 0; i < 5760; ++i) {
        const double off = sweep::deviation_on(slab, lobe, i * degree / 16.0);
        deepest = std::min(deepest, off);
        proudest = std::max(proudest, off);
    }
    CHECK(deepest < -0.001);  // chords of 7 degrees do cut into the disc
    CHECK(coarse.deepest <= deepest + 1e-9);
    CHECK(coarse.deepest >= deepest - 5e-5);
    CHECK(coarse.proudest >= proudest - 1e-9);
    CHECK(coarse.proudest <= proudest + 5e-5);
}
