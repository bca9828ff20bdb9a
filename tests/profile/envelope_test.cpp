#include "basalt.h"

#include <lobewright/contour.h>

#include <functional>
#include <random>

using namespace lobewright;

namespace {

constexpr double pi = std::numbers::pi;

/// Where a follower stands in space, by its own construction: it stands still in direction f and the shaft
/// turns under it.
struct InSpace {
    const SolvedLobe& lobe;

    [[nodiscard]] double facing_turn(double alpha) const {
        return lobe.follower.direction.radians() - (lobe.at.radians() - sign_of(lobe.turns) * alpha);
    }
    /// Centre, in the shaft's frame.
    [[nodiscard]] Vec2 centre(double alpha) const {
        const Follower& follower = lobe.follower;
        const double lift = lobe.motion.at(CamAngle::from_radians(alpha)).lift;
        const Vec2 f = unit(follower.direction.radians()), aside = quarter_turn(f);
        const double rp = lobe.base_radius + follower.radius;
        Vec2 in_space;
        if (follower.kind != FollowerKind::pivoted) {
            in_space =
                (std::sqrt(rp * rp - follower.offset * follower.offset) + lift) * f + follower.offset * aside;
        } else {
            const double c = follower.pivot_radius, arm = follower.arm_length;
            const double along = (c * c + rp * rp - arm * arm) / (2.0 * rp),
                         across = std::sqrt(c * c - along * along);
            const bool centre_ccw = follower.side == Sense::ccw;
            const Vec2 pivot = along * f + (centre_ccw ? -across : across) * aside;
            const Vec2 one = pivot + turned(rp * f - pivot, unit(lift / arm));
            const Vec2 other = pivot + turned(rp * f - pivot, unit(-lift / arm));
            in_space = length(one) > length(other) ? one : other;
        }
        return turned(in_space, unit(-facing_turn(alpha)));
    }
    /// A flat face in the shaft's frame: its normal, and its distance from the axis along that.
    struct Face {
        Vec2 normal;
        double height;
    };
    [[nodiscard]] Face face(double alpha) const {
        const Follower& follower = lobe.follower;
        const double lift = lobe.motion.at(CamAngle::from_radians(alpha)).lift;
        const Vec2 f = unit(follower.direction.radians()), aside = quarter_turn(f);
        const Vec2 back = unit(-facing_turn(alpha));
        if (follower.kind == FollowerKind::flat) {
            const double tilt = follower.face_tilt.radians();
            return {turned(turned(f, unit(tilt)), back), lobe.base_radius + lift * std::cos(tilt)};
        }
        // The face touches the base circle in the direction f; its pivot lies so far over it, on the stated
        // side.
        const double depth = *follower.pad_depth, ahead = lobe.base_radius + depth;
        const double across = std::sqrt(follower.pivot_radius * follower.pivot_radius - ahead * ahead);
        const Vec2 pivot = ahead * f + (follower.side == Sense::ccw ? -across : across) * aside;
        const Vec2 one = turned(f, unit(lift / follower.arm_length));
        const Vec2 other = turned(f, unit(-lift / follower.arm_length));
        const Vec2 normal = dot(pivot, one) > dot(pivot, other) ? one : other;
        return {turned(normal, back), dot(pivot, normal) - depth};
    }
    /// How far from the axis a ray of the shaft can go before it meets the follower at that cam angle.
    [[nodiscard]] double clear(double alpha, Vec2 ray) const {
        constexpr double far = 1e9;
        if (lobe.follower.has_flat_face()) {
            const auto [normal, height] = face(alpha);
            const double cosine = dot(ray, normal);
            return cosine > 1e-6 ? height / cosine : far;
        }
        const Vec2 c = centre(alpha);
        const double off = cross(ray, c), r = lobe.follower.radius;
        return std::abs(off) < r && dot(ray, c) > 0.0 ? dot(ray, c) - std::sqrt(r * r - off * off) : far;
    }
};

/// The least value of f round `at`, by golden sections.
double least_near(const std::function<double(double)>& f, double low, double high) {
    const double golden = 0.5 * (std::sqrt(5.0) - 1.0);
    double a = high - golden * (high - low), b = low + golden * (high - low), at_a = f(a), at_b = f(b);
    for (int i = 0; i < 60; ++i) {
        if (at_a < at_b)
            high = b, b = a, at_b = at_a, a = high - golden * (high - low), at_a = f(a);
        else
            low = a, a = b, at_a = at_b, b = low + golden * (high - low), at_b = f(b);
    }
    return std::min(at_a, at_b);
}

/// Holds the contour's polar radius against what the follower, in all of its places, leaves on every ray.
void check_envelope(const SolvedLobe& lobe, double margin) {
    const InSpace follower{lobe};
    constexpr int turns = 2880, rays = 240;
    double worst = 0.0;
    for (int i = 0; i < rays; ++i) {
        const double phi = 2.0 * pi * (i + 0.37) / rays;
        const Vec2 ray = unit(phi);
        const auto clear = [&](double alpha) { return follower.clear(alpha, ray); };
        double best = 1e9, best_alpha = 0.0;
        for (int k = 0; k < turns; ++k) {
            const double alpha = 2.0 * pi * k / turns;
            const double here = clear(alpha);
            if (here < best) best = here, best_alpha = alpha;
        }
        best =
            std::min(best, least_near(clear, best_alpha - 2.0 * pi / turns, best_alpha + 2.0 * pi / turns));
        worst = std::max(worst,
                         std::abs(lobe.contour.polar_radius(ShaftAngle::from_radians(phi) - lobe.at) - best));
    }
    INFO("worst " << worst << " mm");
    CHECK(worst <= margin);
}

basalt::Job placed(Profile profile, Follower follower, Sense turns) {
    follower.direction = SpaceAngle::from_degrees(25.0);
    basalt::Job job = basalt::job(std::move(profile), follower, turns);
    job.lobes.front().at = ShaftAngle::from_degrees(-70.0);
    return job;
}

std::vector<Follower> round_followers() {
    return {basalt::roller(5.0),
            basalt::roller(5.0, 3.0),
            basalt::roller(6.0, -4.0),
            basalt::domed(80.0),
            basalt::domed(40.0, 2.0),
            basalt::pivoted(8.0, 40.0, 35.0, Sense::ccw),
            basalt::pivoted(8.0, 40.0, 35.0, Sense::cw),
            basalt::pivoted(25.0, 50.0, 48.0, Sense::ccw),
            basalt::pivoted(25.0, 50.0, 48.0, Sense::cw)};
}

}  // namespace

