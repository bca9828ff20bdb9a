#include "toolpath/path/block_timing.h"

#include "catch.h"

#include <algorithm>
#include <random>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

PathBlock turn(double degrees, double way = 0.0) {
    return {0.0, 0.0, degrees, way, 100.0};
}

}  // namespace

TEST_CASE("a block takes the longest of what the feed, the axes and the block rate ask for") {
    AxisLimits limits;
    CHECK_NEAR(block_times({turn(1.0, 50.0)}, limits)[0].seconds, 30.0, 1e-9);
    limits.rotary_speed = 60.0;
    const BlockTime slow = block_times({turn(45.0, 50.0)}, limits)[0];
    CHECK_NEAR(slow.seconds, 45.0, 1e-9);
    CHECK(slow.limit == TimeLimit::rotary_speed);
    limits.blocks_per_second = 0.01;
    CHECK(block_times({turn(45.0, 50.0)}, limits)[0].limit == TimeLimit::block_rate);
    limits = {};
    limits.radial_speed = 10.0;
    CHECK(block_times({{5.0, 0.0, 1.0, 1.0, 100.0}}, limits)[0].limit == TimeLimit::radial_speed);
}

TEST_CASE("from rest to rest a lone block's mean speed is reached over half of it: t = sqrt(2 s / a)") {
    AxisLimits limits;
    limits.rotary_acceleration = 50.0;
    CHECK_NEAR(block_times({turn(100.0)}, limits)[0].seconds, 2.0, 1e-9);
}

TEST_CASE("a first block that the feed makes slow enough for the start from rest keeps the feed's time") {
    AxisLimits limits;
    limits.rotary_acceleration = 50.0, limits.rotary_jump = 6000.0;
    // 100 degrees from rest take 2 s at least; at 100 mm/min 3.5 mm take 2.1 s.
    const BlockTime time = block_times({turn(100.0, 3.5)}, limits)[0];
    CHECK_NEAR(time.seconds, 2.1, 1e-9);
    CHECK(time.limit == TimeLimit::surface_feed);
}

TEST_CASE("an axis speeds up and slows down evenly over many blocks") {
    AxisLimits limits;
    limits.rotary_acceleration = 100.0;
    limits.rotary_speed = 6000.0;  // 100 degrees/s
    std::vector<PathBlock> chain(400, turn(1.0));
    const auto times = block_times(chain, limits);
    // By v² = 2 a s the full speed is reached after 50 degrees.
    for (std::size_t i = 5; i < 45; ++i)
        CHECK_RELATIVE(1.0 / times[i].seconds, std::sqrt(200.0 * (static_cast<double>(i) + 0.5)), 0.03);
    CHECK_NEAR(times[200].seconds, 0.01, 1e-9);
    for (std::size_t i = 0; i < chain.size(); ++i) {
        CHECK_RELATIVE(times[i].seconds, times[chain.size() - 1 - i].seconds, 1e-6);
    }
}

TEST_CASE(
    "a corner between two blocks slows both, and a long block before a slow one only as much as it must") {
    AxisLimits limits;
    limits.radial_acceleration = 10.0;
    // A corner of 2 x 0.1 mm/degree between blocks of 1 degree: ω² 0.2 = 10 x 1 → ω = sqrt(50) degrees/s.
    const auto corner = block_times({{1.0, 0, 10.0, 1e-6, 100.0},
                                     {0.1, 0, 1.0, 1e-6, 100.0},
                                     {-0.1, 0, 1.0, 1e-6, 100.0},
                                     {-1.0, 0, 10.0, 1e-6, 100.0}},
                                    limits);
    CHECK_NEAR(1.0 / corner[1].seconds, std::sqrt(50.0), 1e-6);
    CHECK_NEAR(1.0 / corner[2].seconds, std::sqrt(50.0), 1e-6);
    limits = {};
    limits.rotary_acceleration = 100.0;
    const auto stop =
        block_times({turn(90.0, 15.0), turn(1.0, 100.0)}, limits);  // 10 degrees/s, then 1 in a minute
    CHECK_NEAR(stop[0].seconds, 9.0, 1e-6);
}

TEST_CASE("a step of speed at a joint keeps to the jump, from rest too") {
    AxisLimits limits;
    limits.rotary_jump = 60.0;  // 1 degree/s
    const auto times = block_times({turn(1.0), turn(2.0), turn(9.0), turn(2.0), turn(1.0)}, limits);
    const double speeds[] = {1.0, 2.0, 3.0, 2.0, 1.0};
    const double lengths[] = {1.0, 2.0, 9.0, 2.0, 1.0};
    for (std::size_t i = 0; i < 5; ++i)
        CHECK_NEAR(lengths[i] / times[i].seconds, speeds[i], 1e-6);
}

