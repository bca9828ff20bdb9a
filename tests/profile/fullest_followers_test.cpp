#include "fullest_job.h"

#include <lobewright/soundness.h>

#include <algorithm>

using namespace lobewright;
using namespace fullest_job;

namespace {

Follower flat_pad() {
    Follower pad = basalt::pivoted(0.0, 45.0, 40.0, Sense::ccw);
    pad.pad_depth = 6.0;
    return pad;
}

struct Case {
    const char* name;
    Follower follower;
    double smallest_radius;  ///< mm
    double stress;           ///< MPa
};

/// Limits of which radius, stress or float speed bind under the one follower or the other.
Job job_of(const Case& of) {
    FullestProfile p;
    p.base_radius = 18.0;
    p.opening_angle = basalt::cam_degrees(72.0), p.closing_angle = basalt::cam_degrees(66.0);
    p.follower = "follower";
    p.limits.acceleration = 30.0, p.limits.deceleration = 16.0, p.limits.jerk = 220.0;
    p.limits.smallest_radius = of.smallest_radius;
    p.limits.contact_stress = of.stress;
    p.limits.float_speed = 6200.0;
    Job job = basalt::job(p, of.follower);
    job.contact = basalt::load(140.0, 22.0, 0.1, 6000.0);
    return job;
}

constexpr double kept = 1e-9;

}  // namespace

TEST_CASE(
    "radius, contact stress and float speed are kept everywhere under every follower, where they bind") {
    const Case cases[] = {
        {"roller", basalt::roller(9.0), 14.0, 2000.0},
        {"roller, pressed", basalt::roller(9.0), 2.0, 540.0},
        {"small roller", basalt::roller(5.0), 13.0, 2000.0},
        {"roller beside the axis", basalt::roller(8.0, 2.5), 13.0, 2000.0},
        {"roller on the other side, pressed", basalt::roller(8.0, -2.5), 2.0, 600.0},
        {"dome", basalt::domed(70.0), 9.5, 2000.0},
        {"dome, pressed", basalt::domed(40.0), 2.0, 320.0},
        {"arm with a roller", basalt::pivoted(9.0, 45.0, 38.0, Sense::ccw), 13.0, 2000.0},
        {"arm with a pad", basalt::pivoted(30.0, 45.0, 38.0, Sense::cw), 11.0, 2000.0},
        {"arm with a flat pad", flat_pad(), 7.0, 2000.0},
        {"flat, pressed", basalt::endless_flat(), 2.0, 285.0},
        {"knife", basalt::knife(), 14.0, 0.0},
    };
    for (const Case& of : cases) {
        INFO(of.name);
        Job job = job_of(of);
        FullestLimits& limits = fullest(job).limits;
        if (of.stress == 0.0) limits.contact_stress.reset();
        const SolvedLobe lobe = basalt::solved(job);
        const LobeReport report = judge(job, {lobe}).lobes.front();
        CHECK(report.min_curvature_radius.value >= of.smallest_radius * (1.0 - kept));
        CHECK(*report.float_speed_rpm >= 6200.0 * (1.0 - kept));
        CHECK(-report.min_acceleration.value <= limits.deceleration * (1.0 + kept));
        CHECK(report.max_acceleration.value <= *limits.acceleration * (1.0 + kept));
        CHECK(report.max_jerk.value <= limits.jerk * (1.0 + kept));
        if (of.stress > 0.0) CHECK(report.max_contact_stress_mpa->value <= of.stress * (1.0 + kept));
        bool bent = false;  // the follower's own limit is what binds
        for (const ReachedLimit& reached : lobe.limited_by)
            bent = bent || reached.limit == FullestLimit::smallest_radius ||
                   reached.limit == FullestLimit::contact_stress;
        CHECK(bent);
    }
}

TEST_CASE("a float speed that holds the deceleration back is reached, and kept") {
    Job job = job_of({"roller", basalt::roller(9.0), 2.0, 2000.0});
    fullest(job).limits.float_speed = 8000.0;
    const SolvedLobe lobe = basalt::solved(job);
    const LobeReport report = judge(job, {lobe}).lobes.front();
    CHECK(*report.float_speed_rpm >= 8000.0 * (1.0 - kept));
    CHECK(*report.float_speed_rpm <= 8000.0 * (1.0 + 1e-3));
    CHECK(std::any_of(lobe.limited_by.begin(), lobe.limited_by.end(),
                      [](const ReachedLimit& each) { return each.limit == FullestLimit::float_speed; }));
}

TEST_CASE("what a hundredth more of a follower's own limit would gain is what it gains") {
    Job job = job_of({"roller", basalt::roller(9.0), 14.0, 2000.0});
    const SolvedLobe lobe = basalt::solved(job);
    const double area = judge(job, {lobe}).lobes.front().area;
    const auto radius = std::find_if(
        lobe.limited_by.begin(), lobe.limited_by.end(),
        [](const ReachedLimit& reached) { return reached.limit == FullestLimit::smallest_radius; });
    REQUIRE(radius != lobe.limited_by.end());
    *fullest(job).limits.smallest_radius *= 0.99;
    const double gain = judge(job, {basalt::solved(job)}).lobes.front().area / area - 1.0;
    CHECK(gain > 0.0);
    CHECK_NEAR(radius->gain, gain, 0.1 * gain + 2e-5);
}

TEST_CASE("a stress that no lift keeps is refused with the value that does") {
    Job job = job_of({"roller", basalt::roller(9.0), 2.0, 300.0});
    const auto lobes = solve_lobes(job);
    REQUIRE_FALSE(lobes.ok());
    const Diagnostic& d = lobes.diagnostics().front();
    INFO(to_text(d));
    CHECK_THAT(d.what, ContainsSubstring("contact_stress stands in the way"));
    const auto at = d.remedy.find("contact_stress = ");
    REQUIRE(at != std::string::npos);
    fullest(job).limits.contact_stress = std::stod(d.remedy.substr(at + 17));
    CHECK(solve_lobes(job).ok());
}

TEST_CASE("a contact stress under a knife is refused") {
    const Job job = job_of({"knife", basalt::knife(), 2.0, 700.0});
    const auto lobes = solve_lobes(job);
    REQUIRE_FALSE(lobes.ok());
    CHECK(lobes.diagnostics().front().code == "contact-stress");
    CHECK(lobes.diagnostics().front().fault == Fault::bad_input);
}

TEST_CASE("the stress is that of the narrowest lobe of a profile, so that every lobe of it has one shape") {
    Job job = job_of({"roller", basalt::roller(9.0), 2.0, 560.0});
    LobeEntry narrow = job.lobes.front();
    narrow.name = "narrow", narrow.width = 5.0, narrow.z = 60.0;
    job.lobes.push_back(narrow);
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    CHECK(lobes->at(0).lift == lobes->at(1).lift);
    const JobReport report = judge(job, *lobes);
    CHECK(report.lobes[1].max_contact_stress_mpa->value <= 560.0 * (1.0 + kept));
    CHECK(report.lobes[0].max_contact_stress_mpa->value < 0.93 * 560.0);
}
