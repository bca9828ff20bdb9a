/// How far what is left stands off the design: the distance along the normal, not the way along the ray.
#include "catch.h"
#include "job_kit.h"
#include "proof/judge/plane_verdict.h"
#include "proof_case.h"

#include <lobewright/job_file.h>

#include <cmath>
#include <random>
#include <string>

using namespace lobewright;
using namespace lobewright::proof;

namespace {

/// The ray from the axis at `psi` to the circle of `radius` about `centre`, met where it leaves the circle,
/// or
/// (`hollow`) where it enters it, the metal then lying outside of the circle.
DesignRay to_circle(Vec2 centre, double radius, double psi, bool hollow) {
    const Vec2 e = unit(psi);
    const double along = dot(centre, e);
    const double reach = std::sqrt(along * along - dot(centre, centre) + radius * radius);
    DesignRay ray;
    ray.psi = psi;
    ray.radius = hollow ? along - reach : along + reach;
    const Vec2 out = (ray.radius * e - centre) / radius;
    const Vec2 normal = hollow ? -1.0 * out : out;
    ray.lean = dot(normal, e);
    ray.slope = -ray.radius * dot(normal, quarter_turn(e)) / ray.lean;
    ray.curvature = (hollow ? -1.0 : 1.0) / radius;
    return ray;
}

double deviation_by(const DesignRay& ray, double over) {
    return deviation(Left{ray.radius + over, 0.0, 0}, ray);
}

}  // namespace

TEST_CASE("off a circle that stands beside the axis the deviation is the distance from the circle") {
    std::mt19937 dice(20261127);
    std::uniform_real_distribution<double> share(-1.0, 1.0);
    for (int trial = 0; trial < 500; ++trial) {
        const bool hollow = trial % 2 == 0;
        const double radius = 5.0 + 4.0 * share(dice);
        const Vec2 centre = hollow ? Vec2{20.0, 0.5 * radius * share(dice)}
                                   : Vec2{3.0 + share(dice), 0.5 * radius * share(dice)};
        const DesignRay ray = to_circle(centre, radius, 0.02 * share(dice), hollow);
        const double over = 0.05 * radius * share(dice);
        const double from_centre = length((ray.radius + over) * unit(ray.psi) - centre);
        INFO("trial " << trial << ", lean " << ray.lean << ", over " << over);
        CHECK_NEAR(deviation_by(ray, over), hollow ? radius - from_centre : from_centre - radius, 1e-13);
    }
}

TEST_CASE("off a straight flank the deviation is the way along the ray times the lean's cosine") {
    DesignRay ray;
    ray.radius = 10.0;
    ray.lean = 0.6;
    CHECK_NEAR(deviation_by(ray, 0.5), 0.3, 1e-15);
    CHECK_NEAR(deviation_by(ray, -7.0), -4.2, 1e-15);
}

TEST_CASE("the deeper the place on a ray the deeper the deviation, past the centre of curvature too") {
    for (const bool hollow : {false, true}) {
        const DesignRay ray = to_circle({hollow ? 20.0 : 2.0, 0.5}, 2.5, 0.01, hollow);
        double last = deviation_by(ray, -30.0);
        for (double over = -29.9; over < 30.0; over += 0.1) {
            const double here = deviation_by(ray, over);
            INFO((hollow ? "hollow, " : "convex, ") << over);
            CHECK(here > last);
            last = here;
        }
    }
}

// Of its tolerance this path uses all: 13 nm that way along the ray times the lean's cosine adds would refuse
// it.
TEST_CASE("a path that cuts to its tolerance where the ray leans most is within it") {
    const std::string text = R"(
layout = 1
[job]
title = "leaning"
units = "mm"
[shaft]
turns = "ccw"
blank_diameter = 18.0
[profile.p]
shape = "motion"
base_radius = 6.0
lift = 2.4
law = "power-polynomial"
powers = [2, 10, 18, 26]
opening_angle = 64.0
closing_angle = 68.0
opening_ramp = { lift = 0.12, angle = 18.0 }
closing_ramp = { lift = 0.15, angle = 24.0 }
[follower.t]
kind = "flat"
face_diameter = 20.0
[[lobe]]
name = "lobe"
profile = "p"
follower = "t"
at = 0.0
z = 20.0
width = 6.0
[cutter.em12]
kind = "end-mill"
diameter = 12.0
flute_length = 20.0
[machine]
post = "rs274ngc-zxa"
cutter_axis = "radial"
rotary_positive = "ccw"
tool_change = { radial = 60.0, axial = 110.0 }
[cut]
cutter = "em12"
tolerance = 0.02
allowance = 0.25
rough_depth = 0.8
surface_feed = 120.0
spindle_speed = 800
)";
    const auto no_neighbour = [](const std::string&) { return Outcome<std::string>(std::string()); };
    const ProofCase made = proof_case(taken(read_job(text, "leaning.toml", no_neighbour)));
    const ProofReport report = made.prove();
    INFO(findings_text(report));
    CHECK_FALSE(fails(report));
    CHECK(report.lobes.front().deepest.along_normal < -0.0199);
}