TEST_CASE("a corner under one rotary speed keeps to the other axis's jump") {
    AxisLimits limits;
    limits.radial_jump = 6.0;  // 0.1 mm/s: half a degree a second at a corner of 2 x 0.1 mm/degree
    const auto times = block_times({{1.0, 0, 10.0, 1e-6, 100.0},
                                    {0.1, 0, 1.0, 1e-6, 100.0},
                                    {-0.1, 0, 1.0, 1e-6, 100.0},
                                    {-1.0, 0, 10.0, 1e-6, 100.0}},
                                   limits);
    CHECK_NEAR(times[1].seconds, 2.0, 1e-6);
    CHECK_NEAR(times[2].seconds, 2.0, 1e-6);
    CHECK_NEAR(times[0].seconds, 10.0, 1e-6);  // from rest by no more than 0.1 mm/s
}

// At 100 mm/min the level takes 15 s and each slope 0.3 s, where the jump of 0.05 mm/s asks for 0.4 s.
TEST_CASE("a level block keeps its time where the slopes beside it are slowed for the jump") {
    AxisLimits limits;
    limits.radial_jump = 3.0;
    const PathBlock down{-0.02, 0.0, 2.0, 0.5, 100.0}, level = turn(100.0, 25.0),
                                                       up{0.02, 0.0, 2.0, 0.5, 100.0};
    const auto times = block_times({down, level, up}, limits);
    CHECK_NEAR(times[0].seconds, 0.4, 1e-9);
    CHECK_NEAR(times[1].seconds, 15.0, 1e-9);
    CHECK_NEAR(times[2].seconds, 0.4, 1e-9);
}

// 0.4/v + 0.1/(0.1 - v) is least at v = 0.2/3: 6 s and 3 s.
TEST_CASE("blocks between which the axis turns back share the jump so that both together take the least") {
    AxisLimits limits;
    limits.radial_jump = 6.0;
    const auto times = block_times({{0.4, 0.0, 1.0, 1e-6, 100.0}, {-0.1, 0.0, 1.0, 1e-6, 100.0}}, limits);
    CHECK_NEAR(times[0].seconds, 6.0, 1e-9);
    CHECK_NEAR(times[1].seconds, 3.0, 1e-9);
    // The first is as slow as 0.02 mm/s by its feed: the other gets the rest.
    const auto slow = block_times({{0.4, 0.0, 1.0, 20.0, 60.0}, {-0.1, 0.0, 1.0, 1e-6, 100.0}}, limits);
    CHECK_NEAR(slow[0].seconds, 20.0, 1e-9);
    CHECK_NEAR(slow[1].seconds, 0.1 / 0.08, 1e-9);
}

// Speeds that only differences limit, and none in the other sense, have one largest solution: in it every
// block runs at its own least time, or at a joint (or from rest) by the whole jump faster than its neighbour.
TEST_CASE("steps of speed in one sense are used up, and none is passed, over random chains") {
    std::mt19937 engine(161803);
    const auto draw = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(engine);
    };
    AxisLimits limits;
    limits.radial_jump = 12.0, limits.rotary_jump = 180.0;
    const double radial_jump = 0.2, rotary_jump = 3.0;  // per second
    int at_jump = 0;
    for (int trial = 0; trial < 200; ++trial) {
        std::vector<PathBlock> chain;
        for (int i = 0; i < 40; ++i)
            chain.push_back({draw(0.0, 0.3), 0.0, draw(0.2, 3.0), draw(0.05, 1.0), 60.0});
        const auto times = block_times(chain, limits);
        const auto radial = [&](std::size_t i) { return chain[i].radial / times[i].seconds; };
        const auto rotary = [&](std::size_t i) { return chain[i].rotary / times[i].seconds; };
        // The most by which the block is faster than a neighbour or rest, of its jump.
        const auto rise = [&](std::size_t i) {
            const double radial_before = i > 0 ? radial(i - 1) : 0.0;
            const double radial_after = i + 1 < chain.size() ? radial(i + 1) : 0.0;
            const double rotary_before = i > 0 ? rotary(i - 1) : 0.0;
            const double rotary_after = i + 1 < chain.size() ? rotary(i + 1) : 0.0;
            return std::max((radial(i) - std::min(radial_before, radial_after)) / radial_jump,
                            (rotary(i) - std::min(rotary_before, rotary_after)) / rotary_jump);
        };
        for (std::size_t i = 0; i < chain.size(); ++i) {
            INFO("trial " << trial << ", block " << i);
            CHECK(rise(i) <= 1.0 + 1e-6);
            if (times[i].seconds > chain[i].distance * (1.0 + 1e-6)) {
                CHECK(rise(i) >= 1.0 - 1e-6);
                ++at_jump;
            }
        }
    }
    CHECK(at_jump > 2000);
}

