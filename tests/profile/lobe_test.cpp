#include "basalt.h"

using namespace lobewright;

TEST_CASE("the Basalt four's eight noses point where its firing order and timing say") {
    const auto lobes = solve_lobes(basalt::four());
    REQUIRE(lobes.ok());
    REQUIRE(lobes->size() == 8);
    // By hand: inlet centre 360 + 90 + (46 - 14) / 2 = 466, exhaust 360 - 90 - (48 - 12) / 2 = 252 crank
    // degrees after the cylinder fires; the shaft turns ccw at half speed.
    const double wanted[] = {127.0, -126.0, -143.0, -36.0, 37.0, 144.0, -53.0, 54.0};
    for (std::size_t i = 0; i < 8; ++i)
        CHECK_NEAR((*lobes)[i].at.degrees(), wanted[i], 1e-9);
}

TEST_CASE(
    "on a ring each base circle ends where the next lobe's flank starts, and the chain goes once round") {
    Job job = basalt::job(basalt::arcs_with_flank(20.0, 1.5, 60.0, 45.0), basalt::flat(30.0));
    for (const int repeat : {1, 3, 4}) {
        job.lobes[0].repeat = repeat;
        const SolvedLobe lobe = basalt::solved(job);
        const auto& pieces = lobe.contour.pieces();
        double turn = 0.0;
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            const ContourPiece& next = pieces[(i + 1) % pieces.size()];
            const ContourPoint ends = pieces[i].at(pieces[i].end), starts = next.at(next.start);
            CHECK_NEAR(length(ends.point - starts.point), 0.0, 1e-12);
            CHECK_NEAR(length(ends.normal - starts.normal), 0.0, 1e-12);
            turn += (pieces[i].end - pieces[i].start) * ends.speed * ends.curvature;  // every piece is an arc
        }
        CHECK_NEAR(turn, full_turn, 1e-12);
    }
}
