#include "inspect/correction/lowered_contour.h"

#include "basalt.h"

#include <cmath>
#include <numbers>
#include <random>

using namespace lobewright;
using inspection::lowered;
using inspection::Lowering;

namespace {

/// Some hundredths of a millimetre at a radius of 12 mm.
Lowering random_lowering(unsigned seed) {
    std::mt19937 random(seed);
    std::vector<double> rises;
    for (int i = 0; i < 180; ++i) {
        const double part = static_cast<double>(random()) / 4294967295.0;
        rises.push_back(i < 60 ? 0.0 : i < 100 ? 1e-4 : 1e-4 + 2e-5 * part);
    }
    return Lowering(rises);
}

}  // namespace

TEST_CASE("a lowering lies between its coefficients, and its slope and bend are its derivatives") {
    constexpr unsigned seed = 6;
    INFO("seed " << seed);
    const Lowering lowering = random_lowering(seed);
    constexpr double h = 1e-4;
    for (int i = 0; i < 1000; ++i) {
        const double beta = -std::numbers::pi + 0.0063 * i + 0.0001;
        const auto here = lowering.at(beta), before = lowering.at(beta - h), after = lowering.at(beta + h);
        REQUIRE(here.value >= 0.0);
        REQUIRE(here.value <= 1.2e-4);
        REQUIRE_THAT(here.slope, Near((after.value - before.value) / (2.0 * h), 1e-6));
        REQUIRE_THAT(here.bend, Near((after.slope - before.slope) / (2.0 * h), 1e-3));
    }
    CHECK_THAT(lowering.at(-std::numbers::pi).value, Near(lowering.at(std::numbers::pi).value, 1e-15));
}

TEST_CASE("a lowered contour has the radius that it should, and its normal and curvature are its own") {
    constexpr unsigned seed = 7;
    INFO("seed " << seed);
    const Lowering lowering = random_lowering(seed);
    const std::vector<SolvedLobe> lobes{
        basalt::solved(basalt::arcs_with_flank(12.0, 5.0, 120.0, 40.0), basalt::flat(30.0)),
        basalt::solved(basalt::arcs_with_flank(12.0, 5.0, 120.0, straight_flank), basalt::roller(8.0)),
        basalt::solved(basalt::lopsided(12.0), basalt::roller(4.0), Sense::cw)};
    for (const SolvedLobe& lobe : lobes) {
        const Contour aim = lowered(lobe.contour, lowering);
        CHECK(aim.pieces().size() > lobe.contour.pieces().size() + 80);
        for (int i = 0; i < 360; ++i) {
            const ShaftAngle beta = ShaftAngle::from_degrees(i - 180 + 0.3);
            const double wanted =
                1.0 / (1.0 / lobe.contour.polar_radius(beta) + lowering.at(beta.radians()).value);
            REQUIRE_THAT(aim.polar_radius(beta), Near(wanted, 1e-12));
        }
        double turned = 0.0;
        for (const ContourPiece& piece : aim.pieces()) {
            const double t = piece.start + 0.37 * (piece.end - piece.start);
            const double h = std::min(1e-4, 0.01 * (piece.end - piece.start));
            const ContourPoint here = piece.at(t), before = piece.at(t - h), after = piece.at(t + h);
            const Vec2 way = after.point - before.point;
            REQUIRE_THAT(length(way) / (2.0 * h), Near(here.speed, 1e-5 * here.speed));
            REQUIRE_THAT(dot(way, here.normal) / length(way), Near(0.0, 1e-6));
            const double turn = angle_between(before.normal, after.normal);
            REQUIRE_THAT(turn / length(way), Near(here.curvature, 1e-4));
            turned += angle_between(piece.at(piece.start).normal, piece.at(piece.end).normal);
        }
        CHECK_THAT(turned, Near(full_turn, 1e-6));
    }
}

TEST_CASE(
    "where nothing is taken off the contour is the design's, and a base circle lowered alike stays one") {
    const SolvedLobe lobe =
        basalt::solved(basalt::arcs_with_flank(12.0, 5.0, 120.0, 40.0), basalt::flat(30.0));
    const Contour same = lowered(lobe.contour, Lowering(std::vector<double>(180, 0.0)));
    CHECK(same.pieces().size() == lobe.contour.pieces().size());
    for (const ContourPiece& piece : same.pieces())
        CHECK(piece.circular);
    const double rise = 1.0 / 11.99 - 1.0 / 12.0;
    const Contour smaller = lowered(lobe.contour, Lowering(std::vector<double>(180, rise)));
    int circles = 0;
    for (const ContourPiece& piece : smaller.pieces()) {
        if (!piece.circular) continue;
        ++circles;
        CHECK_THAT(length(piece.at(piece.start).point), Near(11.99, 1e-12));
        CHECK_THAT(piece.at(piece.end).curvature, Near(1.0 / 11.99, 1e-12));
    }
    CHECK(circles == 1);
}
