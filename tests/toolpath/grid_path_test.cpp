#include "toolpath/tunnel/grid_path.h"

#include "catch.h"
#include "toolpath/tunnel/tunnel.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace lobewright::toolpath;

namespace {

/// By how much the path leaves the tunnel, at gates, at knots and between both; 0: nowhere.
double spill(const std::vector<Gate>& gates, const std::vector<GridKnot>& path, Steps steps) {
    double worst = 0.0;
    const auto hold = [&](double x, double y) {
        std::size_t i = 1;
        while (i + 1 < gates.size() && gates[i].at < x)
            ++i;
        const Gate &a = gates[i - 1], &b = gates[i];
        const double share = (x - a.at) / (b.at - a.at);
        worst =
            std::max({worst, a.low + share * (b.low - a.low) - y, y - a.high - share * (b.high - a.high)});
    };
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        const double a = static_cast<double>(path[i].rotary) * steps.rotary;
        const double b = static_cast<double>(path[i + 1].rotary) * steps.rotary;
        const double from = static_cast<double>(path[i].radial) * steps.radial;
        const double to = static_cast<double>(path[i + 1].radial) * steps.radial;
        hold(a, from), hold(b, to);
        for (const Gate& gate : gates) {
            if (gate.at > a && gate.at < b) hold(gate.at, from + (to - from) * (gate.at - a) / (b - a));
        }
    }
    return worst;
}

struct Wave {
    double height = 1.0, waves = 3.0, half = 1e-3;
    [[nodiscard]] std::vector<Gate> gates(Steps steps) const {
        std::vector<Gate> found;
        constexpr int count = 800, each = 50;
        for (int i = 0; i <= count; ++i) {
            const double x = each * i * steps.rotary;
            const double y = 20.0 + height * std::sin(waves * x);
            found.push_back({x, y - half, y + half});
        }
        return found;
    }
};

}  // namespace

TEST_CASE("the path on the grid stays in the tunnel, with hardly more blocks than there are without a grid") {
    constexpr unsigned seed = 31337;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    const auto between = [&](double a, double b) {
        return std::uniform_real_distribution<double>(a, b)(random);
    };
    const Steps grids[] = {{1.7e-5, 1e-4}, {1.7e-6, 1e-4}, {1.7e-4, 2.54e-4}};
    for (int trial = 0; trial < 60; ++trial) {
        const Steps steps = grids[trial % 3];
        const Wave wave{between(0.2, 3.0), between(0.5, 6.0),
                        steps.radial * std::pow(10.0, between(0.3, 1.6))};
        const std::vector<Gate> gates = wave.gates(steps);
        const auto path = path_on_grid(gates, {steps});
        INFO("trial " << trial << ", half width " << wave.half / steps.radial << " steps");
        REQUIRE(path);
        CHECK(path->front().rotary == 0);
        CHECK(path->back().rotary == std::llround(gates.back().at / steps.rotary));
        CHECK(spill(gates, *path, steps) <= 2e-9);
        const double fewest = static_cast<double>(fewest_pieces(gates).size() - 1);
        const double blocks = static_cast<double>(path->size() - 1);
        CHECK(blocks >= fewest);
        CHECK(blocks <= std::ceil(1.05 * fewest) + 1.0);
    }
}

TEST_CASE("no block is longer than allowed, and no knot lies below the least word") {
    const Steps steps{1.7e-5, 1e-4};
    const std::vector<Gate> gates = Wave{0.5, 3.0, 2e-3}.gates(steps);
    const GridRules rules{steps, 100.5 * steps.rotary, 199000};
    const auto path = path_on_grid(gates, rules);
    REQUIRE(path);
    for (std::size_t i = 0; i < path->size(); ++i) {
        CHECK((*path)[i].radial >= 194000);
        if (i > 0) CHECK((*path)[i].rotary - (*path)[i - 1].rotary <= 100);
    }
}

TEST_CASE("where it is held level the path has one word, and its blocks run on over the ends of that") {
    // A bump on a level: x² from the end of the heel on, both ways.
    const Steps steps{1.7e-5, 1e-4};
    const double start = 0.3, end = 0.7, half = 2e-3;
    std::vector<Gate> gates;
    const auto last = static_cast<long long>(1.0 / steps.rotary);
    for (int i = 0; i <= 1000; ++i) {
        const double x = static_cast<double>(last * i / 1000) * steps.rotary;
        const double off = std::max({0.0, start - x, x - end});
        gates.push_back({x, 20.0 + 4.0 * off * off - half, 20.0 + 4.0 * off * off + half});
    }
    const auto word = hold_level(gates, {{start, end}}, 20.00004, steps.radial);
    REQUIRE(word);
    CHECK(*word == 200000);
    const auto path = path_on_grid(gates, {steps, 0.0, *word});
    REQUIRE(path);
    int level = 0;
    for (std::size_t i = 0; i + 1 < path->size(); ++i) {
        const GridKnot a = (*path)[i], b = (*path)[i + 1];
        const double from = static_cast<double>(a.rotary) * steps.rotary;
        const double to = static_cast<double>(b.rotary) * steps.rotary;
        if (to < start + 1e-4 || from > end - 1e-4) continue;
        ++level;
        CHECK(a.radial == *word);
        CHECK(b.radial == *word);
        CHECK(from <= start);
        // 4 x² = half at x = 0.0224: so far the level may run on, and does but for what the next block gains
        CHECK(to > end + 0.01);
    }
    CHECK(level == 1);
}

TEST_CASE("a tunnel without a word at every place has no path on the grid") {
    const Steps steps{1.7e-5, 1e-4};
    CHECK_FALSE(path_on_grid(Wave{1.0, 3.0, 4e-5}.gates(steps), {steps}));
    CHECK(path_on_grid(Wave{1.0, 3.0, 1.1e-4}.gates(steps), {steps}));
    std::vector<Gate> gates{{0.0, 20.00002, 20.00008}, {0.1, 20.00002, 20.00008}};
    CHECK_FALSE(hold_level(gates, {{0.0, 0.1}}, 20.0, steps.radial));
}

TEST_CASE("rounding noise in the tunnel's walls moves no word, though the way between them is a tie") {
    const Steps steps{1e-4 * std::numbers::pi / 180.0, 1e-4};
    for (int noise = -8; noise <= 8; ++noise) {
        std::vector<Gate> gates;  // in their middle 30.99805 mm, on a grid of 0.0001
        for (int i = 0; i <= 20; ++i)
            gates.push_back({i * 1000 * steps.rotary, 30.9975 + noise * 3.6e-15, 30.9986 + noise * 3.6e-15});
        const auto path = path_on_grid(gates, {steps});
        REQUIRE(path.has_value());
        CAPTURE(noise);
        REQUIRE(path->size() == 2);
        CHECK(path->front().radial == 309981);
        CHECK(path->back().radial == 309981);
    }
}