TEST_CASE("a flat follower on a motion's contour is the brute-force envelope of its faces") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        check_envelope(basalt::solved(placed(basalt::lopsided(), basalt::flat(), turns)), 1e-6);
        for (const LawKind kind : {LawKind::simple_harmonic, LawKind::modified_trapezoid})
            check_envelope(
                basalt::solved(placed(basalt::law(kind, 25.0, 4.0, 60.0, 75.0), basalt::flat(), turns)),
                1e-6);
    }
}

TEST_CASE(
    "a round follower on a motion's contour is the brute-force envelope of its discs, for every kind and "
    "sense") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        for (const Follower& follower : round_followers()) {
            INFO("radius " << follower.radius << ", offset " << follower.offset << ", side "
                           << static_cast<int>(follower.side) << ", turns " << static_cast<int>(turns));
            check_envelope(basalt::solved(placed(basalt::lopsided(20.0), follower, turns)), 1e-6);
        }
    }
}

TEST_CASE("a knife's edge runs along the contour, in every place and both senses") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        const SolvedLobe lobe = basalt::solved(placed(basalt::lopsided(20.0), basalt::knife(3.0), turns));
        const InSpace follower{lobe};
        for (int i = 0; i < 1000; ++i) {
            const Vec2 edge = follower.centre(2.0 * pi * i / 1000.0);
            CHECK_NEAR(lobe.contour.polar_radius(ShaftAngle::from_radians(direction(edge)) - lobe.at),
                       length(edge), 1e-11);
        }
    }
}

