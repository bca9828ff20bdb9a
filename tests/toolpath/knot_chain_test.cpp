// Where the knots of a lead may move to: above the lead, no higher than its highest place, no steeper than it
// is.

#include "toolpath/path/knot_chain.h"

#include "catch.h"

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

/// Down by 3 for 10, then down by 1 for 10.
const Knots lead{{100, 50}, {110, 20}, {120, 10}};

}  // namespace

TEST_CASE("a knot above a lead has every word from the lead up to its highest") {
    const Room room = room_above(lead, 0);
    CHECK(room.from == 100);
    CHECK(room.to == 120);
    const std::pair<long long, long long> least_at[] = {{100, 50}, {101, 47}, {109, 23},
                                                        {110, 20}, {111, 19}, {120, 10}};
    for (const auto& [at, least] : least_at) {
        INFO("at " << at);
        const auto words = room.words(at);
        REQUIRE(words.has_value());
        CHECK(words->least == least);
        CHECK(words->most == 50);
    }
    CHECK_FALSE(room.words(99).has_value());
    CHECK_FALSE(room.words(121).has_value());
    // Between two whole words the one above.
    CHECK(room_above({{0, 0}, {10, 15}}, 0).words(1)->least == 2);
}

TEST_CASE("a block above a lead cuts off none of it, is no steeper and no longer than it may be") {
    const Room room = room_above(lead, 15);
    CHECK(room.may_be({100, 50}, {110, 20}));
    CHECK(room.may_be({105, 40}, {120, 10}));
    CHECK_FALSE(room.may_be({100, 50}, {116, 14}));  // longer than 15
    CHECK_FALSE(room.may_be({105, 45}, {110, 25}));  // 4 for 1
    CHECK_FALSE(room.may_be({105, 40}, {110, 56}));  // up as steeply
    CHECK(room.may_be({105, 40}, {110, 55}));
    CHECK(room_above(lead, 0).may_be({100, 50}, {120, 10}));
    const Room round = room_above({{100, 50}, {110, 40}, {120, 10}}, 0);
    CHECK_FALSE(round.may_be({105, 45}, {115, 25}));  // at 110 on 35
    CHECK(round.may_be({105, 50}, {115, 31}));        // on 40.5
}
