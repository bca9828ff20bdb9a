#include "basalt.h"
#include "profile/follower/motion_contour.h"

#include <numbers>

using namespace lobewright;
using namespace lobewright::profile;

namespace {

constexpr double pi = std::numbers::pi;

std::vector<Follower> all_followers() {
    return {basalt::flat(),
            basalt::roller(5.0, 3.0),
            basalt::domed(60.0, -2.0),
            basalt::knife(2.0),
            basalt::pivoted(8.0, 40.0, 35.0, Sense::ccw),
            basalt::pivoted(8.0, 40.0, 35.0, Sense::cw)};
}

double largest_difference(const Contour& a, const Contour& b, double mirror = 1.0) {
    double largest = 0.0;
    for (int i = 0; i < 720; ++i) {
        const double beta = 2.0 * pi * i / 720.0;
        largest = std::max(largest, std::abs(a.polar_radius(ShaftAngle::from_radians(beta)) -
                                             b.polar_radius(ShaftAngle::from_radians(mirror * beta))));
    }
    return largest;
}

}  // namespace

TEST_CASE("a shaft that turns the other way, with its followers mirrored, has the mirrored lobe") {
    for (const Follower& follower : all_followers()) {
        Follower mirrored = follower;
        mirrored.offset = -follower.offset;
        mirrored.side = follower.side == Sense::ccw ? Sense::cw : Sense::ccw;
        const SolvedLobe ccw = basalt::solved(basalt::lopsided(20.0), follower, Sense::ccw);
        const SolvedLobe cw = basalt::solved(basalt::lopsided(20.0), mirrored, Sense::cw);
        CHECK(largest_difference(ccw.contour, cw.contour, -1.0) < 1e-12);
        CHECK(largest_difference(ccw.contour, cw.contour) > 0.01);  // and it is a lopsided one
    }
}

TEST_CASE("an arm's lobe depends on which way the shaft turns under it") {
    const Follower arm = basalt::pivoted(8.0, 40.0, 35.0, Sense::ccw);
    const SolvedLobe ccw =
        basalt::solved(basalt::law(LawKind::cycloidal, 20.0, 4.0, 60.0, 60.0), arm, Sense::ccw);
    const SolvedLobe cw =
        basalt::solved(basalt::law(LawKind::cycloidal, 20.0, 4.0, 60.0, 60.0), arm, Sense::cw);
    CHECK(largest_difference(ccw.contour, cw.contour) <
          1e-12);  // by the shaft the symmetrical law makes one lobe,
    CHECK(largest_difference(ccw.contour, ccw.contour, -1.0) > 0.01);  // whose two flanks differ
}

TEST_CASE("turning a lobe on its shaft turns its contact points with it and nothing else") {
    for (const Follower& follower : all_followers()) {
        basalt::Job job = basalt::job(basalt::lopsided(20.0), follower);
        const SolvedLobe still = basalt::solved(job);
        job.lobes.front().at = ShaftAngle::from_degrees(37.0);
        const SolvedLobe turned_lobe = basalt::solved(job);
        for (int degrees = -180; degrees < 180; degrees += 7) {
            const CamAngle alpha = CamAngle::from_degrees(degrees);
            const FollowerContact a = contact_at(still, alpha), b = contact_at(turned_lobe, alpha);
            CHECK_NEAR(length(turned(a.contact.point, unit(37.0 * pi / 180.0)) - b.contact.point), 0.0,
                       1e-12);
            CHECK_NEAR(b.facing.degrees() - a.facing.degrees(), 37.0, 1e-12);
            CHECK_NEAR(b.pressure_angle, a.pressure_angle, 1e-13);
            CHECK(b.lift.lift == a.lift.lift);
        }
    }
}

TEST_CASE("a knife is a roller of radius 0") {
    const SolvedLobe knife = basalt::solved(basalt::lopsided(20.0), basalt::knife(2.0));
    const SolvedLobe roller = basalt::solved(basalt::lopsided(20.0), basalt::roller(0.0, 2.0));
    CHECK(largest_difference(knife.contour, roller.contour) == 0.0);
}

TEST_CASE("a flat follower is the limit of ever larger rollers") {
    const SolvedLobe flat = basalt::solved(basalt::lopsided(20.0), basalt::flat());
    // Contact runs h' off the middle, where a roller's surface lies h'²/2r lower.
    double fastest = 0.0;
    for (int i = 0; i < 720; ++i)
        fastest = std::max(fastest, std::abs(flat.motion.at(CamAngle::from_degrees(0.5 * i)).velocity));
    for (const double radius : {1e4, 1e5, 1e6}) {
        const SolvedLobe roller = basalt::solved(basalt::lopsided(20.0), basalt::roller(radius));
        CHECK(largest_difference(flat.contour, roller.contour) < fastest * fastest / radius);
    }
}

TEST_CASE("a pivoted follower on a very long arm is a translating one") {
    const SolvedLobe translating = basalt::solved(basalt::lopsided(20.0), basalt::roller(5.0));
    for (const Sense side : {Sense::ccw, Sense::cw}) {
        for (const double arm : {1e3, 1e4, 1e5}) {
            // At half lift the arm stands square to the follower's line, within a lift of it.
            const double c = std::sqrt(25.0 * 25.0 + arm * arm);
            const SolvedLobe pivoted =
                basalt::solved(basalt::lopsided(20.0), basalt::pivoted(5.0, c, arm, side));
            CHECK(largest_difference(translating.contour, pivoted.contour) < 4.0 * 2.4 * 2.4 / arm);
        }
    }
}

