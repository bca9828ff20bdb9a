// Paths whose axes' speeds step by little at the joints of blocks: against the tunnel itself and speeds
// worked out here from the knots.

#include "toolpath/path/joint_jumps.h"

#include "catch.h"

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

constexpr double surface_radius = 20.0;  // mm: what the contact runs per radian
constexpr double feed = 120.0;           // mm/min

/// A tunnel of half width `half` round 20 + height sin(waves x), over whole rotary steps.
struct Wave {
    double height = 1.0, waves = 3.0, half = 1e-3;
    [[nodiscard]] double at(double x) const { return 20.0 + height * std::sin(waves * x); }
    [[nodiscard]] std::vector<Gate> gates(Steps steps) const {
        std::vector<Gate> found;
        constexpr int count = 800, each = 60;
        for (int i = 0; i <= count; ++i) {
            const double x = each * i * steps.rotary;
            found.push_back({x, at(x) - half, at(x) + half});
        }
        return found;
    }
};

BlockBetween blocks(Steps steps) {
    return [steps](const GridKnot& a, const GridKnot& b) {
        const double turn = static_cast<double>(b.rotary - a.rotary) * steps.rotary;
        const double rise = static_cast<double>(b.radial - a.radial) * steps.radial;
        return PathBlock{rise, 0.0, turn * 180.0 / std::numbers::pi, turn * surface_radius, feed};
    };
}

/// By how much knots, or gates between them, lie outside the tunnel; 0: nowhere.
double spill(const std::vector<Gate>& gates, const std::vector<GridKnot>& path, Steps steps) {
    double worst = 0.0;
    const auto x = [&](const GridKnot& k) { return static_cast<double>(k.rotary) * steps.rotary; };
    const auto y = [&](const GridKnot& k) { return static_cast<double>(k.radial) * steps.radial; };
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        for (std::size_t g = 0; g < gates.size(); ++g) {
            if (gates[g].at < x(path[i]) || gates[g].at > x(path[i + 1])) continue;
            const double share = (gates[g].at - x(path[i])) / (x(path[i + 1]) - x(path[i]));
            const double here = y(path[i]) + share * (y(path[i + 1]) - y(path[i]));
            worst = std::max({worst, gates[g].low - here, here - gates[g].high});
        }
    }
    return worst;
}

/// Largest step of the radial speed, mm/min, at the joints of a path run at the feed along the surface.
double largest_radial_jump(const std::vector<GridKnot>& path, Steps steps) {
    double worst = 0.0;
    const auto speed = [&](std::size_t i) {
        const double turn = static_cast<double>(path[i + 1].rotary - path[i].rotary) * steps.rotary;
        const double rise = static_cast<double>(path[i + 1].radial - path[i].radial) * steps.radial;
        return rise / (turn * surface_radius / feed);
    };
    for (std::size_t i = 0; i + 2 < path.size(); ++i)
        worst = std::max(worst, std::abs(speed(i + 1) - speed(i)));
    return worst;
}

}  // namespace

TEST_CASE("knots put into blocks, which the grid rounds, stay within the tunnel as it was given") {
    // A tunnel of few steps' width, where half a step counts.
    const Steps steps{1.7e-5, 1e-4};
    int added = 0;
    for (const double half : {2.2e-4, 3e-4, 5e-4}) {
        for (const double waves : {2.0, 3.7, 5.1}) {
            for (const double jump : {1.0, 3.0, 8.0}) {
                const Wave wave{0.8, waves, half};
                const std::vector<Gate> gates = wave.gates(steps);
                AxisLimits limits;
                limits.radial_jump = jump;
                const auto path = path_with_small_jumps(gates, {steps}, blocks(steps), limits);
                REQUIRE(path);
                const auto knots = eased(*path, blocks(steps), limits, steps);
                INFO("half width " << half << ", " << waves << " waves, jumps of " << jump);
                CHECK(spill(gates, *path, steps) <= 1e-8);
                CHECK(spill(gates, knots, steps) <= 1e-8);
                added += static_cast<int>(knots.size() - path->size());
            }
        }
    }
    CHECK(added > 500);  // the rounding was tried
}

// There is no room left for the rounding: of the knots put in, some leave the tunnel.
TEST_CASE("in a tunnel hardly wider than a step no knot is put in that the grid would round out of it") {
    const Steps steps{1.7e-5, 1e-4};
    AxisLimits limits;
    limits.radial_jump = 3.0;
    double without = 0.0;
    std::size_t added = 0;
    for (const double waves : {2.0, 3.7, 5.1}) {
        const std::vector<Gate> gates = Wave{0.8, waves, 0.9e-4}.gates(steps);
        const auto path = path_with_small_jumps(gates, {steps}, blocks(steps), limits);
        REQUIRE(path);
        const auto within = [&](const GridKnot& a, const GridKnot& b) {
            return spill(gates, {a, b}, steps) <= 1e-8;
        };
        const auto knots = eased(*path, blocks(steps), limits, steps, within);
        INFO(waves << " waves");
        CHECK(spill(gates, knots, steps) <= 1e-8);
        added += knots.size() - path->size();
        without = std::max(without, spill(gates, eased(*path, blocks(steps), limits, steps), steps));
    }
    CHECK(without > 1e-6);
    CHECK(added > 0);
}

