// How a pass gets into stock that lies all round: on the heel, or along the lobe where the heel is too small.

#include "toolpath/path/way_in.h"

#include "catch.h"
#include "contours.h"
#include "five_lobes.h"
#include "single_pass.h"

#include <algorithm>
#include <cmath>

using namespace lobewright;
using namespace lobewright::toolpath;
using contours::angle_of;

namespace {

/// A pass that takes all of the bar off a lobe.
struct Case : single_pass::SinglePass {
    explicit Case(const Contour& contour, double bar = 0.3, double longest_block = 0.0)
        : SinglePass(contour, setup_for(contour, bar, longest_block)) {
        order.stock = setup.blank_radius - function.least();  // of a parallel cutter, whose X is its edge
    }
    [[nodiscard]] WayIn way(long long now = 0) const { return way_in(frame(), order.stock + setup.air, now); }

  private:
    static Setup setup_for(const Contour& contour, double bar, double longest_block) {
        Job job = five_lobes::job_for(five_lobes::all()[0].lobe, 0.002);
        job.shaft.blank_diameter = 2.0 * (contour.largest_radius() + bar);
        WordGrid grid;
        grid.longest_rotary_block = longest_block;
        return set_up(job, grid);
    }
};

/// Lobes whose heel, if there is one, is too small for a way down of their lift.
std::vector<Contour> steep_lobes() {
    return {contours::smooth_bump(9.0, 3.5, 2), contours::smooth_bump(6.0, 2.0, 3),
            contours::polar_bump(9.0, 1.5, 2, 3),
            contours::three_arcs(6.0, 2.4, 175.0 * full_turn / 360.0, 9.0)};
}

/// mm from the shaft's axis to the surface.
double radius_at(const Case& c, const GridKnot& knot) {
    return length(c.function.at(c.frame().travel(knot.rotary)).point);
}

/// mm that the cutter goes down, and along the surface, from one knot to the next.
double down(const Case& c, const GridKnot& a, const GridKnot& b) {
    return c.tip(a.radial) - c.tip(b.radial);
}
double along(const Case& c, const GridKnot& a, const GridKnot& b) {
    const double turn = (c.frame().travel(b.rotary) - c.frame().travel(a.rotary)).radians();
    return turn * std::min(radius_at(c, a), radius_at(c, b));
}
/// The knots, and after them the surface's own word at the start.
Knots to_surface(const Case& c, const WayIn& way) {
    Knots knots = way.knots;
    const PassFrame frame = c.frame();
    knots.push_back({way.start, frame.radial_steps(c.function.at(frame.travel(way.start)).radial)});
    return knots;
}

}  // namespace

TEST_CASE("on a heel that is wide enough the cutter comes in by the lead on it") {
    const Case c(contours::three_arcs(9.0, 0.4, 60.0 * full_turn / 360.0, 20.0), 0.05);
    const PassFrame frame = c.frame();
    const Heel heel = widest_heels(c.function).front();
    const WayIn way = c.way();
    REQUIRE_FALSE(way.knots.empty());
    const ShaftAngle on =
        angle_of(full_turn * std::floor((frame.travel(way.start) - heel.start).radians() / full_turn));
    CHECK(frame.travel(way.knots.front().rotary) >= heel.start + on - angle_of(c.setup.steps.rotary));
    CHECK(frame.travel(way.start) <= heel.end + on);
}

TEST_CASE("no way in goes down by more than 1 in 2, from the air over the bar to the surface") {
    for (const Contour& contour : steep_lobes()) {
        for (const double longest : {0.0, 1.5}) {
            const Case c(contour, 0.3, longest);
            const PassFrame frame = c.frame();
            const Knots knots = to_surface(c, c.way());
            REQUIRE(knots.size() > 4);
            CHECK(c.tip(knots.front().radial) >= c.setup.blank_touch + c.setup.air - 1e-9);
            for (std::size_t i = 1; i < knots.size(); ++i) {
                const GridKnot &from = knots[i - 1], &to = knots[i];
                INFO(i << " of " << knots.size() << ", longest block " << longest);
                CHECK(from.rotary < to.rotary);
                CHECK(down(c, from, to) <=
                      0.5 * along(c, from, to) + 0.02);  // and what keeps its chords over the surface
                if (longest > 0.0)
                    CHECK((frame.travel(to.rotary) - frame.travel(from.rotary)).degrees() <= longest + 1e-9);
            }
        }
    }
}

TEST_CASE("a way in stays over the surface, between its knots too, and ends along its tangent") {
    for (const Contour& contour : steep_lobes()) {
        const Case c(contour);
        const PassFrame frame = c.frame();
        const Knots knots = to_surface(c, c.way());
        double lowest = 1.0;
        for (std::size_t i = 1; i < knots.size(); ++i) {
            const ShaftAngle a = frame.travel(knots[i - 1].rotary), b = frame.travel(knots[i].rotary);
            for (int k = 0; k <= 50; ++k) {
                const double share = k / 50.0;
                const double at = c.tip(knots[i - 1].radial) +
                                  share * (c.tip(knots[i].radial) - c.tip(knots[i - 1].radial));
                lowest = std::min(lowest, at - c.function.at(a + share * (b - a)).radial);
            }
        }
        CHECK(lowest >= -1e-6);
        // The last block comes nearer to the surface by less than 1 in 20.
        const GridKnot& last = knots[knots.size() - 2];
        CHECK(c.over(last) <= 0.05 * along(c, last, knots.back()) + 0.005);
    }
}

TEST_CASE("a way in begins no earlier than the path has come") {
    for (const Contour& contour : steep_lobes()) {
        const Case c(contour);
        const long long turn = c.frame().turn();
        for (const long long earliest : {0LL, turn / 3, 7 * turn + 12345}) {
            const WayIn way = c.way(earliest);
            CHECK(way.knots.front().rotary >= earliest);
            CHECK(way.knots.front().rotary < earliest + turn);
        }
    }
}

TEST_CASE("into a ring the cutter never plunges, however deep in the bar it lies") {
    for (const Contour& contour : steep_lobes()) {
        for (const double bar : {0.5, 3.0, 8.0, 15.0}) {
            Case c(contour, bar);
            c.order.stock = 0.4;
            const long long start = c.frame().turn() / 5;
            const Knots knots =
                to_surface(c, {way_into_sector(c.frame(), start, c.order.stock + c.setup.air), start});
            INFO("bar " << bar);
            CHECK(c.over(knots.front()) >= c.order.stock);
            for (std::size_t i = 1; i < knots.size(); ++i)
                CHECK(down(c, knots[i - 1], knots[i]) <= 0.9 * along(c, knots[i - 1], knots[i]) + 0.05);
        }
    }
}