TEST_CASE("the lift of arcs is as high as the follower has to stand, for every kind and sense") {
    const ArcsProfile convex = basalt::arcs_with_nose(12.0, 4.0, 130.0, 3.0);
    const ArcsProfile straight = basalt::arcs_with_flank(12.0, 4.0, 130.0, straight_flank);
    const ArcsProfile hollow = basalt::arcs_with_flank(12.0, 4.0, 130.0, -70.0);
    std::vector<Follower> followers = round_followers();
    followers.push_back(basalt::knife(2.0));
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        check_envelope(basalt::solved(placed(convex, basalt::flat(), turns)), 1e-6);
        for (const Follower& follower : followers) {
            for (const ArcsProfile& arcs : {convex, straight, hollow}) {
                if (arcs.flank_radius && *arcs.flank_radius < 0.0 && follower.radius >= 70.0) continue;
                INFO("radius " << follower.radius << ", offset " << follower.offset << ", flank "
                               << arcs.flank_radius.value_or(0.0));
                const SolvedLobe lobe = basalt::solved(placed(arcs, follower, turns));
                const InSpace in_space{lobe};
                // The nearest that the contour comes to the follower's centre is the follower's radius.
                for (int i = 0; i < 90; ++i) {
                    const double alpha = 2.0 * pi * (i + 0.29) / 90;
                    const Vec2 centre = in_space.centre(alpha);
                    const auto gap = [&](double phi) {
                        return length(centre -
                                      lobe.contour.polar_radius(ShaftAngle::from_radians(phi) - lobe.at) *
                                          unit(phi));
                    };
                    double best = 1e9, at = 0.0;
                    for (int k = 0; k < 360; ++k) {
                        const double phi = 2.0 * pi * k / 360.0;
                        if (gap(phi) < best) best = gap(phi), at = phi;
                    }
                    CHECK_NEAR(least_near(gap, at - pi / 180.0, at + pi / 180.0), follower.radius, 1e-7);
                }
            }
        }
    }
}

namespace {

Follower tilted(double degrees) {
    Follower follower = basalt::endless_flat();
    follower.face_tilt = SpaceAngle::from_degrees(degrees);
    return follower;
}
Follower flat_pad(double pivot_radius, double arm, double depth, Sense side) {
    Follower follower = basalt::pivoted(0.0, pivot_radius, arm, side);
    follower.pad_depth = depth;
    return follower;
}

/// Faces out of square both ways, and pads under, through and over their pivots on both sides.
std::vector<Follower> flat_faces() {
    std::vector<Follower> all{tilted(8.0), tilted(-15.0)};
    for (const Sense side : {Sense::ccw, Sense::cw}) {
        for (const double depth : {4.0, 0.0, -6.0})
            all.push_back(flat_pad(45.0, 38.0, depth, side));
    }
    return all;
}

std::string words_of(const Follower& follower, Sense turns) {
    return "tilt " + std::to_string(follower.face_tilt.degrees()) + ", depth " +
           std::to_string(follower.pad_depth.value_or(99.0)) + ", side " +
           std::to_string(static_cast<int>(follower.side)) + ", turns " +
           std::to_string(static_cast<int>(turns));
}

}  // namespace

TEST_CASE("a face out of square, and a flat pad on an arm, make the brute-force envelope of their faces") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        for (const Follower& follower : flat_faces()) {
            INFO(words_of(follower, turns));
            check_envelope(basalt::solved(placed(basalt::lopsided(20.0), follower, turns)), 1e-6);
        }
    }
}

