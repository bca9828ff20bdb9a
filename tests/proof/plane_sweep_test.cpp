/// What many moves leave in a plane, ray by ray.
#include "proof/sweep/plane_sweep.h"

#include "catch.h"
#include "inside_cases.h"
#include "near.h"

#include <algorithm>
#include <cmath>

using namespace inside;

TEST_CASE("one turn at one height leaves the circle of that height, whatever cuts it") {
    const ShaftMoves moves = chain({{0.0, 7.5, 20.0}, {full_turn, 7.5, 20.0}});
    for (const CutterPart& part :
         {disc(16.0, 6.0), upright(5.0, 0.0), upright(5.0, 1.0), upright(5.0, 5.0)}) {
        const MovesAlongShaft along = moves_below(moves, part, stock);
        const PlaneSweep plane(along, part, 20.0, stock);
        for (const double psi : directions(97))
            CHECK_NEAR(plane.left_on(psi).radius, 7.5, 1e-9);
    }
}

TEST_CASE("what the moves before have left is what they leave alone") {
    const ShaftMoves all = wandering(3, 40);
    const CutterPart part = disc(16.0, 6.0);
    const MovesAlongShaft along = moves_below(all, part, stock);
    const PlaneSweep plane(along, part, 20.0, stock);
    for (const int before : {1, 7, 25}) {
        std::vector<ShaftMove> first;
        for (int i = 0; i < before; ++i)
            first.push_back(all[i]);
        const PlaneSweep alone(first, part, 20.0, stock);
        for (const double psi : directions(61))
            CHECK_NEAR(plane.left_on(psi, -1, before).radius, alone.left_on(psi).radius, 1e-12);
    }
}

TEST_CASE("the first cut on a ray is the first move that leaves less than the blank there") {
    const ShaftMoves all = wandering(4, 40);
    const CutterPart part = disc(16.0, 6.0);
    const MovesAlongShaft along = moves_below(all, part, stock);
    const PlaneSweep plane(along, part, 20.0, stock);
    for (const double psi : directions(61)) {
        int first = 0;
        while (first < all.size() && plane.left_on(psi, -1, first + 1).radius >= stock - 1e-4)
            ++first;
        CHECK(plane.first_cut(psi, 1e-4) == (first < all.size() ? first : std::numeric_limits<int>::max()));
    }
}

TEST_CASE("rays that share a window see what each sees by itself") {
    for (const CutterPart& part : {disc(16.0, 6.0), upright(5.0, 1.0)}) {
        const ShaftMoves all = wandering(7, 300);
        const MovesAlongShaft along = moves_below(all, part, stock);
        const PlaneSweep plane(along, part, 20.0, stock);
        Left last;
        const std::vector<double> rays = directions(3600);
        for (std::size_t i = 0; i + 8 <= rays.size(); i += 8) {
            if (sector_of(rays[i]) != sector_of(rays[i + 7])) continue;
            const PlaneSweep::Window window = plane.window(rays[i], rays[i + 7], last);
            for (std::size_t j = i; j < i + 8; ++j) {
                const int hint = last.step;
                last = plane.left_on(rays[j], hint, window);
                const Left alone = plane.left_on(rays[j], hint);
                CHECK(last.radius == alone.radius);
                CHECK(last.step == alone.step);
            }
        }
    }
}

TEST_CASE("only moves over the plane leave anything in it") {
    const ShaftMoves moves = chain({{0.0, 7.0, 20.0},
                                    {full_turn, 7.0, 20.0},
                                    {full_turn, 11.0, 20.0},
                                    {full_turn, 11.0, 40.0},
                                    {full_turn, 8.0, 40.0},
                                    {2.0 * full_turn, 8.0, 40.0}});
    const CutterPart part = disc(16.0, 6.0);
    const MovesAlongShaft along = moves_below(moves, part, stock);
    CHECK_NEAR(PlaneSweep(along, part, 22.9, stock).left_on(1.0).radius, 7.0, 1e-9);
    CHECK_NEAR(PlaneSweep(along, part, 37.1, stock).left_on(1.0).radius, 8.0, 1e-9);
    CHECK(PlaneSweep(along, part, 30.0, stock).left_on(1.0).step == -1);
    CHECK(PlaneSweep(along, part, 20.0, stock, 40.0).steps().empty());
}

