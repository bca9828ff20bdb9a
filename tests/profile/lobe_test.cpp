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
