/// What each move takes off a ray, one after the other.
#include "proof/sweep/cuts_in_order.h"

#include "catch.h"
#include "inside_cases.h"
#include "near.h"

using namespace inside;

namespace {

/// The moves swept one by one, each in a plane of its own: those that come lower than all before them.
std::vector<CutOnRay> one_by_one(const ShaftMoves& moves, const CutterPart& part, double psi) {
    std::vector<CutOnRay> cuts;
    double left = stock;
    for (int i = 0; i < moves.size(); ++i) {
        const double radius = PlaneSweep({moves[i]}, part, 20.0, stock).left_on(psi).radius;
        if (radius >= left) continue;
        cuts.push_back({i, radius});
        left = radius;
    }
    return cuts;
}

}  // namespace

TEST_CASE("the cuts on a ray are told in the program's order, its first move among them") {
    // Two turns, the second deeper; between them the cutter goes down where it stands.
    const ShaftMoves moves = chain(
        {{0.0, 8.0, 20.0}, {full_turn, 8.0, 20.0}, {full_turn, 7.0, 20.0}, {2.0 * full_turn, 7.0, 20.0}});
    const CutterPart part = disc(16.0, 6.0);
    const PlaneSweep plane(moves_below(moves, part, stock), part, 20.0, stock);
    const CutsInOrder order(plane);
    for (const double psi : directions(61)) {
        const std::vector<CutOnRay> cuts = order.on(psi);
        REQUIRE(cuts.size() >= 2);
        CHECK(cuts.front().move == 0);
        CHECK_NEAR(cuts.front().radius, 8.0, 1e-9);
        CHECK(cuts.back().move == 2);
        CHECK_NEAR(cuts.back().radius, 7.0, 1e-9);
    }
}

TEST_CASE("the moves that cut on a ray are those that come lower there than each before, swept one by one") {
    for (const CutterPart& part : {disc(16.0, 6.0), upright(5.0, 1.0)}) {
        const ShaftMoves moves = wandering(5, 120);
        const PlaneSweep plane(moves_below(moves, part, stock), part, 20.0, stock);
        const CutsInOrder order(plane);
        std::size_t all = 0;
        for (const double psi : directions(89)) {
            const std::vector<CutOnRay> cuts = order.on(psi), alone = one_by_one(moves, part, psi);
            REQUIRE(cuts.size() == alone.size());
            for (std::size_t i = 0; i < cuts.size(); ++i) {
                CHECK(cuts[i].move == alone[i].move);
                CHECK_NEAR(cuts[i].radius, alone[i].radius, 1e-12);
            }
            all += cuts.size();
        }
        CHECK(all > 89 * 2);
    }
}
