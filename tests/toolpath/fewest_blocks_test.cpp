#include "toolpath/tunnel/fewest_blocks.h"

#include "catch.h"

#include <algorithm>
#include <random>

using namespace lobewright::toolpath;

namespace {

/// A wall of the tunnel at x, straight between gates.
double wall(const std::vector<Gate>& gates, double x, double Gate::*side) {
    std::size_t i = 1;
    while (i + 1 < gates.size() && gates[i].at < x)
        ++i;
    const Gate &a = gates[i - 1], &b = gates[i];
    return a.*side + (b.*side - a.*side) * (x - a.at) / (b.at - a.at);
}

/// How far the straight piece from a to b leaves the tunnel; 0 or less: nowhere.
double spill(const std::vector<Gate>& gates, Knot a, Knot b) {
    double worst = -1e300;
    const auto hold = [&](double x, double y) {
        worst = std::max({worst, wall(gates, x, &Gate::low) - y, y - wall(gates, x, &Gate::high)});
    };
    hold(a.at, a.value);
    hold(b.at, b.value);
    for (const Gate& g : gates) {
        if (g.at > a.at && g.at < b.at)
            hold(g.at, a.value + (b.value - a.value) * (g.at - a.at) / (b.at - a.at));
    }
    return worst;
}

/// Fewest pieces of all paths whose knots lie on a lattice of halves in x and quarters in y, by trying them
/// all.
int exhaustive(const std::vector<Gate>& gates) {
    std::vector<Knot> knots;
    for (double x = gates.front().at; x <= gates.back().at; x += 0.5) {
        for (double y = -8.0; y <= 8.0; y += 0.25) {
            if (y >= wall(gates, x, &Gate::low) && y <= wall(gates, x, &Gate::high)) knots.push_back({x, y});
        }
    }
    std::vector<int> pieces(knots.size(), -1);
    std::vector<std::size_t> front;
    for (std::size_t i = 0; i < knots.size(); ++i) {
        if (knots[i].at == gates.front().at) pieces[i] = 0, front.push_back(i);
    }
    for (int n = 1; !front.empty(); ++n) {
        std::vector<std::size_t> next;
        for (const std::size_t i : front) {
            for (std::size_t j = 0; j < knots.size(); ++j) {
                if (pieces[j] >= 0 || knots[j].at <= knots[i].at || spill(gates, knots[i], knots[j]) > 0.0)
                    continue;
                if (knots[j].at == gates.back().at) return n;
                pieces[j] = n;
                next.push_back(j);
            }
        }
        front = next;
    }
    return 1000;
}

}  // namespace

TEST_CASE("the path stays in the tunnel, and no path on a lattice has fewer pieces, tried exhaustively") {
    constexpr unsigned seed = 20240817;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    const auto pick = [&](int from, int to) { return std::uniform_int_distribution<int>(from, to)(random); };
    int most = 0;
    for (int trial = 0; trial < 250; ++trial) {
        std::vector<Gate> gates;
        double x = 0.0, middle = 0.0;
        const int count = pick(3, 11);
        for (int i = 0; i < count; ++i) {
            const double half = 0.125 * pick(1, 6);
            gates.push_back({x, middle - half, middle + half});
            x += 0.5 * pick(1, 3);
            middle = std::clamp(middle + 0.25 * pick(-6, 6), -6.0, 6.0);
        }
        const std::vector<Knot> path = fewest_pieces(gates);
        INFO("trial " << trial);
        REQUIRE(path.size() >= 2);
        CHECK(path.front().at == gates.front().at);
        CHECK(path.back().at == gates.back().at);
        for (std::size_t i = 0; i + 1 < path.size(); ++i) {
            CHECK(path[i].at <= path[i + 1].at);
            CHECK(spill(gates, path[i], path[i + 1]) <= 1e-9);
        }
        const int pieces = static_cast<int>(path.size()) - 1;
        most = std::max(most, pieces);
        CHECK(pieces <= exhaustive(gates));
    }
    CHECK(most >= 5);  // the tunnels do bend
}

TEST_CASE("a straight tunnel takes one piece") {
    std::vector<Gate> gates;
    for (int i = 0; i <= 100; ++i)
        gates.push_back({0.1 * i, 0.3 * i - 1e-3, 0.3 * i + 1e-3});
    CHECK(fewest_pieces(gates).size() == 2);
}

TEST_CASE("in a tunnel of half width e round a parabola of bend b, a piece spans 4 sqrt(e / b)") {
    // The chord touches one wall at its ends and the other in its middle: b L² / 8 = 2 e.
    constexpr double bend = 6.0, half = 1e-3, length = 2.0;
    std::vector<Gate> gates;
    for (int i = 0; i <= 40000; ++i) {
        const double x = length * i / 40000.0;
        gates.push_back({x, 0.5 * bend * x * x - half, 0.5 * bend * x * x + half});
    }
    const double expected = length / (4.0 * std::sqrt(half / bend));
    CHECK(static_cast<int>(fewest_pieces(gates).size()) - 1 == static_cast<int>(std::ceil(expected)));
}