TEST_CASE("a rapid takes as long as its slowest axis") {
    AxisLimits limits;
    CHECK(rapid_seconds(10.0, 10.0, 10.0, limits) == 0.0);
    limits.radial_speed = 600.0, limits.rotary_speed = 60.0;
    CHECK_NEAR(rapid_seconds(-10.0, 500.0, 3.0, limits), 3.0, 1e-12);
}

// v = 10 mm/s at 20 mm/s²: half a second and 2.5 mm up to it, as much down from it.
TEST_CASE("with its acceleration a rapid takes longer, and a short one never comes to its speed") {
    AxisLimits limits;
    limits.radial_speed = 600.0, limits.radial_acceleration = 20.0;
    CHECK_NEAR(rapid_seconds(25.0, 0.0, 0.0, limits), 0.5 + 2.0 + 0.5, 1e-12);
    CHECK_NEAR(rapid_seconds(5.0, 0.0, 0.0, limits), 1.0, 1e-12);
    CHECK_NEAR(rapid_seconds(1.25, 0.0, 0.0, limits), 0.5, 1e-12);
    CHECK(rapid_seconds(0.0, 0.0, 0.0, limits) == 0.0);
}

TEST_CASE("the way down to the work takes longer than its feed says, by its ramps") {
    AxisLimits limits;
    limits.radial_acceleration = 20.0;
    const std::vector<PathBlock> down = {
        {-25.0, 0.0, 0.0, 25.0, 600.0}, {-2.0, 0.0, 0.0, 2.0, 240.0}, {0.0, 0.0, 10.0, 1.0, 60.0}};
    const std::vector<BlockTime> times = {{2.5, {}}, {0.5, {}}, {1.0, {}}};
    // 0 to 10 mm/s: 0.25 s; 10 to 4: 36/400 = 0.09 s; 4 to 0: 0.1 s.
    CHECK_NEAR(ramp_seconds(down, times, limits), 0.25 + 0.09 + 0.1, 1e-12);
    CHECK(ramp_seconds({down[2]}, {times[2]}, limits) == 0.0);
}

TEST_CASE("on an exact path each block that turns the shaft takes v/a longer, for its stops") {
    AxisLimits limits;
    limits.radial_acceleration = 20.0, limits.rotary_acceleration = 100.0;
    const std::vector<PathBlock> chain = {
        {-25.0, 0.0, 0.0, 25.0, 600.0}, {0.0, 0.0, 10.0, 1.0, 60.0}, {3.0, 0.0, 10.0, 1.0, 60.0}};
    const std::vector<BlockTime> times = {{2.5, {}}, {1.0, {}}, {2.0, {}}};
    // 10 degrees a second: 0.1 s; 1.5 mm/s: 0.075 s, more than the shaft's 0.05. Plunges have their ramps.
    CHECK_NEAR(stop_seconds(chain, times, limits), 0.1 + 0.075, 1e-12);
    CHECK(stop_seconds(chain, times, AxisLimits{}) == 0.0);
}

TEST_CASE("from rest to rest a block takes its way at its speed and one ramp more, or turns back half way") {
    AxisLimits limits;
    limits.rotary_acceleration = 100.0;
    const std::vector<PathBlock> chain{turn(10.0)};
    // 10 degrees in 2 s are 5 degrees/s, to which 0.05 s lead and 0.05 s from it: each half way at half
    // speed.
    CHECK_NEAR(stop_seconds(chain, {{2.0, TimeLimit::surface_feed}}, limits), 0.05, 1e-12);
    // In 0.1 s they can't be: 5 degrees up and 5 down take sqrt(10 / 100) s each.
    CHECK_NEAR(stop_seconds(chain, {{0.1, TimeLimit::surface_feed}}, limits), 2.0 * std::sqrt(0.1) - 0.1,
               1e-12);
}
