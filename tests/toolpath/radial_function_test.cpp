#include "toolpath/section/radial_function.h"

#include "basalt.h"
#include "by_definition.h"
#include "catch.h"
#include "contours.h"

#include <algorithm>
#include <limits>
#include <vector>

using namespace lobewright;
using namespace lobewright::toolpath;
using contours::angle_of;

namespace {

/// X by the rule itself: the section goes out until none of the contour's points is inside it. Chords between
/// neighbouring points count where they pass the section's side.
double touching(const std::vector<Vec2>& points, const PlaneSection& s, double facing) {
    const Vec2 u = unit(facing), v = quarter_turn(u);
    double least = -std::numeric_limits<double>::infinity();
    const auto over = [&](Vec2 p) { return std::abs(dot(p, v) - s.shift) - s.half_flat; };
    Vec2 before = points.back();
    for (const Vec2 p : points) {
        const double here = over(p), there = over(before);
        if ((here > s.corner) != (there > s.corner)) {
            const Vec2 at_side = p + (before - p) * ((s.corner - here) / (there - here));
            least = std::max(least, dot(at_side, u) - s.corner);
        }
        before = p;
        if (here > s.corner) continue;
        const double height = here <= 0.0 ? 0.0 : s.corner - std::sqrt(s.corner * s.corner - here * here);
        least = std::max(least, dot(p, u) - height);
    }
    return least;
}

struct Case {
    const char* why;
    PlaneSection section;
    double left_on;
};

const Case cases[] = {
    {"side of a disc", {0.0, 16.0, 0.0, 16.0, true}, 0.0},
    {"side of a large wheel, leaving stock", {0.0, 200.0, 0.0, 0.0, true}, 0.3},
    {"square end wide enough", {5.0, 0.0, 0.0, 0.0, true}, 0.0},
    {"square end whose corner rides", {2.0, 0.0, 0.0, 0.0, true}, 0.0},
    {"end with a corner radius, riding", {1.5, 1.0, 0.0, 0.0, true}, 0.1},
    {"end shifted sideways", {3.0, 0.5, 2.5, 0.0, true}, 0.0},
    {"ball", {0.0, 3.0, 0.0, 0.0, true}, 0.0},
    {"ball shifted sideways", {0.0, 3.0, -1.0, 0.0, true}, 0.2},
};

}  // namespace

TEST_CASE("the radial function is the least distance at which the section only touches the lobe") {
    const Contour lobes[] = {contours::three_arcs(6.0, 2.4, 60.0 * full_turn / 360.0, 25.0),
                             contours::three_arcs(10.0, 5.0, 65.0 * full_turn / 360.0, 60.0),
                             contours::smooth_bump(8.0, 2.0, 3)};
    for (const Contour& lobe : lobes) {
        for (const Case& c : cases) {
            INFO(c.why);
            const RadialFunction function(contacts(lobe, c.section, c.left_on, {1e-5}));
            const std::vector<Vec2> points = by_definition::points_of(lobe, c.left_on, 20000);
            double worst = 0.0;
            for (double degrees = -180.0; degrees < 180.0; degrees += 3.7) {
                const double facing = degrees * full_turn / 360.0;
                worst = std::max(worst, std::abs(function.at(angle_of(facing)).radial -
                                                 touching(points, c.section, facing)));
            }
            CHECK_NEAR(worst, 0.0, 5e-6);
        }
    }
}

TEST_CASE("slopes and bends of the radial function are those of its own values") {
    const Contour lobe = contours::smooth_bump(8.0, 2.0, 3);
    for (const Case& c : cases) {
        INFO(c.why);
        const std::vector<CutterContact> nodes = contacts(lobe, c.section, c.left_on, {1e-8});
        REQUIRE(nodes.size() > 1000);
        CHECK_NEAR((nodes.back().facing - nodes.front().facing).radians(), full_turn, 1e-9);
        CHECK_NEAR(nodes.back().radial, nodes.front().radial, 1e-12);
        for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
            const CutterContact &a = nodes[i], &b = nodes[i + 1];
            const double h = (b.facing - a.facing).radians();
            if (h < 1e-5 || a.on_corner != b.on_corner) continue;
            CHECK_NEAR((b.radial - a.radial) / h, 0.5 * (a.slope + b.slope), 1e-5);
            CHECK_NEAR((b.slope - a.slope) / h, 0.5 * (a.bend + b.bend), 2e-3);
            CHECK_NEAR((b.lean - a.lean).radians() / h, 0.5 * (a.lean_slope + b.lean_slope), 2e-3);
        }
    }
}

