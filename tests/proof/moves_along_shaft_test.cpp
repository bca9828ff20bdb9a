/// The index of moves by their place along the shaft.
#include "proof/sweep/moves_along_shaft.h"

#include "catch.h"
#include "inside_cases.h"

using namespace inside;

TEST_CASE("the index finds the moves that a look at all of them finds, in the program's order") {
    std::mt19937 random(9);
    const auto pick = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    std::vector<ShaftPlace> places{{0.0, 5.0, 50.0}};
    for (int i = 0; i < 3000; ++i) {
        // Runs at one place, slides, and leaps over the whole shaft.
        const double kind = pick(0.0, 1.0);
        double z = places.back().z;
        if (kind > 0.97) {
            z = pick(0.0, 100.0);
        } else if (kind > 0.8) {
            z += pick(-0.4, 0.4);
        }
        places.push_back({0.01 * i, pick(4.0, 9.0), z});
    }
    const ShaftMoves moves = chain(places);
    const MovesAlongShaft deep(moves, [](const ShaftMove& move) { return move.least_tip() < 6.0; });
    for (int i = 0; i < 300; ++i) {
        const double low = pick(-5.0, 105.0), high = low + (i % 3 == 0 ? 0.0 : pick(0.0, 10.0));
        std::vector<int> expected, found;
        for (int j = 0; j < moves.size(); ++j) {
            const ShaftMove move = moves[j];
            if (move.least_tip() < 6.0 && move.first_z() <= high && move.last_z() >= low)
                expected.push_back(j);
        }
        deep.for_each(low, high, [&](int index, const ShaftMove&) { found.push_back(index); });
        CHECK(found == expected);
    }
}

TEST_CASE("a chain of moves gives back what was put in") {
    ShaftMoves moves;
    moves.begin({1.0, 2.0, 3.0});
    moves.add({1.5, 2.5, 3.5}, true, false, 1000000, 0.0);
    moves.add({1.5, 2.0, 3.5}, false, true, 7, 0.25);
    REQUIRE(moves.size() == 2);
    CHECK((moves[0].rapid && !moves[0].spindle_on && moves[0].line == 1000000));
    CHECK((!moves[1].rapid && moves[1].spindle_on && moves[1].line == 7 && moves[1].seconds == 0.25));
    CHECK((moves[1].from.facing == moves[0].to.facing && moves[1].to.tip == 2.0 && moves[0].from.z == 3.0));
}
