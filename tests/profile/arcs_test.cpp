#include "basalt.h"
#include "precise.h"

#include <string>
#include <string_view>

using namespace lobewright;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double per_degree = pi / 180.0;

const MotionPiece& piece(const SolvedLobe& lobe, std::string_view name) {
    for (const MotionPiece& candidate : lobe.motion.pieces())
        if (candidate.name == name) return candidate;
    FAIL("no piece " << name);
    return lobe.motion.pieces().front();
}

/// Opening flank and nose of a symmetrical lobe as the textbooks count: from the start of lift, degrees.
struct Textbook {
    double phi;                         ///< where flank and nose meet
    double start, before, after, apex;  ///< accelerations, mm/rad²
    double fastest;                     ///< velocity at the joint, mm/rad
};
Textbook textbook(const SolvedLobe& lobe) {
    const MotionPiece& flank = piece(lobe, "opening flank");
    const MotionPiece& nose = piece(lobe, "nose");
    return {(flank.end - flank.start) / per_degree,
            flank.at(flank.start).acceleration,
            flank.at(flank.end).acceleration,
            nose.at(nose.start).acceleration,
            nose.at(0.0).acceleration,
            flank.at(flank.end).velocity};
}

double rad_per_s(double rpm) {
    return rpm * 2.0 * pi / 60.0;
}

/// Half a unit of the last digit printed.
constexpr double six_places = 5.1e-7;

}  // namespace

// Bevan, Theory of Machines, example 5, p. 300 (FOSSEE Python Textbook Companions, ch. 9): flat follower,
// inches, feet/s². Printed: 4.477 in, 1974 ft/s² (with a four-figure cosine); recomputed to the digits here.
TEST_CASE("Bevan's three-arc cam with a flat follower comes out") {
    const SolvedLobe lobe = basalt::solved(basalt::arcs_with_nose(1.125, 0.5, 110.0, 0.125), basalt::flat());
    CHECK_NEAR(lobe.arcs->flank_radius, 5.600944, six_places);
    const Textbook t = textbook(lobe);
    const double w = rad_per_s(1200.0), feet = 1.0 / 12.0;
    CHECK_NEAR(t.phi, 12.966806, six_places);
    CHECK_NEAR(t.fastest * w * feet, 10.517440, six_places);
    CHECK_NEAR(t.start * w * w * feet, 5890.106, 5.1e-4);
    CHECK_NEAR(t.before * w * w * feet, 5739.910, 5.1e-4);
    CHECK_NEAR(t.after * w * w * feet, -1466.144, 5.1e-4);
    CHECK_NEAR(t.apex * w * w * feet, -1973.921, 5.1e-4);
    CHECK_NEAR(t.apex * w * w * feet, -1974.0, 0.5);
}

// bissoy.com/mcq/375987 (a textbook's tangent cam): printed 187.6 m/s² at the start, with the speed rounded
// to 62.84 rad/s.
TEST_CASE("the textbook's tangent cam with a roller comes out") {
    const SolvedLobe lobe =
        basalt::solved(basalt::arcs_with_flank(30.0, 17.5, 150.0, straight_flank), basalt::roller(17.5));
    CHECK_NEAR(lobe.arcs->nose_radius, 23.889032, six_places);
    const Textbook t = textbook(lobe);
    const double w = rad_per_s(600.0), metres = 1e-3;
    CHECK_NEAR(t.phi, 25.647323, six_places);
    CHECK_NEAR(t.start * w * w * metres, 187.522, 5.1e-4);
    CHECK_NEAR(t.start * 62.84 * 62.84 * metres, 187.6, 0.05);
    CHECK_NEAR(t.before * w * w * metres, 303.925890, six_places);
    CHECK_NEAR(t.after * w * w * metres, -57.560899, six_places);
    CHECK_NEAR(t.apex * w * w * metres, -146.386701, six_places);
    CHECK_NEAR(t.fastest * w * metres, 1.589584, six_places);
}

