#include "profile/shape/cure.h"

#include "catch.h"

using namespace lobewright;
using namespace lobewright::profile;

TEST_CASE("the range that works is found to the precision that is claimed") {
    for (const double low : {0.0123, 0.31, 0.5}) {
        const double high = low + 0.37;
        const auto range = working_range([=](double x) { return x >= low && x <= high; }, 0.0, 1.0);
        REQUIRE(range.has_value());
        CHECK_NEAR(range->low, low, boundary_precision);
        CHECK_NEAR(range->high, high, boundary_precision);
        CHECK(range->low >= low);  // the ends work, too
        CHECK(range->high <= high);
    }
    CHECK_FALSE(working_range([](double) { return false; }, 0.0, 1.0).has_value());
}

TEST_CASE("the nearest value that works is found upwards and downwards, and given up a thousandfold away") {
    const auto above = nearest_that_works([](double x) { return x >= 37.0; }, 10.0, 1.1);
    REQUIRE(above.has_value());
    CHECK_NEAR(*above, 37.0, 37.0 * boundary_precision);
    const auto below = nearest_that_works([](double x) { return x <= 0.3; }, 10.0, 1.0 / 1.1);
    REQUIRE(below.has_value());
    CHECK_NEAR(*below, 0.3, 0.3 * boundary_precision);
    CHECK_FALSE(nearest_that_works([](double x) { return x > 1e5; }, 10.0, 1.1).has_value());
}