TEST_CASE("the lift of arcs under faces out of square and flat pads is as high as these have to stand") {
    const ArcsProfile alike = basalt::arcs_with_nose(14.0, 4.0, 130.0, 4.0);
    ArcsProfile unequal = basalt::arcs_with_flank(14.0, 4.0, 130.0, 45.0);
    unequal.closing_flank_radius = 80.0;
    ArcsProfile ramped = unequal;
    ramped.ramps = ArcRamps{0.2, basalt::cam_degrees(20.0), basalt::cam_degrees(25.0)};
    for (const Follower& follower : flat_faces()) {
        for (const auto& [arcs, turns] :
             {std::pair{alike, Sense::cw}, {unequal, Sense::ccw}, {ramped, Sense::cw}}) {
            INFO(words_of(follower, turns));
            check_envelope(basalt::solved(placed(arcs, follower, turns)), 1e-6);
        }
    }
}

TEST_CASE("the pressure angle of flat faces is that of their own way, and their contact lies on the face") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        for (const Follower& follower : flat_faces()) {
            const SolvedLobe lobe = basalt::solved(placed(basalt::lopsided(20.0), follower, turns));
            const InSpace in_space{lobe};
            for (double degrees = -70.0; degrees <= 70.0; degrees += 7.0) {
                INFO(words_of(follower, turns) << " at " << degrees);
                const double alpha = degrees * pi / 180.0;
                const auto [normal, height] = in_space.face(alpha);
                const FollowerContact contact = contact_at(lobe, basalt::cam_degrees(degrees));
                CHECK(length(contact.contact.normal - normal) < 1e-9);
                CHECK_NEAR(dot(contact.contact.point, normal), height, 1e-9);
                // How the face's own point moves as the follower lifts: a step of lift, seen from space.
                if (follower.kind == FollowerKind::flat) {
                    CHECK_NEAR(std::abs(contact.pressure_angle), std::abs(follower.face_tilt.radians()),
                               1e-9);
                    continue;
                }
                const double ahead = lobe.base_radius + *follower.pad_depth;
                const double across = std::sqrt(45.0 * 45.0 - ahead * ahead);
                const Vec2 f = unit(lobe.follower.direction.radians());
                const Vec2 pivot =
                    turned(ahead * f + (follower.side == Sense::ccw ? -across : across) * quarter_turn(f),
                           unit(-in_space.facing_turn(alpha)));
                const Vec2 arm = contact.contact.point - pivot;
                const double sine = std::abs(dot(arm, normal)) / length(arm);
                CHECK_NEAR(std::sin(std::abs(contact.pressure_angle)), sine, 1e-9);
            }
        }
    }
}

TEST_CASE("a flat pad through its pivot, on a very long arm, is a flat tappet") {
    const SolvedLobe pad =
        basalt::solved(basalt::lopsided(20.0), flat_pad(1e6, 1e6, 0.0, Sense::ccw), Sense::ccw);
    const SolvedLobe tappet = basalt::solved(basalt::lopsided(20.0), basalt::endless_flat(), Sense::ccw);
    for (int i = 0; i < 90; ++i) {
        const double beta = 2.0 * pi * i / 90.0;
        CHECK_NEAR(pad.contour.polar_radius(ShaftAngle::from_radians(beta)),
                   tappet.contour.polar_radius(ShaftAngle::from_radians(beta)), 1e-3);
    }
}

TEST_CASE("a pad whose pivot is too near is refused with a distance that works") {
    Job job = basalt::job(basalt::lopsided(20.0), flat_pad(23.0, 38.0, 4.0, Sense::ccw));
    const auto lobes = solve_lobes(job);
    REQUIRE_FALSE(lobes.ok());
    CHECK(lobes.diagnostics().front().code == "arm-does-not-reach");
    CHECK_THAT(lobes.diagnostics().front().remedy, ContainsSubstring("give a pivot_radius of 24"));
}
