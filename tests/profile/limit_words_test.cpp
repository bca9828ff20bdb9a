/// The limits of a fullest lift as one types them.
#include "profile/fullest/limit_words.h"

#include "catch.h"

#include <numbers>

using namespace lobewright;
using namespace lobewright::profile;

namespace {
constexpr double per_degree = 180.0 / std::numbers::pi;
}

TEST_CASE("a limit is typed in the file's unit, with four figures, rounded to the laxer side") {
    struct Case {
        FullestLimit limit;
        double figure;  // in the file's unit
        double unit;    // what that is inside, but for the length in it
        bool is_length;
        const char* typed;
    };
    const Case cases[] = {
        {FullestLimit::velocity, 0.123412, per_degree, true, "0.1235"},
        {FullestLimit::acceleration, 0.0123412, per_degree * per_degree, true, "0.01235"},
        {FullestLimit::deceleration, 0.00567812, per_degree * per_degree, true, "0.005679"},
        {FullestLimit::jerk, 0.000123412, per_degree * per_degree * per_degree, true, "0.0001235"},
        {FullestLimit::smallest_radius, 7.65478, 1.0, true, "7.654"},
        {FullestLimit::contact_stress, 712.312, 1.0, false, "712.4"},
        {FullestLimit::float_speed, 6543.78, 1.0, false, "6543"},
    };
    for (const Units units : {Units::mm, Units::inch}) {
        for (const Case& each : cases) {
            const double inside = each.unit * (each.is_length ? mm_per(units) : 1.0);
            const TypedLimit typed = typed_limit(each.limit, each.figure * inside, units);
            CAPTURE(limit_key(each.limit), typed.words);
            CHECK(typed.limit == each.limit);
            CHECK(typed.words == each.typed);
            CHECK_NEAR(typed.value / inside, std::stod(each.typed), 1e-12 * each.figure);
        }
    }
}

TEST_CASE("each limit has its key in the file, and a place that takes its value where it is given") {
    std::vector<std::string> keys;
    for (const FullestLimit limit : all_fullest_limits)
        keys.push_back(limit_key(limit));
    CHECK(keys == std::vector<std::string>{"velocity", "acceleration", "deceleration", "jerk",
                                           "smallest_radius", "contact_stress", "float_speed"});
    FullestLimits given;
    given.velocity = given.acceleration = given.smallest_radius = given.contact_stress = given.float_speed =
        1.0;
    for (const FullestLimit limit : all_fullest_limits)
        set_limit(given, limit, 10.0 + static_cast<int>(limit));
    for (const FullestLimit limit : all_fullest_limits) {
        REQUIRE(limit_in(given, limit) != nullptr);
        CHECK(*limit_in(given, limit) == 10.0 + static_cast<int>(limit));
    }
    FullestLimits bare;
    set_limit(bare, FullestLimit::velocity, 3.0);
    CHECK(limit_in(bare, FullestLimit::velocity) == nullptr);
}
