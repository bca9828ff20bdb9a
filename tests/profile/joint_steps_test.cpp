#include "profile/judge/joint_steps.h"

#include "catch.h"
#include "profile/motion/motion_piece.h"

using namespace lobewright;
using namespace lobewright::profile;

namespace {

/// lift = a + b α + c α²
struct Parabola {
    double a, b, c;
    template <class T>
    T operator()(const T& alpha) const {
        return a + alpha * (b + c * alpha);
    }
};

MotionPiece piece(double start, double end, double a, double b, double c) {
    return piece_of("piece", start, end, Parabola{a, b, c});
}

}  // namespace

TEST_CASE("a velocity that jumps is found with its joint, however the lift joins") {
    // Up a straight line, down another: the speed turns from 2 to -1 at 0, and stops and starts at the ends.
    const std::vector<MotionPiece> roof{piece(-2, -1, 0, 0, 0), piece(-1, 0, 2, 2, 0), piece(0, 2, 2, -1, 0)};
    const JointSteps velocity = velocity_steps(roof);
    CHECK(velocity.joints == 3);
    CHECK(velocity.largest == 3.0);
    CHECK(velocity.at.radians() == 0.0);
    CHECK(acceleration_steps(roof).joints == 0);
}

TEST_CASE("of equal jumps of the acceleration the first counts, also the one at the seam") {
    // Speeding up by 2, slowing down by 2, resting: jumps of 2, 4 and 2.
    const std::vector<MotionPiece> motion{piece(-1, 0, 1, 2, 1), piece(0, 1, 1, 2, -1), piece(1, 2, 2, 0, 0)};
    CHECK(velocity_steps(motion).joints == 0);
    const JointSteps acceleration = acceleration_steps(motion);
    CHECK(acceleration.joints == 3);
    CHECK(acceleration.largest == 4.0);
    CHECK(acceleration.at.radians() == 0.0);
}

TEST_CASE("rounding is no jump") {
    const double tiny = 1e-12;
    const std::vector<MotionPiece> smooth{piece(-1, 0, 1, 2, 1), piece(0, 1, 1, 2 + tiny, 1 - tiny),
                                          piece(1, 2, 1, 2, 1)};
    CHECK(acceleration_steps(smooth).joints == 0);
}
