#include "random_lobe.h"

#include <lobewright/contour.h>

#include <random>

using namespace lobewright;

namespace {

constexpr double pi = std::numbers::pi;

/// x = a cos t, y = b sin t: its curvature's radius is b²/a at the ends of x and a²/b at those of y.
Contour ellipse(double a, double b) {
    const auto at = [=](double t) {
        const Vec2 tangent{-a * std::sin(t), b * std::cos(t)};
        const double speed = length(tangent);
        return ContourPoint{{a * std::cos(t), b * std::sin(t)},
                            -quarter_turn(tangent) / speed,
                            a * b / (speed * speed * speed),
                            speed};
    };
    return Contour({{"half", -1.0, -1.0 + pi, at}, {"other half", -1.0 + pi, -1.0 + 2.0 * pi, at}},
                   {std::max(a, b), std::min(a * a / b, b * b / a)});
}

}  // namespace

TEST_CASE("every ray finds an ellipse's own radius, round the seam and over many turns") {
    const Contour contour = ellipse(20.0, 11.0);
    std::mt19937 random(20261125);
    INFO("seed 20261125");
    for (int i = 0; i < 2000; ++i) {
        const double beta = 40.0 * (static_cast<double>(random()) / 4294967295.0 - 0.5);
        const double c = std::cos(beta) / 20.0, s = std::sin(beta) / 11.0;
        CHECK_NEAR(contour.polar_radius(ShaftAngle::from_radians(beta)), 1.0 / std::sqrt(c * c + s * s),
                   1e-13);
        const Contour::RayPoint spot = contour.on_ray(ShaftAngle::from_radians(beta));
        CHECK(std::abs(cross(unit(beta), spot.at.point)) < 5e-14);
        CHECK(dot(unit(beta), spot.at.point) > 0.0);
    }
}

TEST_CASE("a ray meets its point to the precision that the contour claims") {
    random_lobe::Source random(31);
    for (int number = 0; number < 45; ++number) {
        const auto job = random_lobe::draw(random, number);
        if (!job) continue;
        const Contour contour = solve_lobes(*job)->front().contour;
        for (int i = 0; i < 40; ++i) {
            const double beta = random.between(-pi, pi);
            const Vec2 point = contour.on_ray(ShaftAngle::from_radians(beta)).at.point;
            CHECK(std::abs(cross(unit(beta), point)) <= Contour::ray_precision * length(point));
        }
    }
}

TEST_CASE("a chain of arcs reaches as far as where one of their centres stands behind the arc") {
    // An arc of 5 mm about (3, 4) faces the axis from everywhere; only where it holds its own
    // direction, 53.13 degrees, does it reach to 10 mm. Elsewhere an end is farthest: P = C + 5 N.
    const double top = std::atan2(4.0, 3.0);
    const auto chain = [](double from, double to) {
        return Contour({{"arc", from, to,
                         [](double t) {
                             return ContourPoint{Vec2{3.0, 4.0} + 5.0 * unit(t), unit(t), 0.2, 5.0};
                         },
                         true}});
    };
    CHECK_RELATIVE(chain(top - 0.1, top + 0.1).largest_radius(), 10.0, 1e-15);
    CHECK_RELATIVE(chain(top - 2.0 * pi - 1.0, top - 2.0 * pi + 0.1).largest_radius(), 10.0, 1e-15);
    CHECK_RELATIVE(chain(top + 0.1, top + 2.0).largest_radius(), 10.0 * std::cos(0.05), 1e-14);
    CHECK_RELATIVE(chain(top - 2.0, top - 0.3).largest_radius(), 10.0 * std::cos(0.15), 1e-14);
}

// Mabie (published exercise, no printed answer): harmonic out and back in one turn makes a flat follower's
// cam a circle.
TEST_CASE("harmonic motion all round makes a flat follower's contour an offset circle") {
    const MotionProfile profile = basalt::law(LawKind::simple_harmonic, 25.0, 50.0, 180.0, 180.0);
    const SolvedLobe lobe = basalt::solved(profile, basalt::flat());
    for (int i = 0; i < 360; ++i) {
        const Contour::RayPoint spot = lobe.contour.on_ray(ShaftAngle::from_degrees(i));
        CHECK_NEAR(length(spot.at.point - Vec2{25.0, 0.0}), 50.0, 1e-12);
        CHECK_NEAR(1.0 / spot.at.curvature, 50.0, 1e-11);
    }
    CHECK_RELATIVE(lobe.contour.largest_radius(), 75.0, 1e-14);
    CHECK_RELATIVE(lobe.contour.smallest_convex_radius(), 50.0, 1e-14);
    CHECK(std::isinf(lobe.contour.smallest_hollow_radius()));
}

