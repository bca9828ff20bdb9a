// The tunnel round the radial function: against the distances that it promises, measured at the surface.

#include "toolpath/tunnel/tunnel.h"

#include "catch.h"
#include "contours.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

struct Case {
    const char* why;
    Contour contour;
    PlaneSection section;
    double left_on;
};

std::vector<Case> cases() {
    const Contour arcs = contours::three_arcs(6.0, 2.4, 60.0 * full_turn / 360.0, 25.0);
    const Contour smooth = contours::smooth_bump(8.0, 2.0, 3);
    const Contour hollow = contours::polar_bump(10.0, 3.0, 2, 4);
    const double within = 0.5 * hollow.smallest_hollow_radius();
    return {{"disc on arcs", arcs, {0.0, 16.0, 0.0, 16.0, true}, 0.0},
            {"ball on a smooth lobe, leaving stock", smooth, {0.0, 3.0, 0.0, 0.0, true}, 0.2},
            {"wide end", smooth, {6.0, 0.0, 0.0, 0.0, true}, 0.0},
            {"end whose corner rides", smooth, {1.5, 1.0, 0.0, 0.0, true}, 0.1},
            {"disc in hollows", hollow, {0.0, within, 0.0, within, true}, 0.0}};
}

double at_gates(const std::vector<Gate>& gates, double place, double Gate::*side) {
    std::size_t i = 1;
    while (i + 1 < gates.size() && gates[i].at < place)
        ++i;
    const Gate &a = gates[i - 1], &b = gates[i];
    return a.*side + (b.*side - a.*side) * (place - a.at) / (b.at - a.at);
}

}  // namespace

TEST_CASE("a radial margin puts the contact's own circle off the surface by just the margin") {
    // The section's contact, moved by e along the radial direction, lies sqrt((r + e cos)² + (e sin)²) - r
    // off the circle of radius r whose normal leans by that angle.
    for (const double radius : {0.0, 1e-3, 0.5, 8.0, 300.0}) {
        for (const double lean : {-1.2, -0.4, 0.0, 0.7, 1.3}) {
            for (const double margin : {1e-4, 2e-3, 0.1}) {
                CutterContact c;
                c.effective_radius = radius, c.lean = contours::angle_of(lean);
                const double e = radial_margin(c, margin);
                const double along = radius + e * std::cos(lean), aside = e * std::sin(lean);
                INFO("radius " << radius << ", lean " << lean << ", margin " << margin);
                CHECK_NEAR(std::sqrt(along * along + aside * aside) - radius, margin, 1e-12 + 1e-14 * radius);
            }
        }
    }
    CutterContact straight;
    straight.effective_radius = std::numeric_limits<double>::infinity();
    straight.lean = contours::angle_of(0.6);
    CHECK_NEAR(radial_margin(straight, 0.002), 0.002 / std::cos(0.6), 1e-15);
    CHECK(radial_margin(straight, 0.0) == 0.0);
}

TEST_CASE(
    "between the walls, gates and what lies between them, the surface is nowhere off by more than the "
    "margins") {
    const Margins margins{0.004, 0.002};
    for (const Case& c : cases()) {
        for (const double sag : {2e-5, 4e-4}) {  // however coarse the nodes are
            const auto gates = tunnel(contacts(c.contour, c.section, c.left_on, {sag}), margins, 0.0);
            const RadialFunction exact(contacts(c.contour, c.section, c.left_on, {1e-8}));
            double outside = 0.0, lost = 0.0;
            for (int i = 0; i <= 20000; ++i) {
                const double place = gates.front().at + (gates.back().at - gates.front().at) * i / 20000.0;
                const CutterContact contact = exact.at(contours::angle_of(place));
                const double low = contact.radial - radial_margin(contact, margins.deep);
                const double high = contact.radial + radial_margin(contact, margins.proud);
                outside = std::max({outside, low - at_gates(gates, place, &Gate::low),
                                    at_gates(gates, place, &Gate::high) - high});
                lost = std::max({lost, at_gates(gates, place, &Gate::low) - low,
                                 high - at_gates(gates, place, &Gate::high)});
            }
            INFO(c.why << ", sag " << sag);
            CHECK(outside <= 2e-6);
            CHECK(lost <= 12.0 * sag + 2e-5);  // and hardly any of it is given away
        }
    }
}

