#include "inspect/probe/contour_probe.h"

#include "basalt.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace lobewright;
using inspection::ContourProbe;
using inspection::ProbeTouch;

namespace {

Probe anvil() {
    return {};
}
Probe ball(double radius) {
    return {ProbeKind::ball, radius, {}};
}
Probe edge() {
    return {ProbeKind::knife, 0.0, {}};
}

double degrees(double angle) {
    return angle * std::numbers::pi / 180.0;
}

/// The largest height over points of the contour that lie close together: never above the true one.
double sampled(const Contour& contour, double base, const Probe& probe, double beta) {
    const Vec2 ray = unit(beta);
    double highest = 0.0;
    for (const ContourPiece& piece : contour.pieces()) {
        constexpr int parts = 4000;
        for (int i = 0; i <= parts; ++i) {
            const Vec2 point = piece.at(piece.start + (piece.end - piece.start) * i / parts).point;
            const double along = dot(point, ray), across = cross(point, ray);
            if (probe.kind == ProbeKind::flat)
                highest = std::max(highest, along);
            else if (probe.radius > 0.0 && std::abs(across) <= probe.radius)
                highest = std::max(highest, along + std::sqrt(probe.radius * probe.radius - across * across));
        }
    }
    return highest - base - probe.radius;
}

ContourPiece side(Vec2 from, Vec2 to) {
    ContourPiece piece;
    const Vec2 along = (to - from) / length(to - from);
    piece.end = length(to - from);
    piece.circular = true;
    piece.at = [=](double t) { return ContourPoint{from + t * along, -quarter_turn(along), 0.0, 1.0}; };
    return piece;
}

/// A square bar, 2 a across its flats.
Contour square(double a) {
    return Contour(
        {side({a, -a}, {a, a}), side({a, a}, {-a, a}), side({-a, a}, {-a, -a}), side({-a, -a}, {a, -a})},
        ContourExtremes{});
}

}  // namespace

TEST_CASE("a probe of the follower's own shape reads the follower's lift") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        const std::vector<std::pair<SolvedLobe, Probe>> pairs{
            {basalt::solved(basalt::lopsided(), basalt::flat(60.0), turns), anvil()},
            {basalt::solved(basalt::lopsided(20.0), basalt::roller(5.0), turns), ball(5.0)},
            {basalt::solved(basalt::lopsided(20.0), basalt::domed(80.0), turns), ball(80.0)},
            {basalt::solved(basalt::lopsided(20.0), basalt::knife(), turns), edge()},
            {basalt::solved(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat(), turns), anvil()},
            {basalt::solved(basalt::arcs_with_flank(12.0, 5.0, 120.0, straight_flank), basalt::roller(8.0),
                            turns),
             ball(8.0)},
            {basalt::solved(basalt::arcs_with_flank(12.0, 5.0, 120.0, -40.0), basalt::roller(8.0), turns),
             ball(8.0)}};
        for (const auto& [lobe, probe] : pairs) {
            const ContourProbe on(lobe.contour, lobe.base_radius, probe);
            double worst = 0.0, steepest = 0.0;
            for (int i = 0; i < 1440; ++i) {
                const CamAngle angle = CamAngle::from_degrees(-180.0 + 0.25 * i + 0.013);
                const ProbeTouch touch = on.touch(-sign_of(turns) * angle.radians());
                const Lift lift = lobe.motion.at(angle);
                worst = std::max(worst, std::abs(touch.height - lift.lift));
                steepest = std::max(steepest, std::abs(touch.slope + sign_of(turns) * lift.velocity));
            }
            INFO(static_cast<int>(probe.kind) << ' ' << probe.radius);
            CHECK(worst < 1e-11);
            CHECK(steepest < 1e-9);
        }
    }
}