TEST_CASE("the contact runs the whole length of the surface that is left") {
    const Contour lobes[] = {contours::three_arcs(6.0, 2.4, 60.0 * full_turn / 360.0, 25.0),
                             contours::smooth_bump(8.0, 2.0, 3)};
    for (const Contour& lobe : lobes) {
        for (const Case& c : cases) {
            const std::vector<Vec2> points = by_definition::points_of(lobe, c.left_on, 20000);
            double round = 0.0;
            for (std::size_t i = 0; i < points.size(); ++i)
                round += length(points[i] - points[i == 0 ? points.size() - 1 : i - 1]);
            for (const double sag : {1e-4, 1e-6}) {
                INFO(c.why << ", sag " << sag);
                CHECK_NEAR(contacts(lobe, c.section, c.left_on, {sag}).back().arc, round, 2e-4 * round);
            }
        }
    }
}

TEST_CASE("between nodes the function keeps to the spacing's promise") {
    const Contour lobe = contours::three_arcs(6.0, 2.4, 60.0 * full_turn / 360.0, 25.0);
    const PlaneSection section{0.0, 16.0, 0.0, 16.0, true};
    constexpr double sag = 2e-5;
    const std::vector<CutterContact> nodes = contacts(lobe, section, 0.0, {sag});
    for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
        const double h = (nodes[i + 1].facing - nodes[i].facing).radians();
        CHECK(std::abs(nodes[i].bend) * h * h / 8.0 <= 2.0 * sag);
    }
}

TEST_CASE(
    "between nodes the cubic is off by no more than its share of the sag, the most where it bends next to "
    "nothing") {
    const Contour lobes[] = {contours::three_arcs(6.0, 2.4, 60.0 * full_turn / 360.0, 25.0),
                             contours::smooth_bump(8.0, 2.0, 3)};
    for (const Contour& lobe : lobes) {
        for (const Case& c : cases) {
            const RadialFunction exact(contacts(lobe, c.section, c.left_on, {1e-8}));
            for (const double sag : {1e-4, 1e-5}) {
                const RadialFunction function(contacts(lobe, c.section, c.left_on, {sag}));
                double worst = 0.0;
                for (double facing = -3.1; facing < 3.1; facing += 0.00173)
                    worst = std::max(worst, std::abs(function.at(angle_of(facing)).radial -
                                                     exact.at(angle_of(facing)).radial));
                INFO(c.why << ", sag " << sag);
                CHECK(worst <= cubic_share * sag);
            }
        }
    }
}

TEST_CASE("an eccentric circle under a round section is the polar form of a circle") {
    // r(θ) = e cos θ + sqrt(R² - e² sin² θ), the polar form of a circle of radius R about a centre at e.
    const double e = 2.0, circle = 5.0, cutter = 4.0;
    const Contour lobe({contours::arc("circle", {e, 0.0}, circle, -std::numbers::pi, std::numbers::pi)});
    const RadialFunction function(contacts(lobe, {0.0, cutter, 0.0, cutter, true}, 0.0, {1e-7}));
    for (double facing = -3.0; facing < 3.0; facing += 0.01) {
        const double whole = circle + cutter, sine = e * std::sin(facing);
        CHECK_NEAR(function.at(angle_of(facing)).radial,
                   e * std::cos(facing) + std::sqrt(whole * whole - sine * sine) - cutter, 1e-9);
    }
}

TEST_CASE("travel runs the nodes the other way where the facing direction falls") {
    const Contour lobe = contours::smooth_bump(8.0, 2.0, 3);
    const auto nodes = contacts(lobe, {0.0, 3.0, -1.0, 0.0, true}, 0.0, {1e-6});
    const RadialFunction up(along_travel(nodes, angle_of(0.4), 1)),
        down(along_travel(nodes, angle_of(0.4), -1));
    for (double facing = -3.0; facing < 3.0; facing += 0.1) {
        CHECK_NEAR(up.at(angle_of(facing)).radial, down.at(angle_of(-facing)).radial, 1e-9);
        CHECK_NEAR(up.at(angle_of(facing)).slope, -down.at(angle_of(-facing)).slope, 1e-6);
        CHECK_NEAR(up.arc_between(angle_of(facing), angle_of(facing + 0.3)),
                   down.arc_between(angle_of(-facing - 0.3), angle_of(-facing)), 1e-9);
        CHECK_NEAR(up.at(angle_of(facing + 3.0 * full_turn)).radial, up.at(angle_of(facing)).radial, 1e-9);
    }
}

