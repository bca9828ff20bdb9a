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

TEST_CASE("the first wheels are those with every flank on a mark, the zero kept, no coarser than this one") {
    // Flanks 60 degrees either side of noses at 0, 110 and 180: all multiples of 10 degrees.
    std::vector<ShaftAngle> wanted;
    for (const double nose : {0.0, 110.0, 180.0})
        wanted.insert(wanted.end(), {deg(nose - 60), deg(nose + 60)});
    const auto wheels = ranked_wheels({72, {}, Sense::ccw, {}}, wanted);
    REQUIRE(wheels.size() == largest_wheel - smallest_wheel + 1);
    const std::vector<int> first = {72, 108, 144, 180, 216, 252, 288, 324, 360, 396, 36};
    for (std::size_t i = 0; i < first.size(); ++i) {
        CHECK(wheels[i].divisions == first[i]);
        CHECK(wheels[i].zero_kept);
        CHECK_NEAR(wheels[i].worst.degrees(), 0.0, 0.0);
    }
}

TEST_CASE("a wheel whose zero stands between marks is told with the zero to set") {
    const auto wheels = ranked_wheels({72, {}, Sense::ccw, {}}, {deg(2.5), deg(122.5)});
    CHECK(wheels[0].divisions == 144);
    CHECK(wheels[0].zero_kept);
    CHECK(wheels[1].divisions == 288);
    CHECK_FALSE(wheels[2].zero_kept);
    CHECK(wheels[2].divisions == 72);
    CHECK_NEAR(wheels[2].worst.degrees(), 0.0, 0.0);
    CHECK_NEAR(std::remainder(wheels[2].zero.degrees() - 2.5, 5.0), 0.0, 1e-9);
}

TEST_CASE("every wheel told is as true as it says when it is set, and no better one is left out") {
    const unsigned seed = 11;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    std::uniform_real_distribution<> angle(0.0, 360.0);
    for (int trial = 0; trial < 20; ++trial) {
        IndexWheel in_hand{static_cast<int>(24 + random() % 300),
                           deg(angle(random)),
                           random() % 2 ? Sense::ccw : Sense::cw,
                           {}};
        if (trial % 4 == 3) in_hand.vernier = deg(0.25);
        std::vector<ShaftAngle> wanted;
        for (std::size_t n = 2 + random() % 7; n > 0; --n)
            wanted.push_back(deg(angle(random)));
        const auto wheels = ranked_wheels(in_hand, wanted);
        for (std::size_t i = 0; i < wheels.size(); ++i) {
            if (i > 0) REQUIRE(wheels[i].worst >= wheels[i - 1].worst);
            // Set, with nothing of the wheel but its marks, a division apart, and its vernier's steps.
            double worst = 0.0;
            for (const ShaftAngle flank : wanted) {
                double nearest = 400.0;
                const double division = 360.0 / wheels[i].divisions;
                for (int mark = 0; mark < wheels[i].divisions; ++mark) {
                    const double steps = in_hand.vernier ? std::floor(division / 0.25 - 1e-9) : 0.0;
                    for (double step = 0.0; step <= steps; ++step) {
                        const double facing = wheels[i].zero.degrees() +
                                              sign_of(in_hand.counts) * (mark * division + step * 0.25);
                        nearest =
                            std::min(nearest, std::abs(std::remainder(facing - flank.degrees(), 360.0)));
                    }
                }
                worst = std::max(worst, nearest);
            }
            if (i < 12) REQUIRE(std::abs(worst - wheels[i].worst.degrees()) < 2e-9);
        }
        double least = 400.0;
        for (int divisions = smallest_wheel; divisions <= largest_wheel && !in_hand.vernier; ++divisions)
            least = std::min(least, best_zero({divisions, {}, Sense::ccw, {}}, wanted).worst.degrees());
        if (!in_hand.vernier) CHECK_NEAR(wheels.front().worst.degrees(), least, 2e-9);
    }
}
