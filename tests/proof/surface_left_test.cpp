#include "basalt.h"
#include "proof_case.h"
#include "sweep.h"

#include <lobewright/surface_left.h>

#include <cmath>
#include <numbers>

using namespace lobewright;

TEST_CASE("the surface that a program leaves is the one that a sweep of its path by other means finds") {
    Job job = basalt::four();
    job.lobes.resize(2);
    job.cut->allowance = 0.05;
    const ProofCase made = proof_case(job);
    const std::vector<SolvedLobe>& lobes = made.lobes;
    constexpr std::size_t rays = 72;
    const auto left = taken(surface_left(job, lobes, made.dialect, made.text, "four.ngc", rays));
    REQUIRE(left.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        REQUIRE(left[i].size() == rays);
        const sweep::Slab slab(sweep::positions_of(made.path), sweep::cutting_body(job), lobes[i].z,
                               0.5 * *job.shaft.blank());
        for (std::size_t k = 0; k < rays; ++k) {
            // The ray through the design's own point, which the allowance moves along its normal.
            const double beta = full_turn * static_cast<double>(k) / rays - std::numbers::pi;
            const ContourPoint at = lobes[i].contour.on_ray(ShaftAngle::from_radians(beta)).at;
            const double phi = direction(at.point + 0.05 * at.normal) + lobes[i].at.radians();
            REQUIRE_THAT(left[i][k], Near(sweep::deviation_on(slab, lobes[i], phi, 0.05), 1e-4));
        }
    }
    CHECK_FALSE(surface_left(job, lobes, made.dialect, "G1 X\n", "bad.ngc", rays).ok());
}
