#include "base/whole_steps.h"

#include "catch.h"

#include <lobewright/number_text.h>

#include <limits>

using namespace lobewright;

namespace {

/// `value` moved by so many doubles.
double nudged(double value, int doubles) {
    const double towards =
        doubles < 0 ? -std::numeric_limits<double>::infinity() : std::numeric_limits<double>::infinity();
    for (int i = 0; i < std::abs(doubles); ++i)
        value = std::nextafter(value, towards);
    return value;
}

}  // namespace

TEST_CASE("a tie goes away from zero, whatever its last bits say") {
    struct {
        double length, grid;
        long long steps;
    } const ties[] = {
        {30.99805, 1e-4, 309981},   {0.0135, 1e-3, 14},       {0.0125, 1e-3, 13},      {2.675, 1e-2, 268},
        {400.00005, 1e-4, 4000001}, {1.234565, 1e-5, 123457}, {123456.5, 1.0, 123457}, {0.5, 1.0, 1}};
    for (const auto& tie : ties) {
        for (int doubles = -16; doubles <= 16; ++doubles) {
            const double length = nudged(tie.length, doubles);
            CAPTURE(tie.length, doubles);
            CHECK(nearest_step(length / tie.grid) == tie.steps);
            CHECK(nearest_step(-length / tie.grid) == -tie.steps);
        }
    }
}

TEST_CASE("what is off a tie by more than rounding noise goes to the nearer step") {
    for (const double tie : {0.5, 17.5, 309980.5}) {
        CAPTURE(tie);
        CHECK(static_cast<double>(nearest_step(tie - 2e-6)) == tie - 0.5);
        CHECK(static_cast<double>(nearest_step(tie - 5e-7)) == tie + 0.5);
        CHECK(static_cast<double>(nearest_step(tie + 2e-6)) == tie + 0.5);
        CHECK(static_cast<double>(nearest_step(-tie + 2e-6)) == -tie + 0.5);
    }
    CHECK(nearest_step(0.4999) == 0);
    CHECK(nearest_step(-0.4999) == 0);
}

TEST_CASE("a number that is whole but for rounding noise is its own next step, up and down") {
    for (const double whole : {-7.0, 0.0, 1.0, 309981.0}) {
        for (const double noise : {-5e-7, -1e-12, 0.0, 1e-12, 5e-7}) {
            CAPTURE(whole, noise);
            CHECK(static_cast<double>(step_above(whole + noise)) == whole);
            CHECK(static_cast<double>(step_below(whole + noise)) == whole);
        }
        CHECK(static_cast<double>(step_above(whole + 2e-6)) == whole + 1.0);
        CHECK(static_cast<double>(step_below(whole - 2e-6)) == whole - 1.0);
    }
    CHECK(step_above(1080.0 / 360.00000000000006) == 3);
}

TEST_CASE("steps beyond all machines end at nine times ten to the eighteenth") {
    CHECK(nearest_step(1e300) == 9000000000000000000LL);
    CHECK(step_above(-std::numeric_limits<double>::infinity()) == -9000000000000000000LL);
}

TEST_CASE("figures print their ties away from zero, whatever their last bits say") {
    for (int doubles = -8; doubles <= 8; ++doubles) {
        CAPTURE(doubles);
        CHECK(fixed(nudged(30.99805, doubles), 4) == "30.9981");
        CHECK(fixed(nudged(1.005, doubles), 2) == "1.01");
        CHECK(fixed(-nudged(2.675, doubles), 2) == "-2.68");
        CHECK(shortest_fixed(nudged(0.0009765625, doubles), 9) == "0.000976563");
        CHECK(shortest_fixed(nudged(359.9999999995, doubles), 9) == "360");
    }
}
