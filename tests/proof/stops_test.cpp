// What the proof adds to a program's time where a controller comes to rest after each block: distances,
// speeds and accelerations as in any textbook, from rest to rest.

#include "catch.h"
#include "proof/judge/limit_checks.h"

using namespace lobewright;
using namespace lobewright::proof;

namespace {

ReadMove feed_to(double radial, double rotary, double seconds) {
    ReadMove move;
    move.kind = ReadMoveKind::feed;
    move.radial = radial, move.axial = 0.0, move.rotary = rotary;
    move.seconds = seconds;
    return move;
}

/// Seconds by which one block from rest to rest takes longer than it says, at 4 mm/s² and 100 degrees/s².
double stop_of(double radial, double rotary, double seconds) {
    AxisLimits limits;
    limits.radial_acceleration = 4.0, limits.rotary_acceleration = 100.0;
    CycleTime time(limits);
    time.take(feed_to(0.0, 0.0, 0.0));
    time.take(feed_to(radial, rotary, seconds));
    return time.seconds(true) - time.seconds(false);
}

}  // namespace

// 20 degrees in 2 s are 10 degrees/s, which it takes 0.1 s to come to and 0.1 s to leave, each at half the
// speed.
TEST_CASE("a block long enough for its speed takes one ramp longer, of its slowest axis") {
    CHECK_NEAR(stop_of(0.0, 20.0, 2.0), 0.1, 1e-12);
    CHECK_NEAR(stop_of(0.0, -20.0, 2.0), 0.1, 1e-12);
    CHECK_NEAR(stop_of(2.0, 20.0, 2.0), 0.25, 1e-12);  // 1 mm/s at 4 mm/s²
}

// 4 degrees in 0.1 s would be 40 degrees/s, for which 8 degrees up and 8 down are needed: it speeds up over 2
// degrees, to 20 degrees/s in 0.2 s, and slows down over the other 2.
TEST_CASE("a block too short for its speed turns back half way, and takes 2 sqrt(d / a) in all") {
    CHECK_NEAR(stop_of(0.0, 4.0, 0.1), 0.4 - 0.1, 1e-12);
    CHECK_NEAR(stop_of(-1.0, 4.0, 0.1), 1.0 - 0.1, 1e-12);  // half a millimetre in 0.5 s, and the other
}

// Just long enough: 1 degree in 0.1 s, 10 degrees/s, half a degree up and half down.
TEST_CASE("both meet where the block is just long enough for its speed") {
    CHECK_NEAR(stop_of(0.0, 1.0, 0.1), 0.1, 1e-12);
    CHECK_NEAR(stop_of(0.0, 1.0, 0.1 * (1.0 + 1e-9)), stop_of(0.0, 1.0, 0.1 * (1.0 - 1e-9)), 1e-9);
}
