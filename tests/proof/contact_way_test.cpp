#include "proof/judge/contact_way.h"

#include "catch.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace lobewright;
using namespace lobewright::proof;

namespace {

constexpr double radius = 10.0;

/// Rays of a circle of `radius` about the axis, the first at `start` (radians), round to it again.
std::vector<DesignRay> circle(double start) {
    std::vector<DesignRay> rays;
    for (int i = 0; i <= 180; ++i) {
        DesignRay ray;
        ray.psi = start + full_turn * i / 180.0;
        ray.radius = radius;
        rays.push_back(ray);
    }
    return rays;
}

/// Rays two degrees apart of a straight line `radius` from the axis, square to the direction 0, from -60 to
/// 60 degrees.
std::vector<DesignRay> straight() {
    std::vector<DesignRay> rays;
    for (int i = -30; i <= 30; ++i) {
        DesignRay ray;
        ray.psi = full_turn * i / 180.0;
        ray.lean = std::cos(ray.psi);
        ray.radius = radius / ray.lean;
        ray.slope = radius * std::sin(ray.psi) / (ray.lean * ray.lean);
        rays.push_back(ray);
    }
    return rays;
}

/// Where on that line, from the foot of the normal, the end of a flat of half width `half` rides that faces
/// the direction `facing`: half = t cos - radius sin.
double ridden(double half, double facing) {
    return (half + radius * std::sin(facing)) / std::cos(facing);
}

}  // namespace

// Of a program that runs on for many turns, blocks end just where the rays begin: there rounding decides on
// which side of the seam the facing lies.
TEST_CASE("the contact's way runs on evenly over the seam of the rays, turn after turn") {
    PlaneSection section;
    section.corner = 25.0;
    std::mt19937 dice(20261126);
    std::uniform_real_distribution<double> anywhere(-3.0, 3.0);
    for (int trial = 0; trial < 200; ++trial) {
        const double start = anywhere(dice);
        const ContactWay way(circle(start), section);
        const double chords = 2.0 * radius * 180.0 * std::sin(full_turn / 360.0);
        for (int turn = -40; turn <= 40; ++turn) {
            INFO("start " << start << ", turn " << turn);
            const double seam = start + turn * full_turn;
            for (const double facing : {std::nextafter(seam, -1e9), seam, std::nextafter(seam, 1e9)})
                CHECK_NEAR(way.between(facing, start + 0.5 * full_turn), std::abs(0.5 - turn) * chords, 1e-9);
        }
    }
}

TEST_CASE("on a straight flank the contact runs on from the very end of a flat that is narrower than it") {
    // Between rays the way is taken in proportion. Up to 0.3 radians it bends by no more than (half cos² + 2
    // sin (radius + half sin)) / cos³, 17 mm a radian squared, and its rays lie no further apart than 0.061
    // in facing: a chord is off by an eighth of the square.
    constexpr double by_chord = 17.0 * 0.061 * 0.061 / 8.0;
    PlaneSection section;
    for (const double half : {3.0, 5.0, 7.77}) {
        section.half_flat = half;
        const ContactWay way(straight(), section);
        for (const double from : {1e-6, 0.01, 0.1}) {
            for (const double to : {0.02, 0.15, 0.3}) {
                if (to <= from) continue;
                INFO("flat " << half << ", from " << from << " to " << to);
                const double exact = ridden(half, to) - ridden(half, from);
                CHECK_NEAR(way.between(from, to), exact, by_chord);
                CHECK_NEAR(way.between(-to, -from), exact, by_chord);
            }
        }
    }
}

TEST_CASE("a flat comes down to a straight flank as the end that rides it asks") {
    // Its lowest point stands at (radius + half sin) / cos; by its chord as above.
    PlaneSection section;
    section.half_flat = 5.0;
    const ContactWay way(straight(), section);
    const auto low = [&](double facing) {
        return (radius + section.half_flat * std::sin(std::abs(facing))) / std::cos(facing);
    };
    for (const double from : {-0.3, -0.1, 0.0, 0.15, 0.28}) {
        for (const double to : {-0.2, -0.02, 0.05, 0.3}) {
            INFO("from " << from << " to " << to);
            CHECK_NEAR(way.fall(from, to), low(from) - low(to), 0.008);
        }
    }
}

// Where a knot lies just there, rounding alone would say which of the two blocks has it.
TEST_CASE("the leap along a straight flank under a flat belongs to the block that it lies within") {
    PlaneSection section;
    section.half_flat = 5.0;
    const ContactWay way(straight(), section);
    for (const double there : {std::nextafter(0.0, -1.0), 0.0, std::nextafter(0.0, 1.0)}) {
        CHECK(way.between(there, 1e-5) < 1e-3);
        CHECK(way.between(-1e-5, there) < 1e-3);
    }
    CHECK_NEAR(way.between(-1e-5, 1e-5), 10.0, 1e-3);
}
