#include "hand/fixture/index_wheel.h"

#include "catch.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace lobewright;
using namespace lobewright::hand;

namespace {

ShaftAngle deg(double degrees) {
    return ShaftAngle::from_degrees(degrees);
}

}  // namespace

TEST_CASE("marks grow the way the wheel counts, from the zero that faces the cutter") {
    const IndexWheel ccw{72, deg(10), Sense::ccw, {}};
    CHECK_NEAR(ccw.facing(1).degrees(), 15.0, 1e-12);
    CHECK_NEAR(ccw.mark_of(deg(15)), 1.0, 1e-12);
    const IndexWheel cw{72, deg(10), Sense::cw, {}};
    CHECK_NEAR(cw.facing(1).degrees(), 5.0, 1e-12);
    CHECK_NEAR(cw.mark_of(deg(5)), 1.0, 1e-12);
    CHECK_NEAR(cw.mark_of(deg(15)), 71.0, 1e-12);
}

TEST_CASE("the nearest setting folds into the wheel") {
    const IndexWheel wheel{72, {}, Sense::ccw, {}};
    CHECK_NEAR(wheel.nearest_setting(deg(359)), 0.0, 0.0);
    CHECK_NEAR(wheel.nearest_setting(deg(-7)), 71.0, 0.0);
    CHECK_NEAR(wheel.nearest_setting(deg(12.4)), 2.0, 0.0);
}

TEST_CASE("a vernier sets whole steps of its own past a mark, and never past the next one") {
    const IndexWheel wheel{72, {}, Sense::ccw, deg(1.0)};
    CHECK_NEAR(wheel.nearest_setting(deg(7.2)), 1.4, 1e-12);
    CHECK_NEAR(wheel.nearest_setting(deg(4.8)), 1.0, 1e-12);
    const IndexWheel uneven{72, {}, Sense::ccw, deg(2.0)};  // 0, 2, 4, then the next mark at 5
    CHECK_NEAR(uneven.nearest_setting(deg(4.4)), 0.8, 1e-12);
    CHECK_NEAR(uneven.nearest_setting(deg(4.6)), 1.0, 1e-12);
}

TEST_CASE("no other zero has a smaller worst error than the best one, and the best has the one it tells") {
    const unsigned seed = 7;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    std::uniform_real_distribution<> angle(0.0, 360.0);
    for (int i = 0; i < 300; ++i) {
        IndexWheel wheel{static_cast<int>(24 + random() % 100),
                         deg(angle(random)),
                         random() % 2 ? Sense::ccw : Sense::cw,
                         {}};
        std::vector<ShaftAngle> wanted;
        for (std::size_t n = 1 + random() % 8; n > 0; --n)
            wanted.push_back(deg(angle(random)));
        const BestZero best = best_zero(wheel, wanted);
        IndexWheel turned = wheel;
        turned.zero += best.shift;
        REQUIRE(std::abs(worst_error(turned, wanted).degrees() - best.worst.degrees()) < 1e-9);
        REQUIRE(std::abs(best.shift.degrees()) <= wheel.division().degrees() / 2 + 1e-9);
        for (int k = 0; k < 400; ++k) {
            turned.zero = wheel.zero + wheel.division() * (k / 400.0);
            REQUIRE(worst_error(turned, wanted).degrees() >= best.worst.degrees() - 1e-9);
        }
    }
}

TEST_CASE("the wheels that have every mark are the multiples of the smallest") {
    // Flanks 60 degrees either side of noses at 0, 110 and 180: all multiples of 10 degrees.
    std::vector<ShaftAngle> wanted;
    for (const double nose : {0.0, 110.0, 180.0})
        wanted.insert(wanted.end(), {deg(nose - 60), deg(nose + 60)});
    const auto wheels = wheels_with_all_marks({72, {}, Sense::ccw, {}}, wanted);
    CHECK(wheels.zero_kept == std::vector<int>{36, 72, 108, 144, 180, 216, 252, 288, 324, 360});
    CHECK(wheels.zero_turned.empty());
}

TEST_CASE("a zero that stands between marks is told apart from one that can't be cured") {
    const std::vector<ShaftAngle> wanted = {deg(2.5), deg(122.5)};
    const auto wheels = wheels_with_all_marks({72, {}, Sense::ccw, {}}, wanted);
    CHECK(wheels.zero_kept == std::vector<int>{144, 288});
    REQUIRE_FALSE(wheels.zero_turned.empty());
    CHECK(wheels.zero_turned.front() == 3);
    const auto none = wheels_with_all_marks({72, {}, Sense::ccw, {}}, {deg(0), deg(121.2377), deg(200.1)});
    CHECK(none.zero_kept.empty());
    CHECK(none.zero_turned.empty());
}

TEST_CASE("the nearest wheel is the best of all that were tried one by one") {
    const std::vector<ShaftAngle> wanted = {deg(0), deg(121.2377), deg(200.1), deg(317.9)};
    const NearestWheel nearest = nearest_wheel({72, {}, Sense::ccw, {}}, wanted);
    double least = 1e9;
    for (int divisions = 1; divisions <= 360; ++divisions)
        least = std::min(least, best_zero({divisions, {}, Sense::ccw, {}}, wanted).worst.degrees());
    CHECK_NEAR(nearest.zero.worst.degrees(), least, 1e-9);
}
