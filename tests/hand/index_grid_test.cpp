#include "hand/dividing/index_grid.h"

#include "catch.h"

#include <cmath>
#include <random>
#include <string>

using namespace lobewright;
using namespace lobewright::hand;

namespace {

// The two common sets of plates: the first from Machinery's Handbook (from memory), the second as listed at
// armyordnance.tpub.com/od16448/od164480030.htm.
const std::vector<int> first_set = {15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49};
const std::vector<int> second_set = {24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43,
                                     46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66};

/// A head of 40 to 1 on one circle.
IndexGrid head(int circle, double ratio = 40.0) {
    const auto grids = grids_of_plates(ratio, {{circle}});
    REQUIRE(grids.size() == 1);
    return grids.front();
}

CrankSetting nearest(const IndexGrid& grid, double wanted) {
    return *grid.crank(grid.nearest(ShaftAngle::from_degrees(wanted)));
}

/// Minutes of the work past the angle that was wanted.
double error_minutes(const IndexGrid& grid, double wanted) {
    return (grid.angle(grid.nearest(ShaftAngle::from_degrees(wanted))).degrees() - wanted) * 60.0;
}

double degrees(double whole, double minutes) {
    return whole + minutes / 60.0;
}

}  // namespace

TEST_CASE("whole divisions on a head of 40 to 1 are those of the manuals") {
    struct Row {
        int divisions;
        CrankSetting setting;
        std::string source;
    };
    const std::vector<Row> rows = {
        {6, {6, 12, 18}, "armyordnance.tpub.com/od16448/od164480030.htm"},
        {6, {6, 26, 39}, "the same"},
        {42, {0, 20, 21}, "the same"},
        {42, {0, 40, 42}, "the same"},
        {15, {2, 18, 27}, "scribd.com/document/628433770"},
        {15, {2, 24, 36}, "the same, its plate of 36"},
        {7, {5, 15, 21}, "40/7 = 5 + 15/21, derived"},
        {360, {0, 2, 18}, "a degree needs a circle that 9 divides, derived"},
        {360, {0, 3, 27}, "the same"},
        {360, {0, 6, 54}, "the same"},
    };
    for (const Row& row : rows) {
        INFO(row.divisions << " divisions: " << row.source);
        const IndexGrid grid = head(row.setting.circle);
        CHECK(nearest(grid, 360.0 / row.divisions) == row.setting);
        CHECK_NEAR(error_minutes(grid, 360.0 / row.divisions), 0.0, 1e-9);
    }
}

TEST_CASE("127 divisions are on neither set of plates") {
    for (const auto& circles : {first_set, second_set})
        for (const int circle : circles)
            CHECK(std::abs(error_minutes(head(circle), 360.0 / 127)) > 0.01);
}

TEST_CASE("angles on a head of 40 to 1 are those of the manuals") {
    struct Row {
        double angle;
        CrankSetting setting;
        double error_minutes;
        std::string source;
    };
    const std::vector<Row> rows = {
        {35.0, {3, 16, 18}, 0.0, "Machinery's Handbook, 1916, excerpt at bookdepository.com 9781236963536"},
        {11.5, {1, 5, 18}, 0.0, "the same"},
        {degrees(48, 40), {5, 11, 27}, 0.0, "the same, its question; the answer derived"},
        {15.0, {1, 18, 27}, 0.0, "scribd.com/document/628433770"},
        {19.0, {2, 6, 54}, 0.0, "its.foxvalleytech.com/MachShop4/AdvMilling/Isangindex.htm"},
        {45.0, {5, 0, 54}, 0.0, "the same"},
        {degrees(8, 50), {0, 53, 54}, 0.0, "the same"},
        {degrees(0, 54), {0, 2, 20}, 0.0, "armyordnance.tpub.com/od16448/od164480033.htm"},
        {degrees(0, 24), {0, 1, 23}, -0.522, "the same, called approximate there"},
    };
    for (const Row& row : rows) {
        INFO(row.angle << " degrees: " << row.source);
        CHECK(nearest(head(row.setting.circle), row.angle) == row.setting);
        CHECK_NEAR(error_minutes(head(row.setting.circle), row.angle), row.error_minutes, 5e-4);
    }
}

TEST_CASE("8 degrees 50 minutes has no hole on plates of 15 to 49, and one on 54") {
    for (const int circle : first_set)
        CHECK(std::abs(error_minutes(head(circle), degrees(8, 50))) > 1e-4);
    CHECK(nearest(head(54), degrees(8, 50)) == CrankSetting{0, 53, 54});
}

TEST_CASE("one space moves the work by 540 minutes over the circle") {
    // 1/49 turn = 661.22", 1/66 = 490.91": arithmetic of a 40 to 1 head.
    CHECK_NEAR(head(49).angle(1).degrees() * 3600.0, 661.22, 0.005);
    CHECK_NEAR(head(66).angle(1).degrees() * 3600.0, 490.91, 0.005);
    CHECK_NEAR(head(15).angle(15).degrees(), 9.0, 1e-12);
}