TEST_CASE("the heel is the stretch of least distance") {
    const Contour lobe = contours::three_arcs(6.0, 2.4, 60.0 * full_turn / 360.0, 25.0);
    const RadialFunction function(contacts(lobe, {0.0, 16.0, 0.0, 16.0, true}, 0.0, {1e-5}));
    const Heel heel = widest_heels(function).front();
    CHECK_NEAR(heel.width().degrees(), 240.0, 0.2);
    CHECK_NEAR(function.least(), 6.0, 1e-12);
    CHECK_NEAR(function.greatest(), 8.4, 1e-5);
}

TEST_CASE("a lobe without a dwell has next to no heel, and a plain circle is all heel") {
    const PlaneSection section{0.0, 16.0, 0.0, 16.0, true};
    const RadialFunction bump(contacts(contours::polar_bump(8.0, 1.0, 2, 1), section, 0.0, {1e-5}));
    CHECK(widest_heels(bump).front().width() < angle_of(0.02));
    CHECK_NEAR(bump.at(widest_heels(bump).front().start).radial, bump.least(), 2e-7);
    const Contour circle({contours::arc("circle", {}, 5.0, -std::numbers::pi, std::numbers::pi)});
    const RadialFunction round(contacts(circle, section, 0.0, {1e-5}));
    REQUIRE(heels_of(round).size() == 1);
    CHECK_NEAR(widest_heels(round).front().width().radians(), full_turn, 1e-9);
}

TEST_CASE(
    "bridged over hollows, the radial function is still the least distance at which the section only "
    "touches") {
    // Bumps with hollows between them that the section can't get into: it goes over them from bump to bump.
    for (const int bumps : {3, 4, 5}) {
        const Contour lobe = contours::polar_bump(10.0, 3.0, 2, bumps);
        REQUIRE(lobe.smallest_hollow_radius() < 60.0);
        for (const double radius : {1.3 * lobe.smallest_hollow_radius(), 400.0}) {
            const PlaneSection section{0.0, radius, 0.0, 0.0, true};
            const RadialFunction function(bridged(contacts(lobe, section, 0.0, {1e-6})));
            const std::vector<Vec2> points = by_definition::points_of(lobe, 0.0, 40000);
            double worst = 0.0;
            for (double facing = -3.1; facing < 3.1; facing += 0.0311)
                worst = std::max(worst, std::abs(function.at(angle_of(facing)).radial -
                                                 touching(points, section, facing)));
            INFO(bumps << " bumps under a radius of " << radius);
            CHECK_NEAR(worst, 0.0, 5e-6);
            for (std::size_t i = 0; i + 1 < function.nodes().size(); ++i)
                CHECK(function.nodes()[i + 1].facing >= function.nodes()[i].facing);
        }
    }
}

TEST_CASE("a stretch that ends or begins just where the contact leaps has the slope of its own side there") {
    // A straight flank under a flat that is narrower: the contact leaps from the heel to the flat's end.
    const Contour contour =
        basalt::solved(basalt::arcs_with_flank(12.7, 6.35, 135.0, straight_flank), basalt::roller(10.0))
            .contour;
    const RadialFunction function(
        along_travel(contacts(contour, {6.35, 0.0, 0.0, 0.0, true}, 1.0, {1e-6}), ShaftAngle{}, 1));
    const std::vector<CutterContact>& nodes = function.nodes();
    const ShaftAngle tenth = ShaftAngle::from_degrees(5.0);
    int leaps = 0;
    for (std::size_t first = 0, last = 0; first < nodes.size(); first = last + 1) {
        for (last = first; last + 1 < nodes.size(); ++last)
            if ((nodes[last + 1].facing - nodes[first].facing).radians() > 1e-12) break;
        const CutterContact &before = nodes[first], &after = nodes[last];
        if (after.arc - before.arc < 1.0) continue;
        ++leaps;
        for (const double turns : {0.0, 1.0, 500.0}) {
            const double leap = before.facing.radians() + turns * full_turn;
            for (const double at : {std::nextafter(leap, -1e9), leap, std::nextafter(leap, 1e9)}) {
                INFO("leap " << leaps << ", turn " << turns);
                const ShaftAngle place = ShaftAngle::from_radians(at);
                CHECK_NEAR(function.between(place - tenth, place).back().slope, before.slope, 1e-6);
                CHECK_NEAR(function.between(place, place + tenth).front().slope, after.slope, 1e-6);
            }
        }
    }
    CHECK(leaps == 2);
}