TEST_CASE("a probe reads what points of the contour close together say, also over a hollow that it bridges") {
    const std::vector<SolvedLobe> lobes{
        basalt::solved(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat()),
        basalt::solved(basalt::arcs_with_flank(12.0, 5.0, 120.0, -40.0), basalt::roller(8.0)),
        basalt::solved(basalt::lopsided(20.0), basalt::roller(4.0), Sense::cw)};
    for (const SolvedLobe& lobe : lobes) {
        for (const Probe& probe : {anvil(), ball(1.5), ball(12.0), ball(60.0)}) {
            const ContourProbe on(lobe.contour, lobe.base_radius, probe);
            double below = 0.0, above = 0.0;
            for (int i = 0; i < 30; ++i) {
                const double beta = degrees(12.0 * i + 0.7);
                const double off = on.height(beta) - sampled(lobe.contour, lobe.base_radius, probe, beta);
                below = std::min(below, off), above = std::max(above, off);
            }
            INFO(lobe.base_radius << ' ' << probe.radius);
            CHECK(below > -1e-12);
            CHECK(above < 6e-5);  // what a ball may sink between points 0.03 mm apart
        }
    }
}

TEST_CASE("on a square bar anvil, ball and knife read its flats and corners by closed forms") {
    const double a = 5.0, r = 1.0;
    const Contour bar = square(a);
    const ContourProbe flat(bar, a, anvil()), round(bar, a, ball(r)), sharp(bar, a, edge());
    for (int i = -180; i <= 180; ++i) {
        const double beta = degrees(i);
        const double c = std::abs(std::cos(beta)), s = std::abs(std::sin(beta));
        const double high = std::max(c, s), low = std::min(c, s);
        CHECK_THAT(flat.height(beta), Near(a * (c + s) - a, 1e-12));
        CHECK_THAT(sharp.height(beta), Near(a / high - a, 1e-12));
        // The ball's centre lies (a + r) / cos out while it touches the flat; then it rolls round the corner.
        const double centre = (a + r) / high;
        const double along = a * (high + low), across = a * (high - low);
        const double wanted = centre * low <= a ? centre : along + std::sqrt(r * r - across * across);
        CHECK_THAT(round.height(beta), Near(wanted - a - r, 1e-12));
    }
}

TEST_CASE("slope and growth are the reading's derivatives by the angle and by metal along the normal") {
    const SolvedLobe lobe = basalt::solved(basalt::lopsided(20.0), basalt::roller(4.0));
    for (const double radius : {0.8, 5.0}) {
        const ContourProbe on(lobe.contour, lobe.base_radius, ball(radius));
        constexpr double h = 1e-5;
        // A lobe thicker by h under a ball of radius r is the lobe under one of r + h.
        const ContourProbe thicker(lobe.contour, lobe.base_radius, ball(radius + h));
        const ContourProbe thinner(lobe.contour, lobe.base_radius, ball(radius - h));
        for (int i = 0; i < 72; ++i) {
            const double beta = degrees(5.0 * i + 0.3);
            const ProbeTouch touch = on.touch(beta);
            const double slope = (on.height(beta + h) - on.height(beta - h)) / (2.0 * h);
            const double growth = (thicker.height(beta) - thinner.height(beta)) / (2.0 * h) + 1.0;
            CHECK_THAT(touch.slope, Near(slope, 1e-6));
            CHECK_THAT(touch.growth, Near(growth, 1e-6));
        }
    }
}

TEST_CASE("random lobes read the same in either sense, mirrored") {
    constexpr unsigned seed = 20261;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const auto part = [](auto& source) { return static_cast<double>(source()) / 4294967295.0; };
    for (int i = 0; i < 20; ++i) {
        const auto profile = basalt::lopsided(10.0 + 8.0 * part(random), 1.5 + 2.0 * part(random));
        const SolvedLobe ccw = basalt::solved(profile, basalt::roller(5.0), Sense::ccw);
        const SolvedLobe cw = basalt::solved(profile, basalt::roller(5.0), Sense::cw);
        const Probe probe = ball(0.5 + 10.0 * part(random));
        const ContourProbe one(ccw.contour, ccw.base_radius, probe);
        const ContourProbe other(cw.contour, cw.base_radius, probe);
        const double beta = degrees(360.0 * part(random));
        CHECK_THAT(one.height(beta), Near(other.height(-beta), 1e-11));
    }
}