// Geometry of three textbook exercises (Khurmi, Rattan; inputs from memory, no published answers): the closed
// forms' values, recomputed.
TEST_CASE("three more textbook lobes come out as their closed forms do") {
    const double metres = 1e-3;
    {
        const SolvedLobe suction =
            basalt::solved(basalt::arcs_with_nose(20.0, 10.0, 113.0, 2.5), basalt::flat());
        const double w = rad_per_s(600.0);
        const Textbook t = textbook(suction);
        CHECK_NEAR(suction.arcs->flank_radius, 116.910372, six_places);
        CHECK_NEAR(t.phi, 11.562407, six_places);
        CHECK_NEAR(t.fastest * w * metres, 1.220461, six_places);
        CHECK_NEAR(t.start * w * w * metres, 382.586815, six_places);
    }
    {
        const SolvedLobe lobe =
            basalt::solved(basalt::arcs_with_nose(16.0, 12.2, 150.0, 3.2), basalt::flat());
        const double w = rad_per_s(600.0);
        const Textbook t = textbook(lobe);
        CHECK_NEAR(lobe.arcs->flank_radius, 52.429280, six_places);
        CHECK_NEAR(t.phi, 29.375031, six_places);
        CHECK_NEAR(t.before * w * w * metres, 125.326142, six_places);
        CHECK_NEAR(t.after * w * w * metres, -69.023267, six_places);
    }
    {
        const SolvedLobe tangent =
            basalt::solved(basalt::arcs_with_nose(60.0, 19.882251, 90.0, 12.0), basalt::roller(24.0));
        const double w = rad_per_s(180.0);
        const Textbook t = textbook(tangent);
        CHECK_NEAR(t.phi, 29.744881, 1e-4);
        CHECK_NEAR(t.before * w * w * metres, 56.823648, 1e-4);
        CHECK_NEAR(t.after * w * w * metres, -84.316806, 1e-4);
        CHECK_NEAR(t.apex * w * w * metres, -69.598092, 1e-4);
    }
}

// The closed forms of every textbook (as in examians.com, "the acceleration of a flat faced follower", whose
// flank has the same), counted from the start of lift.
TEST_CASE("a flat follower on three arcs moves by the closed forms") {
    const double r1 = 14.0, r3 = 4.0, lift = 5.0, al = 62.0 * per_degree;
    const SolvedLobe lobe = basalt::solved(basalt::arcs_with_nose(r1, lift, 124.0, r3), basalt::flat());
    const double r = lift + r1 - r3;
    const double flank =
        (r * r + r1 * r1 - r3 * r3 - 2.0 * r * r1 * std::cos(al)) / (2.0 * (r1 - r3 - r * std::cos(al)));
    CHECK_RELATIVE(lobe.arcs->flank_radius, flank, 1e-12);
    const double phi = std::asin(r * std::sin(al) / (flank - r3));
    for (int i = 1; i < 200; ++i) {
        const double th = al * i / 200.0;
        const Lift found = lobe.motion.at(CamAngle::from_radians(th - al));
        const bool on_flank = th < phi;
        const double x = on_flank ? (flank - r1) * (1.0 - std::cos(th)) : r3 - r1 + r * std::cos(al - th);
        const double v = on_flank ? (flank - r1) * std::sin(th) : r * std::sin(al - th);
        const double a = on_flank ? (flank - r1) * std::cos(th) : -r * std::cos(al - th);
        CHECK_RELATIVE(found.lift, x, 1e-9);
        CHECK_RELATIVE(found.velocity, v, 1e-9);
        CHECK_RELATIVE(found.acceleration, a, 1e-9);
    }
}