// A ring may stand 0.12 mm proud of a surface that rises by 3 mm/radian at most, and lies on it where that is
// level. The tunnel's middle stands 0.06 mm over the level.
TEST_CASE("where jumps are limited the path comes down to a level stretch aslant, and not over an edge") {
    const Steps steps{1.7e-5, 1e-4};
    constexpr int count = 600, each = 60, level_from = 200, level_to = 400;
    const auto rise = [&](int gates_on) {
        return 1.5 * (1.0 - std::cos(2.0 * gates_on * each * steps.rotary));
    };
    std::vector<Gate> gates;
    for (int i = 0; i <= count; ++i) {
        const bool fixed = i >= level_from && i <= level_to;
        const double low = 20.0 + (i < level_from ? rise(level_from - i)
                                   : i > level_to ? rise(i - level_to)
                                                  : 0.0);
        gates.push_back({each * i * steps.rotary, low, low + (fixed ? 0.0 : 0.12), fixed});
    }
    for (const double jump : {2.0, 5.0, 10.0}) {
        AxisLimits limits;
        limits.radial_jump = jump;
        const auto path = path_with_small_jumps(gates, {steps}, blocks(steps), limits);
        REQUIRE(path);
        double steepest = 0.0;
        for (std::size_t i = 1; i < path->size(); ++i) {
            const GridKnot &a = (*path)[i - 1], &b = (*path)[i];
            const double fall = static_cast<double>(std::abs(b.radial - a.radial)) * steps.radial;
            steepest = std::max(steepest, fall / (static_cast<double>(b.rotary - a.rotary) * steps.rotary));
        }
        INFO("jumps of " << jump << ", " << path->size() << " knots");
        CHECK(steepest <= 3.0 + 3.0);
    }
}

TEST_CASE("where jumps are limited there are knots enough that the wanted speeds step by no more") {
    const Steps steps{1.7e-5, 1e-4};
    const Wave wave{0.8, 3.0, 2e-3};
    const std::vector<Gate> gates = wave.gates(steps);
    const auto free = path_on_grid(gates, {steps});
    REQUIRE(free);
    const double before = largest_radial_jump(*free, steps);
    std::size_t knots = free->size();
    for (const double share : {0.7, 0.5, 0.35}) {
        AxisLimits limits;
        limits.radial_jump = share * before;
        const auto path = path_with_small_jumps(gates, {steps}, blocks(steps), limits);
        REQUIRE(path);
        INFO(share << " of " << before << " mm/min");
        CHECK(largest_radial_jump(*path, steps) <= 1.02 * *limits.radial_jump);
        CHECK(path->size() > knots);
        knots = path->size();
    }
}

TEST_CASE("without limits on jumps path and knots are those of the grid") {
    const Steps steps{1.7e-5, 1e-4};
    const std::vector<Gate> gates = Wave{0.8, 3.0, 1e-3}.gates(steps);
    AxisLimits limits;
    limits.radial_speed = 100.0;
    const auto path = path_with_small_jumps(gates, {steps}, blocks(steps), limits);
    REQUIRE(path);
    CHECK(*path == *path_on_grid(gates, {steps}));
    CHECK(eased(*path, blocks(steps), limits, steps) == *path);
}

TEST_CASE("no block is made shorter than the block rate allows") {
    const Steps steps{1.7e-5, 1e-4};
    const std::vector<Gate> gates = Wave{0.8, 3.0, 2e-3}.gates(steps);
    AxisLimits limits;
    limits.radial_jump = 0.5;
    limits.blocks_per_second = 4.0;
    const auto path = path_with_small_jumps(gates, {steps}, blocks(steps), limits);
    REQUIRE(path);
    for (std::size_t i = 0; i + 1 < path->size(); ++i) {
        const double turn = static_cast<double>((*path)[i + 1].rotary - (*path)[i].rotary) * steps.rotary;
        CHECK(turn * surface_radius / feed * 60.0 >= 0.5 / 4.0);  // blocks about as long as the rate asks for
    }
}

TEST_CASE("blocks that are eased from both ends get no block shorter than the short ones that are cut off") {
    const Steps steps{1.7e-5, 1e-4};
    AxisLimits limits;
    limits.radial_jump = 3.0;
    // Up and down by 0.06 mm in 0.2055 s: steps of 35 mm/min between blocks, each of which is some 25.7 of
    // the shortest: for four steps of the word within the limit 0.008 s, 0.0008 radians, 47 steps of the
    // shaft.
    std::vector<GridKnot> zigzag;
    for (int i = 0; i <= 4; ++i)
        zigzag.push_back({1209 * i, i % 2 == 0 ? 200000 : 200600});
    const auto knots = eased(zigzag, blocks(steps), limits, steps);
    CHECK(knots.size() > zigzag.size() + 40);
    for (std::size_t i = 1; i < knots.size(); ++i) {
        CAPTURE(i);
        CHECK(knots[i].rotary - knots[i - 1].rotary >= 46);
    }
}