// Rattan (inputs from memory): cycloidal 25 mm in 120 degrees on a base of 25; ρ = h + h''.
TEST_CASE(
    "the smallest radius of curvature under a flat follower is base radius and the law's least s + s''") {
    const SolvedLobe lobe =
        basalt::solved(basalt::law(LawKind::cycloidal, 25.0, 25.0, 120.0, 120.0), basalt::flat());
    CHECK_NEAR(lobe.contour.smallest_convex_radius(), 11.670006, 5.1e-7);
}

TEST_CASE("a contour's point, normal, curvature and speed belong together") {
    for (const Follower& follower : {basalt::flat(), basalt::roller(5.0, 3.0), basalt::domed(60.0),
                                     basalt::knife(-2.0), basalt::pivoted(8.0, 40.0, 35.0, Sense::cw)}) {
        const SolvedLobe lobe = basalt::solved(basalt::lopsided(20.0), follower);
        for (const ContourPiece& piece : lobe.contour.pieces()) {
            for (int i = 1; i < 20; ++i) {
                const double t = piece.start + (piece.end - piece.start) * i / 20.0, h = 1e-5;
                const ContourPoint here = piece.at(t), before = piece.at(t - h), after = piece.at(t + h);
                const Vec2 step = (after.point - before.point) / (2.0 * h);
                CHECK_NEAR(length(here.normal), 1.0, 1e-14);
                CHECK_NEAR(length(step - here.speed * quarter_turn(here.normal)), 0.0,
                           1e-5 * (1.0 + here.speed));
                const Vec2 turn = (after.normal - before.normal) / (2.0 * h);
                CHECK_NEAR(length(turn - here.curvature * here.speed * quarter_turn(here.normal)), 0.0, 1e-4);
            }
        }
    }
}

TEST_CASE("a motion's contour closes, and stands still as an arc where the follower does") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        MotionProfile profile = basalt::lopsided(20.0);
        profile.dwell_angle = basalt::cam_degrees(5.0);
        const SolvedLobe lobe = basalt::solved(profile, basalt::roller(5.0), turns);
        const auto& pieces = lobe.contour.pieces();
        int arcs = 0;
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            const auto& next = pieces[(i + 1) % pieces.size()];
            CHECK_NEAR(length(pieces[i].at(pieces[i].end).point - next.at(next.start).point), 0.0, 1e-12);
            if (!pieces[i].circular) continue;
            ++arcs;
            CHECK((pieces[i].name == "base circle" || pieces[i].name == "dwell"));
            const double radius = pieces[i].name == "dwell" ? 22.4 : 20.0;
            CHECK_NEAR(length(pieces[i].at(0.3 * pieces[i].start + 0.7 * pieces[i].end).point), radius,
                       1e-12);
            CHECK_NEAR(pieces[i].at(pieces[i].start).curvature, 1.0 / radius, 1e-14);
        }
        CHECK(arcs == 2);
    }
}

TEST_CASE("a ring repeats its lobe in equal parts of a turn") {
    basalt::Job job =
        basalt::job(basalt::law(LawKind::polynomial_345, 40.0, 4.0, 30.0, 25.0), basalt::roller(8.0));
    job.lobes.front().repeat = 4;
    const SolvedLobe lobe = basalt::solved(job);
    for (int i = 0; i < 100; ++i) {
        const double beta = 2.0 * pi * i / 100.0;
        CHECK_NEAR(lobe.contour.polar_radius(ShaftAngle::from_radians(beta + 0.5 * pi)),
                   lobe.contour.polar_radius(ShaftAngle::from_radians(beta)), 1e-12);
    }
    const SolvedLobe arcs = [&] {
        basalt::Job ring = basalt::job(basalt::arcs_with_nose(40.0, 4.0, 72.0, 10.0), basalt::roller(8.0));
        ring.lobes.front().repeat = 5;
        return basalt::solved(ring);
    }();
    CHECK_NEAR(arcs.contour.polar_radius(ShaftAngle::from_radians(2.0 * pi / 5.0)), 44.0, 1e-12);
    CHECK_NEAR(arcs.contour.polar_radius(ShaftAngle::from_radians(pi / 5.0)), 40.0, 1e-12);
}