// Tangent cam and arc flank with a roller: the triangle of axis, flank's centre and roller's centre. The
// tangent cam's forms stand so in lakshyaeducation.in/question/.../1626678061803337.
TEST_CASE("a roller on straight and on curved flanks moves by the closed forms") {
    const double r1 = 30.0, r2 = 17.5, lift = 17.5, al = 75.0 * per_degree;
    for (const double flank : {straight_flank, 160.0}) {
        const SolvedLobe lobe =
            basalt::solved(basalt::arcs_with_flank(r1, lift, 150.0, flank), basalt::roller(r2));
        const double r3 = lobe.arcs->nose_radius, r = r1 + lift - r3, l = r2 + r3;
        const double joint = piece(lobe, "nose").start + al;
        for (int i = 1; i < 200; ++i) {
            const double th = al * i / 200.0, b = al - th;
            const Lift found = lobe.motion.at(CamAngle::from_radians(-b));
            if (th > joint) {
                const double root = std::sqrt(l * l - r * r * std::sin(b) * std::sin(b));
                CHECK_RELATIVE(found.lift, r * std::cos(b) + root - (r1 + r2), 1e-9);
                CHECK_RELATIVE(found.velocity, r * (std::sin(b) + r * std::sin(2.0 * b) / (2.0 * root)),
                               1e-9);
                CHECK_RELATIVE(found.acceleration,
                               -r * (std::cos(b) + (l * l * r * std::cos(2.0 * b) +
                                                    std::pow(r, 3) * std::pow(std::sin(b), 4)) /
                                                       std::pow(root, 3)),
                               1e-9);
            } else if (flank == straight_flank) {
                const double c = std::cos(th);
                // 1/cos - 1 without its loss of digits.
                const double rise = 2.0 * std::pow(std::sin(0.5 * th), 2) / c;
                CHECK_RELATIVE(found.lift, (r1 + r2) * rise, 1e-9);
                CHECK_RELATIVE(found.velocity, (r1 + r2) * std::sin(th) / (c * c), 1e-9);
                CHECK_RELATIVE(found.acceleration, (r1 + r2) * (2.0 - c * c) / (c * c * c), 1e-9);
            } else {
                const double s = std::sin(th), e = flank - r1, big = flank + r2;
                const double x = std::sqrt(big * big - e * e * s * s) - e * std::cos(th) - (r1 + r2);
                CHECK_NEAR(found.lift, x, 1e-12 + 1e-9 * x);
            }
        }
    }
}

// Design: n from F and F from n.
TEST_CASE("flank and nose are each other's answer, straight and hollow flanks too") {
    for (const double flank : {25.0, 300.0, 1e7, straight_flank, -400.0, -60.0}) {
        const SolvedLobe one =
            basalt::solved(basalt::arcs_with_flank(12.0, 4.0, 130.0, flank), basalt::roller(5.0));
        const SolvedLobe back = basalt::solved(
            basalt::arcs_with_nose(12.0, 4.0, 130.0, one.arcs->nose_radius), basalt::roller(5.0));
        CHECK_NEAR(1.0 / back.arcs->flank_radius, 1.0 / flank, 1e-13);
        CHECK_NEAR(one.contour.largest_radius(), 16.0, 1e-12);
    }
}

TEST_CASE("every piece of an arcs contour is an arc, and they join in point and direction") {
    for (const double flank : {40.0, straight_flank, -70.0}) {
        for (const Sense turns : {Sense::ccw, Sense::cw}) {
            const SolvedLobe lobe =
                basalt::solved(basalt::arcs_with_flank(12.0, 4.0, 130.0, flank), basalt::roller(5.0), turns);
            const auto& pieces = lobe.contour.pieces();
            REQUIRE(pieces.size() == 4);
            CHECK(pieces[0].name == (turns == Sense::ccw ? "closing flank" : "opening flank"));
            CHECK(pieces[1].name == "nose");
            for (std::size_t i = 0; i < pieces.size(); ++i) {
                CHECK(pieces[i].circular);
                const auto& next = pieces[(i + 1) % pieces.size()];
                const ContourPoint a = pieces[i].at(pieces[i].end), b = next.at(next.start);
                CHECK_NEAR(length(a.point - b.point), 0.0, 1e-12);
                CHECK_NEAR(length(a.normal - b.normal), 0.0, 1e-12);
            }
            CHECK_RELATIVE(lobe.contour.smallest_convex_radius(), std::min(lobe.arcs->nose_radius, 12.0),
                           1e-12);
            if (flank < 0.0) {
                CHECK_RELATIVE(lobe.contour.smallest_hollow_radius(), -flank, 1e-12);
            } else {
                CHECK(std::isinf(lobe.contour.smallest_hollow_radius()));
            }
        }
    }
}

