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
    /// How far from the axis a ray of the shaft can go before it meets the follower at that cam angle.
    [[nodiscard]] double clear(double alpha, Vec2 ray) const {
        constexpr double far = 1e9;
        if (lobe.follower.kind == FollowerKind::flat) {
            const double cosine = dot(ray, unit(lobe.at.radians() - sign_of(lobe.turns) * alpha));
            const double h = lobe.base_radius + lobe.motion.at(CamAngle::from_radians(alpha)).lift;
            return cosine > 1e-6 ? h / cosine : far;
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
