// What is left on, along the normal, for stone, lap or grinder.
#include "planned_bench.h"

#include <cmath>

using namespace hand_jobs;

namespace {

constexpr double left_on = 0.04;

std::vector<SolvedLobe> one_lobe() {
    return {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
}

HandPlan with_allowance(HandMethod method, double allowance, double bar = 17.2) {
    method.allowance = allowance;
    return planned_bench(job_of(one_lobe(), method, bar), one_lobe());
}

}  // namespace

TEST_CASE("a fixture's stops leave the allowance on, twice that on a diameter dial") {
    for (const DialReading dial : {DialReading::radius, DialReading::diameter}) {
        HandMethod method = fixture(19, 72);
        method.dial = dial;
        const HandPlan bare = with_allowance(method, 0.0), left = with_allowance(method, left_on);
        const double on_dial = dial == DialReading::diameter ? 2 * left_on : left_on;
        REQUIRE(bare.settings.size() == left.settings.size());
        for (std::size_t i = 0; i < bare.settings.size(); ++i) {
            CHECK_NEAR(*left.settings[i].finish - *bare.settings[i].finish, on_dial, 1e-12);
            CHECK_NEAR(*left.settings[i].start, *bare.settings[i].start, 1e-12);
            CHECK_NEAR(*left.settings[i].mark, *bare.settings[i].mark, 1e-12);
        }
    }
}

TEST_CASE("with an allowance the finish is judged against the design with it, the timing without it") {
    for (const HandMethod& method : {fixture(19, 72), head({}, 5.0), head(0.01, {})}) {
        const HandFinish bare = with_allowance(method, 0.0).finish[0];
        const HandFinish left = with_allowance(method, left_on).finish[0];
        // Ridges over a surface that lies further out: of arcs and flats alike by the radius, 0.04 in 6.
        CHECK_NEAR(left.highest_ridge, bare.highest_ridge, 0.02 * bare.highest_ridge + 0.005);
        CHECK(left.deepest > -1e-9);
        CHECK_NEAR(left.opens_late.degrees(), bare.opens_late.degrees(), method.cusp ? 0.5 : 1e-9);
        CHECK_NEAR(left.closes_late.degrees(), bare.closes_late.degrees(), method.cusp ? 0.5 : 1e-9);
    }
}

TEST_CASE("every facet's depth leaves the allowance on, flat or round, along the normal") {
    HandMethod flat = head({}, 10.0);
    const HandPlan bare = with_allowance(flat, 0.0), left = with_allowance(flat, left_on);
    for (std::size_t i = 0; i < bare.settings.size(); ++i)
        CHECK_NEAR(*left.settings[i].finish - *bare.settings[i].finish, left_on, 1e-12);

    // The side of a cutter: its centre stands where that of a cutter larger by the allowance would.
    Job job = job_of(one_lobe(), head({}, 10.0), 17.2);
    job.hand["bench"].cutter_axis = CutterAxis::parallel;
    job.hand["bench"].cutter = "em";
    job.cutters["em"].diameter = 10.0;
    job.cutters["em"].flute_length = 22.0;
    job.hand["bench"].allowance = left_on;
    const HandPlan round = planned_bench(job, one_lobe());
    job.hand["bench"].allowance = 0.0;
    job.cutters["em"].diameter = 10.0 + 2 * left_on;
    const HandPlan larger = planned_bench(job, one_lobe());
    REQUIRE(round.settings.size() == larger.settings.size());
    for (std::size_t i = 0; i < round.settings.size(); ++i)
        CHECK_NEAR(*round.settings[i].finish, *larger.settings[i].finish, 1e-12);
}