namespace {

/// The arcs of a lobe by the textbook's construction, in the lobe's frame: flanks on the -y and +y side,
/// nose.
struct Arcs {
    precise::Arc low, nose, high;
};
Arcs arcs_of(const SolvedLobe& lobe) {
    const ArcGeometry& g = *lobe.arcs;
    const precise::Real a = precise::radians(g.action_angle) / 2,
                        d = g.base_radius + precise::Real(g.lift) - g.nose_radius;
    const auto flank = [&](const precise::Real& side) {
        const bool straight = g.flank_radius == straight_flank;
        const precise::Real along =
            straight ? precise::Real(g.base_radius) : precise::Real(g.base_radius) - g.flank_radius;
        return precise::Arc{{along * cos(side), along * sin(side)},
                            straight ? precise::Real(0) : precise::Real(g.flank_radius),
                            side};
    };
    return {flank(-a), {{d, 0}, g.nose_radius}, flank(a)};
}

void check_derivatives(const SolvedLobe& lobe) {
    const Arcs arcs = arcs_of(lobe);
    const double s = sign_of(lobe.turns);
    Lift largest;
    for (int i = 0; i < 720; ++i) {
        const Lift l = lobe.motion.at(CamAngle::from_degrees(0.5 * i));
        largest.velocity = std::max(largest.velocity, std::abs(l.velocity));
        largest.acceleration = std::max(largest.acceleration, std::abs(l.acceleration));
        largest.jerk = std::max(largest.jerk, std::abs(l.jerk));
    }
    int checked = 0;
    for (const MotionPiece& stretch : lobe.motion.pieces()) {
        if (stretch.constant) continue;
        const bool nose = stretch.name == "nose", opening = stretch.name == "opening flank";
        const precise::Arc& arc = nose                                    ? arcs.nose
                                  : opening == (lobe.turns == Sense::ccw) ? arcs.high
                                                                          : arcs.low;
        for (int i = 0; i < 334; ++i) {
            const double alpha = stretch.start + (stretch.end - stretch.start) * (i + 0.5) / 334.0;
            const Lift found = stretch.at(alpha);
            const Lift wanted = precise::differences(
                [&](const precise::Real& at) {
                    return precise::lift_on(arc, lobe.follower, lobe.base_radius, -s * at, found.lift);
                },
                alpha, precise::Real(1) / (1 << 22));
            INFO(stretch.name << " at " << alpha / per_degree);
            CHECK_NEAR(found.lift, wanted.lift, 1e-9 * std::abs(wanted.lift) + 1e-13 * lobe.lift);
            CHECK_NEAR(found.velocity, wanted.velocity,
                       1e-9 * std::abs(wanted.velocity) + 1e-12 * largest.velocity);
            CHECK_NEAR(found.acceleration, wanted.acceleration,
                       1e-9 * std::abs(wanted.acceleration) + 1e-12 * largest.acceleration);
            CHECK_NEAR(found.jerk, wanted.jerk, 1e-9 * std::abs(wanted.jerk) + 1e-10 * largest.jerk);
            ++checked;
        }
    }
    CHECK(checked == 3 * 334);
}

}  // namespace

TEST_CASE("the derivatives of the lift on arcs are exact, for every follower") {
    const auto arcs = [](double flank) { return basalt::arcs_with_flank(12.0, 4.0, 130.0, flank); };
    check_derivatives(basalt::solved(arcs(40.0), basalt::flat(), Sense::cw));
    check_derivatives(basalt::solved(arcs(-60.0), basalt::roller(5.0), Sense::ccw));
    check_derivatives(basalt::solved(arcs(straight_flank), basalt::roller(6.0, 4.0), Sense::cw));
    check_derivatives(basalt::solved(arcs(40.0), basalt::domed(80.0, -2.0), Sense::ccw));
    check_derivatives(basalt::solved(arcs(-90.0), basalt::knife(1.5), Sense::cw));
    check_derivatives(
        basalt::solved(arcs(straight_flank), basalt::pivoted(8.0, 40.0, 35.0, Sense::ccw), Sense::ccw));
    check_derivatives(basalt::solved(arcs(-60.0), basalt::pivoted(8.0, 40.0, 35.0, Sense::cw), Sense::ccw));
    check_derivatives(basalt::solved(arcs(35.0), basalt::pivoted(25.0, 50.0, 48.0, Sense::ccw), Sense::cw));
}