TEST_CASE("arcs in, lift out, and the lift's contour is the arcs again, for every follower and sense") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        for (const double flank : {45.0, straight_flank, -90.0}) {
            for (const Follower& follower : all_followers()) {
                if (follower.kind == FollowerKind::flat && !(flank > 0.0 && flank < straight_flank)) continue;
                const SolvedLobe arcs =
                    basalt::solved(basalt::arcs_with_flank(12.0, 4.0, 130.0, flank), follower, turns);
                REQUIRE(judge_motion(arcs.motion.pieces(), follower, 12.0, turns).fault == MotionFault::none);
                const Contour again(motion_contour(arcs.motion.pieces(), follower, 12.0, turns, 1), {});
                CHECK(largest_difference(arcs.contour, again) < 1e-11);
            }
        }
    }
}

TEST_CASE("the contact lies on the contour, and its normal passes through the follower's centre") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        for (const Follower& follower : all_followers()) {
            basalt::Job job = basalt::job(basalt::lopsided(20.0), follower, turns);
            job.lobes.front().at = ShaftAngle::from_degrees(-110.0);
            const SolvedLobe lobe = basalt::solved(job);
            // Beside the peak, where the two laws' accelerations differ.
            for (int degrees = -179; degrees < 180; degrees += 5) {
                const FollowerContact touch = contact_at(lobe, CamAngle::from_degrees(degrees));
                const double beta = direction(touch.contact.point) - lobe.at.radians();
                const Contour::RayPoint spot = lobe.contour.on_ray(ShaftAngle::from_radians(beta));
                CHECK_NEAR(length(touch.contact.point), length(spot.at.point), 1e-11);
                CHECK_NEAR(touch.contact.curvature, spot.at.curvature, 1e-9);
                if (follower.kind == FollowerKind::pivoted) continue;
                // Translating: along the facing direction the centre is the base's height and the lift.
                const Vec2 f = unit(touch.facing.radians());
                const double rp = 20.0 + follower.radius, e = follower.offset;
                const double height =
                    follower.kind == FollowerKind::flat
                        ? dot(touch.contact.point, f)
                        : dot(touch.contact.point + follower.radius * touch.contact.normal, f);
                const double heel = follower.kind == FollowerKind::flat ? 20.0 : std::sqrt(rp * rp - e * e);
                CHECK_NEAR(height - heel, touch.lift.lift, 1e-12);
            }
        }
    }
}

// Point = h n + h' t: the envelope of the flat's line, h' towards larger angles of the shaft.
TEST_CASE("the flat follower's contact runs sideways by the lift's slope, and its pressure angle is none") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        const SolvedLobe lobe = basalt::solved(basalt::lopsided(20.0), basalt::flat(), turns);
        for (int degrees = -170; degrees < 180; degrees += 9) {
            const FollowerContact touch = contact_at(lobe, CamAngle::from_degrees(degrees));
            const double aside = dot(touch.contact.point, quarter_turn(unit(touch.facing.radians())));
            CHECK_NEAR(aside, -sign_of(turns) * touch.lift.velocity, 1e-12);
            CHECK(touch.pressure_angle == 0.0);
            CHECK_NEAR(1.0 / touch.contact.curvature, 20.0 + touch.lift.lift + touch.lift.acceleration, 1e-9);
        }
    }
}

// tan φ = (s' - e) / A, A = sqrt(Rp² - e²) + s, and with 3-4-5, 10 mm in 90 degrees, base 63.7, roller 12.5 a
// largest pressure angle of 8.376513 degrees (petfoodhonesty.com, inputs published; the answer recomputed).
TEST_CASE("a translating roller's pressure angle is the textbook's") {
    const SolvedLobe lobe =
        basalt::solved(basalt::law(LawKind::polynomial_345, 63.7, 10.0, 90.0, 90.0), basalt::roller(12.5));
    double largest = 0.0;
    for (int i = 0; i <= 36000; ++i)
        largest = std::max(
            largest, std::abs(contact_at(lobe, CamAngle::from_degrees(-90.0 + i * 0.0025)).pressure_angle));
    CHECK_NEAR(largest * 180.0 / pi, 8.376513, 1e-6);

    const double e = 3.0;
    const SolvedLobe offset = basalt::solved(basalt::lopsided(20.0), basalt::roller(5.0, e), Sense::cw);
    for (int degrees = -100; degrees < 100; degrees += 3) {
        const FollowerContact touch = contact_at(offset, CamAngle::from_degrees(degrees));
        const double height = std::sqrt(25.0 * 25.0 - e * e) + touch.lift.lift;
        CHECK_NEAR(std::tan(touch.pressure_angle), (touch.lift.velocity - e) / height, 1e-12);
    }
}

// Swinging roller, from the triangle of axis, pivot and roller: tan φ = (l (1 - ψ') - c cos ψ) / (c sin ψ).
TEST_CASE("an arm's pressure angle is the textbook's, with the sign of turning") {
    const double c = 40.0, l = 35.0, rp = 28.0;
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        const SolvedLobe lobe =
            basalt::solved(basalt::lopsided(20.0), basalt::pivoted(8.0, c, l, Sense::ccw), turns);
        const double psi0 = std::acos((c * c + l * l - rp * rp) / (2.0 * c * l));
        for (int degrees = -100; degrees < 100; degrees += 3) {
            const FollowerContact touch = contact_at(lobe, CamAngle::from_degrees(degrees));
            const double psi = psi0 + touch.lift.lift / l;
            const double slope = -sign_of(turns) * touch.lift.velocity / l;  // by the shaft angle
            const double tangent = (l * (1.0 - slope) - c * std::cos(psi)) / (c * std::sin(psi));
            CHECK_NEAR(std::tan(touch.pressure_angle), sign_of(turns) * tangent, 1e-11);
        }
    }
}