TEST_CASE("what a controller may blend corners by is taken off both walls along the normal") {
    const Case c = cases()[0];
    const auto nodes = contacts(c.contour, c.section, 0.0, {1e-5});
    const auto wide = tunnel(nodes, {0.004, 0.004}, 0.0), narrow = tunnel(nodes, {0.004, 0.004}, 0.001);
    REQUIRE(wide.size() == narrow.size());
    const RadialFunction function(nodes);
    for (std::size_t i = 0; i < wide.size(); ++i) {
        const double off = 0.001 / std::cos(function.at(contours::angle_of(wide[i].at)).lean.radians());
        CHECK_NEAR(narrow[i].low - wide[i].low, off, 1e-6);
        CHECK_NEAR(wide[i].high - narrow[i].high, off, 1e-6);
    }
}

TEST_CASE(
    "a level stretch takes the nearest word that all its gates let pass, and none where there is none") {
    constexpr unsigned seed = 808;
    std::mt19937 random(seed);
    const auto between = [&](double a, double b) {
        return std::uniform_real_distribution<double>(a, b)(random);
    };
    constexpr double step = 1e-3;
    int none = 0;
    for (int trial = 0; trial < 300; ++trial) {
        std::vector<Gate> gates;
        for (int i = 0; i <= 20; ++i) {
            const double middle = 10.0 + between(-2e-3, 2e-3), half = between(1e-3, 4e-3);
            gates.push_back({0.1 * i, middle - half, middle + half});
        }
        const double from = 0.1 * static_cast<int>(between(0.0, 8.0)), to = from + 0.65;
        const double wanted = 10.0 + between(-3e-3, 3e-3);
        std::optional<long long> best;  // of all words, tried one by one
        for (long long word = 9900; word <= 10100; ++word) {
            const double value = static_cast<double>(word) * step;
            const bool passes = std::all_of(gates.begin(), gates.end(), [&](const Gate& g) {
                return g.at < from - 1e-9 || g.at > to + 1e-9 || (value >= g.low && value <= g.high);
            });
            if (passes &&
                (!best || std::abs(value - wanted) < std::abs(static_cast<double>(*best) * step - wanted)))
                best = word;
        }
        std::vector<Gate> held = gates;
        const auto word = hold_level(held, {{from, to}}, wanted, step);
        INFO("trial " << trial << " of seed " << seed);
        CHECK(word == best);
        none += best ? 0 : 1;
        if (!word) {
            CHECK(held.size() == gates.size());
            continue;
        }
        for (const Gate& gate : held) {
            if (gate.fixed) CHECK_NEAR(0.5 * (gate.low + gate.high), static_cast<double>(*word) * step, 1e-9);
            CHECK((gate.fixed || gate.at < from || gate.at > to));
        }
    }
    CHECK(none > 5);
    CHECK(none < 290);
}

TEST_CASE("narrowing takes as much off either wall, off no fixed gate, and closes nothing") {
    const std::vector<Gate> gates{{0.0, 1.0, 1.4}, {0.5, 1.1, 1.100001, true}, {1.0, 1.0, 1.2}};
    const auto found = narrowed(gates, 0.05);
    REQUIRE(found);
    CHECK_NEAR((*found)[0].low, 1.05, 1e-15);
    CHECK_NEAR((*found)[0].high, 1.35, 1e-15);
    CHECK((*found)[1].low == gates[1].low);
    CHECK((*found)[1].high == gates[1].high);
    CHECK_FALSE(narrowed(gates, 0.1));
}
