#include "hand/dividing/crank.h"

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

bool holds(const std::vector<CrankSetting>& settings, const CrankSetting& wanted) {
    for (const CrankSetting& setting : settings)
        if (setting == wanted) return true;
    return false;
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
    std::vector<int> circles = first_set;
    circles.insert(circles.end(), second_set.begin(), second_set.end());
    circles.push_back(36);
    for (const Row& row : rows) {
        INFO(row.divisions << " divisions: " << row.source);
        CHECK(holds(simple_indexing(row.divisions, 40.0, circles), row.setting));
    }
}

TEST_CASE("127 divisions are on neither set of plates") {
    CHECK(simple_indexing(127, 40.0, first_set).empty());
    CHECK(simple_indexing(127, 40.0, second_set).empty());
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
        const NearestSetting nearest = nearest_hole(row.angle, 40.0, row.setting.circle);
        CHECK(nearest.setting == row.setting);
        CHECK_NEAR(nearest.error * 60.0, row.error_minutes, 5e-4);
    }
}

TEST_CASE(
    "of all circles the nearest hole is found, and 8 degrees 50 minutes has none on plates of 15 to 49") {
    CHECK(std::abs(nearest_hole(degrees(8, 50), 40.0, first_set).error) > 1e-6);
    CHECK(nearest_hole(degrees(8, 50), 40.0, second_set).setting == CrankSetting{0, 53, 54});
    CHECK(nearest_hole(degrees(0, 24), 40.0, first_set).setting == CrankSetting{0, 1, 23});
}

TEST_CASE("one space moves the work by 540 minutes over the circle") {
    // 1/49 turn = 661.22", 1/66 = 490.91": arithmetic of a 40 to 1 head.
    CHECK_NEAR(work_degrees({0, 1, 49}, 40.0) * 3600.0, 661.22, 0.005);
    CHECK_NEAR(work_degrees({0, 1, 66}, 40.0) * 3600.0, 490.91, 0.005);
    CHECK_NEAR(work_degrees({1, 0, 15}, 40.0), 9.0, 1e-12);
}

TEST_CASE("a turn of the handwheel moves the common rotary tables by 360 over their ratio") {
    // 90:1 is 4 degrees a turn: github.com/synthetos/tinyg/wiki/Additional-Notes; the others by arithmetic.
    const std::vector<std::pair<double, double>> rows = {{90, 4},   {72, 5},  {60, 6},
                                                         {80, 4.5}, {120, 3}, {36, 10}};
    for (const auto& [ratio, turn] : rows)
        CHECK_NEAR(work_degrees({1, 0, 20}, ratio), turn, 1e-12);
    CHECK(nearest_hole(1.0, 90.0, 16).setting == CrankSetting{0, 4, 16});
    CHECK(nearest_hole(1.0, 90.0, 20).setting == CrankSetting{0, 5, 20});
    CHECK(nearest_hole(1.0, 72.0, 15).setting == CrankSetting{0, 3, 15});
}

TEST_CASE("settings counted from zero never add up an error: half a hole at most, and a full turn closes") {
    const unsigned seed = 20;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    for (int i = 0; i < 2000; ++i) {
        const int circle = first_set[random() % first_set.size()];
        const double step = std::uniform_real_distribution<>(0.2, 30.0)(random);
        long long holes = 0;
        CrankSetting before{0, 0, circle};
        for (double angle = step; angle < 360.0; angle += step) {
            const NearestSetting here = nearest_hole(angle, 40.0, circle);
            REQUIRE(std::abs(here.error) <= 4.5 / circle + 1e-9);
            REQUIRE(std::abs(work_degrees(here.setting, 40.0) - angle - here.error) <= 1e-12 * 360.0);
            holes += (here.setting.turns - before.turns) * static_cast<long long>(circle) +
                     here.setting.hole - before.hole;
            before = here.setting;
        }
        const CrankSetting full = nearest_hole(360.0, 40.0, circle).setting;
        holes += (full.turns - before.turns) * static_cast<long long>(circle) + full.hole - before.hole;
        REQUIRE(full == CrankSetting{40, 0, circle});
        REQUIRE(holes == *holes_per_turn(40.0, circle));
    }
}

TEST_CASE("a ratio whose turn ends between holes is told") {
    CHECK_FALSE(holes_per_turn(40.5, 15).has_value());
    CHECK(holes_per_turn(40.5, 16) == 648);
}