TEST_CASE("a turn of the handwheel moves the common rotary tables by 360 over their ratio") {
    // 90:1 is 4 degrees a turn: github.com/synthetos/tinyg/wiki/Additional-Notes; the others by arithmetic.
    const std::vector<std::pair<double, double>> rows = {{90, 4},   {72, 5},  {60, 6},
                                                         {80, 4.5}, {120, 3}, {36, 10}};
    for (const auto& [ratio, turn] : rows)
        CHECK_NEAR(head(20, ratio).angle(20).degrees(), turn, 1e-12);
    CHECK(nearest(head(16, 90.0), 1.0) == CrankSetting{0, 4, 16});
    CHECK(nearest(head(20, 90.0), 1.0) == CrankSetting{0, 5, 20});
    CHECK(nearest(head(15, 72.0), 1.0) == CrankSetting{0, 3, 15});
}

TEST_CASE("a setting is never more than half a space off, and a full turn is zero again") {
    const unsigned seed = 20;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    for (int i = 0; i < 2000; ++i) {
        const IndexGrid grid = head(first_set[random() % first_set.size()]);
        const double step = std::uniform_real_distribution<>(0.2, 30.0)(random);
        for (double angle = step; angle < 360.0; angle += step) {
            const long long place = grid.nearest(ShaftAngle::from_degrees(angle));
            const double off = wrapped(grid.angle(place) - ShaftAngle::from_degrees(angle)).degrees();
            REQUIRE(std::abs(off) <= 4.5 / *grid.circle + 1e-9);
            const CrankSetting crank = *grid.crank(place);
            REQUIRE(static_cast<long long>(crank.turns) * crank.circle + crank.hole == place);
        }
        REQUIRE(grid.nearest(ShaftAngle::from_degrees(360.0)) == 0);
        REQUIRE(grid.crank(grid.spaces) == CrankSetting{40, 0, *grid.circle});
    }
}

TEST_CASE("a circle on which a turn of the work ends between holes is no grid") {
    CHECK(grids_of_plates(40.5, {{15}}).empty());
    CHECK(grids_of_plates(40.5, {{15, 16}}).front().spaces == 648);
    // A ratio as it is written, and one that is plainly another.
    CHECK(grids_of_plates(40.0 + 0.5 * hole_tolerance / 20, {{20}}).size() == 1);
    CHECK(grids_of_plates(40.0 + 2.0 * hole_tolerance / 20, {{20}}).empty());
}

TEST_CASE("a table's grid takes a minute as it is written, and no step that does not go into a turn") {
    CHECK(grid_of_table(ShaftAngle::from_degrees(0.0166667))->spaces == 21600);
    CHECK_FALSE(grid_of_table(ShaftAngle::from_degrees(1.0 / 60.0))->circle.has_value());
    CHECK_FALSE(grid_of_table(ShaftAngle::from_degrees(0.7)).has_value());
    CHECK(grid_of_table(ShaftAngle::from_degrees(1.0 / 3600.0))->spaces == 1296000);
    CHECK_FALSE(grid_of_table(ShaftAngle::from_degrees(0.9 / 3600.0)).has_value());
}

TEST_CASE("Machinery's Handbook, compound indexing: 77 divisions by 9/21 + 3/33, 69 by 21/23 - 11/33") {
    const auto of = [](long long divisions, std::vector<int> plate) {
        const auto grid = compound_grid(40, {{15, 16}, std::move(plate)}, divisions);
        REQUIRE(grid.has_value());
        CHECK(grid->plate == 2);
        CHECK(grid->spaces == divisions);
        CHECK_FALSE(grid->circle.has_value());
        return *grid->compound;
    };
    CHECK(of(77, {21, 33}) == CompoundMove{21, 9, 33, 3});
    // 21/23 - 11/33 is 22/33 - 2/23, which has fewer holes to count.
    CHECK(of(69, {23, 33}) == CompoundMove{33, 22, 23, -2});
    CHECK((21 * 33 - 11 * 23) * 33 * 23 == (22 * 23 - 2 * 33) * 23 * 33);
}

TEST_CASE("compound moves add up to the wanted part of a turn, and none is found where none is") {
    int found = 0;
    for (long long divisions = 51; divisions <= 399; ++divisions) {
        const auto grid = compound_grid(40, {{21, 23, 27, 29, 31, 33}, {37, 39, 41, 43, 47, 49}}, divisions);
        if (!grid) continue;
        ++found;
        const CompoundMove& move = *grid->compound;
        // a/m + b/n = 40/N, in whole numbers.
        const long long m = move.circle, n = move.plate_circle;
        CHECK((move.holes * n + move.plate_holes * m) * divisions == 40 * m * n);
        CHECK(std::abs(move.plate_holes) < n);
    }
    CHECK(found > 20);
    CHECK_FALSE(compound_grid(40, {{21, 33}}, 127).has_value());  // a prime that no circle has
    CHECK_FALSE(compound_grid(40.5, {{21, 33}}, 77).has_value());
}
