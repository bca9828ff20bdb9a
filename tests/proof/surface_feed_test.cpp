#include "proof/judge/surface_feed.h"

#include "catch.h"

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
