// Where a ring of roughing meets stock: against the distance of its contact, looked at all round.

#include "toolpath/roughing/stock_sectors.h"

#include "catch.h"
#include "contours.h"
#include "five_lobes.h"

#include <cmath>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

Setup setup_with(double blank_diameter, const PlaneSection& section) {
    const SolvedLobe lobe = five_lobes::all()[0].lobe;
    Job job = five_lobes::job_for(lobe, 0.002);
    job.shaft.blank_diameter = blank_diameter;
    Setup setup = set_up(job, {});
    setup.section = section;
    setup.blank_touch = touch_of_circle(section, setup.blank_radius);
    return setup;
}

bool in_a_sector(const std::vector<StockSector>& sectors, long long place, long long turn) {
    for (const StockSector& sector : sectors) {
        for (const long long turns : {-turn, 0LL, turn}) {
            if (place + turns >= sector.from && place + turns <= sector.to) return true;
        }
    }
    return false;
}

}  // namespace

TEST_CASE("a ring is in stock where the point that it touches lies within the blank") {
    // Bumps that rise out of the bar between places where they don't; touched by a disc, a ball and a wide
    // end.
    const Contour contour = contours::polar_bump(8.0, 2.0, 2, 2);
    const PlaneSection sections[] = {
        {0.0, 16.0, 0.0, 16.0, true}, {0.0, 3.0, 0.0, 0.0, true}, {6.0, 0.0, 0.0, 0.0, true}};
    for (const PlaneSection& section : sections) {
        const Setup setup = setup_with(18.0, section);
        const RadialFunction function(bridged(contacts(contour, section, 0.0, {1e-7})));
        const auto sectors = sectors_in_stock(setup, function);
        const auto turn = static_cast<long long>(std::llround(full_turn / setup.steps.rotary));
        REQUIRE(sectors.size() == 2);
        int inside = 0;
        for (const StockSector& sector : sectors)
            CHECK_FALSE(sector.whole);
        for (int i = 0; i < 3600; ++i) {
            const double facing = full_turn * i / 3600.0;
            const double distance = length(function.at(contours::angle_of(facing)).point) - (9.0 + setup.air);
            if (std::abs(distance) < 2e-3) continue;  // near the edge, between nodes
            const auto place = static_cast<long long>(std::llround(facing / setup.steps.rotary));
            INFO("corner " << section.corner << ", flat " << section.half_flat << ", " << i / 10.0
                           << " degrees");
            CHECK(in_a_sector(sectors, place, turn) == (distance < 0.0));
            inside += distance < 0.0 ? 1 : 0;
        }
        CHECK(inside > 500);
        CHECK(inside < 3500);
    }
}

TEST_CASE(
    "a ring outside the bar has no sector, and one wholly within it has a single one, from its least stock "
    "on") {
    const PlaneSection disc{0.0, 16.0, 0.0, 16.0, true};
    const Contour contour = contours::polar_bump(8.0, 2.0, 2, 1);
    const RadialFunction function(contacts(contour, disc, 0.0, {1e-6}));
    CHECK(sectors_in_stock(setup_with(15.0, disc), function).empty());
    const Setup large = setup_with(30.0, disc);
    const auto whole = sectors_in_stock(large, function);
    REQUIRE(whole.size() == 1);
    CHECK(whole.front().whole);
    CHECK_NEAR(static_cast<double>(whole.front().to - whole.front().from) * large.steps.rotary, full_turn,
               1e-4);
    CHECK_NEAR(
        function.at(contours::angle_of(static_cast<double>(whole.front().from) * large.steps.rotary)).radial,
        function.greatest(), 1e-5);
}

TEST_CASE("a ring is followed wherever a slice beside the axis of a narrow end still meets the bar") {
    // A slice whose flat is half of w wide touches no further to the side than w: at (X, w), in stock while
    // that lies within the bar.
    constexpr double bar = 9.4;
    const PlaneSection end{4.0, 0.0, 0.0, 0.0, true};
    const Contour contour = contours::polar_bump(8.0, 2.0, 2, 2);
    const Setup setup = setup_with(2.0 * bar, end);
    const RadialFunction function(bridged(contacts(contour, end, 0.0, {1e-7})));
    const auto turn = static_cast<long long>(std::llround(full_turn / setup.steps.rotary));
    const auto middle = sectors_in_stock(setup, function);
    int missed_by_middle = 0;
    for (const double narrowest : {0.0, 1.0, 2.0}) {
        const auto sectors = sectors_in_stock(setup, function, narrowest);
        for (int i = 0; i < 3600; ++i) {
            const double facing = full_turn * i / 3600.0;
            const CutterContact c = function.at(contours::angle_of(facing));
            const double aside = std::min(std::abs(c.lateral), narrowest);
            if (std::sqrt(c.radial * c.radial + aside * aside) >= bar - 2e-3) continue;
            const auto place = static_cast<long long>(std::llround(facing / setup.steps.rotary));
            INFO("narrowest " << narrowest << ", " << i / 10.0 << " degrees");
            CHECK(in_a_sector(sectors, place, turn));
            missed_by_middle += in_a_sector(middle, place, turn) ? 0 : 1;
        }
    }
    CHECK(missed_by_middle > 10);
}