TEST_CASE("the slope of what a hollow end leaves is that of the radius from ray to ray") {
    CutterPart part = upright(15.0, 0.0);
    part.dish = 0.05;
    const ShaftMoves moves = chain({{1.0, 11.0, 20.0}, {1.0, 7.0, 20.0}});
    const MovesAlongShaft along = moves_below(moves, part, stock);
    for (const double z : {20.0, 23.0}) {
        const PlaneSweep plane(along, part, z, stock);
        for (const double psi : {0.5, 0.8, 1.1, 1.4}) {
            constexpr double h = 1e-5;
            INFO("ray " << psi << ", z " << z);
            CHECK_NEAR(plane.left_on(psi).slope,
                       (plane.left_on(psi + h).radius - plane.left_on(psi - h).radius) / (2.0 * h), 1e-5);
        }
    }
}

TEST_CASE("a move that turns by a rounding alone is swept like one that stands") {
    const ShaftMoves moves = chain({{1.0, 11.0, 20.0}, {std::nextafter(1.0, 2.0), 7.0, 20.0}});
    const CutterPart part = disc(16.0, 6.0);
    CHECK_NEAR(PlaneSweep(moves_below(moves, part, stock), part, 20.0, stock).left_on(1.0).radius, 7.0, 1e-9);
}

TEST_CASE("of equal turns made from several places the nearest leaves what all of them leave") {
    CutterPart lying = upright(5.0, 0.0), hollow = upright(5.0, 0.5), beside = upright(5.0, 0.0);
    lying.shape = CutterPart::Shape::lying, lying.half_length = 6.0;
    hollow.dish = 0.05;
    beside.shift = 2.0;
    std::vector<ShaftPlace> places;
    const ShaftMoves turns = wandering(11, 60);
    for (int place = 0; place < 6; ++place) {
        const double on = 6.0 * place * full_turn, z = 17.3 + 0.9 * place;
        places.push_back({on, 11.0, z});  // a level way, as on a heel, that begins elsewhere in each turn
        places.push_back({on + 0.1 * place, 8.0, z});
        places.push_back({on + 3.0, 8.0, z});
        places.push_back({on + full_turn, 11.0, z});
        for (int i = 0; i < turns.size(); ++i)
            places.push_back({on + 2.0 * full_turn + turns[i].to.facing, turns[i].to.tip, z});
    }
    const ShaftMoves moves = chain(places);
    for (const CutterPart& part :
         {upright(5.0, 0.0), upright(5.0, 1.0), upright(5.0, 5.0), beside, lying, hollow, disc(16.0, 6.0)}) {
        const MovesAlongShaft along = moves_below(moves, part, stock);
        for (const double z : {20.0, 20.45, 22.6}) {
            const PlaneSweep plane(along, part, z, stock);
            const auto hidden = std::count_if(plane.steps().begin(), plane.steps().end(),
                                              [](const SweepStep& step) { return step.hidden != 0; });
            const auto all = static_cast<std::ptrdiff_t>(plane.steps().size());
            INFO("corner " << part.corner << ", dish " << part.dish << ", plane " << z << ": " << hidden
                           << " of " << all);
            const bool alike = part.shape == CutterPart::Shape::round;
            CHECK(hidden >= (alike || part.dish > 0.0 ? 0 : all / 3));
            CHECK((hidden > 0) == (!alike && part.dish == 0.0));
            for (const double psi : directions(367)) {
                const Left shown = plane.left_on(psi), asked = plane.left_on(psi, -1, the_end - 1);
                CHECK_NEAR(shown.radius, asked.radius, 1e-8);
                if (shown.step >= 0) CHECK(plane.steps()[static_cast<std::size_t>(shown.step)].hidden == 0);
            }
            int first = 0;
            while (first < moves.size() && plane.left_on(1.0, -1, first + 1).radius >= stock - 1e-4)
                ++first;
            CHECK(plane.first_cut(1.0, 1e-4) == (first < moves.size() ? first : the_end));
        }
    }
}
