/// The ridge that a ball leaves between two places along the shaft.
#include "proof/judge/between_places.h"

#include "catch.h"
#include "inside_cases.h"
#include "near.h"

#include <cmath>

using namespace inside;

TEST_CASE("between two turns at one height the ridge lies halfway, as high as the two circles cross") {
    const ShaftMoves moves = chain({{0.0, 7.0, 20.0},
                                    {full_turn, 7.0, 20.0},
                                    {full_turn, 12.0, 20.0},
                                    {full_turn, 12.0, 22.0},
                                    {full_turn, 7.0, 22.0},
                                    {2.0 * full_turn, 7.0, 22.0}});
    const CutterPart ball = upright(5.0, 5.0);
    const MovesAlongShaft along = moves_below(moves, ball, 11.0);
    const PlacePair pair(along, ball, 20.0, 22.0, 11.0);
    // One plane shows both circles alike: halfway neither is the deeper, and there is no sign to close in on.
    const auto z = pair.ridge_on(1.0);
    REQUIRE(z);
    CHECK_NEAR(*z, 21.0, 1e-5);
    const PlaneSweep plane(along, ball, *z, 11.0);
    CHECK_NEAR(plane.left_on(1.0).radius, 7.0 + 5.0 - std::sqrt(25.0 - 1.0), 1e-5);
}

TEST_CASE("the ridge moves towards the place that is cut less deep") {
    const ShaftMoves moves = chain({{0.0, 7.0, 20.0},
                                    {full_turn, 7.0, 20.0},
                                    {full_turn, 12.0, 20.0},
                                    {full_turn, 12.0, 22.0},
                                    {full_turn, 7.1, 22.0},
                                    {2.0 * full_turn, 7.1, 22.0}});
    const CutterPart ball = upright(5.0, 5.0);
    const MovesAlongShaft along = moves_below(moves, ball, 11.0);
    // Both leave the same where 5 - sqrt(25 - s²) = 0.1 + 5 - sqrt(25 - (2 - s)²).
    const auto leaves = [](double off) { return 5.0 - std::sqrt(25.0 - off * off); };
    const auto z = PlacePair(along, ball, 20.0, 22.0, 11.0).ridge_on(2.0);
    REQUIRE(z);
    CHECK(*z > 21.0);
    CHECK_NEAR(leaves(*z - 20.0), 0.1 + leaves(22.0 - *z), 1e-5);
    // Where one is deeper all the way, there is no ridge between.
    const ShaftMoves far = chain({{0.0, 7.0, 20.0},
                                  {full_turn, 7.0, 20.0},
                                  {full_turn, 12.0, 20.0},
                                  {full_turn, 12.0, 22.0},
                                  {full_turn, 9.0, 22.0},
                                  {2.0 * full_turn, 9.0, 22.0}});
    const MovesAlongShaft far_along = moves_below(far, ball, 11.0);
    CHECK_FALSE(PlacePair(far_along, ball, 20.0, 22.0, 11.0).ridge_on(2.0));
}
