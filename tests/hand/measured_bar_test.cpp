// Whatever a bar is called: touches, dials, passes and stock go by what it measures.
#include "planned_bench.h"

using namespace hand_jobs;

namespace {

std::vector<SolvedLobe> one_lobe() {
    return {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
}

/// The same bar, once called so, once called 17 and measured.
std::pair<HandPlan, HandPlan> called_and_measured(const HandMethod& method, double bar) {
    Job measured = job_of(one_lobe(), method, 17);
    measured.shaft.blank_measured = bar;
    return {planned_bench(job_of(one_lobe(), method, bar), one_lobe()), planned_bench(measured, one_lobe())};
}

void check_same(const HandPlan& called, const HandPlan& measured) {
    REQUIRE(called.settings.size() == measured.settings.size());
    for (std::size_t i = 0; i < called.settings.size(); ++i) {
        const HandSetting &a = called.settings[i], &b = measured.settings[i];
        CHECK_NEAR(*a.start, *b.start, 0.0);
        CHECK_NEAR(*a.touches, *b.touches, 0.0);
        CHECK_NEAR(*a.finish, *b.finish, 0.0);
        CHECK(a.passes == b.passes);
    }
}

}  // namespace

TEST_CASE("a measured bar moves every figure that a bar of that name would, and no other") {
    for (const double bar : {16.8, 16.93, 17.05, 17.4}) {
        INFO("a bar of " << bar);
        const auto [called, measured] = called_and_measured(fixture(19, 72), bar);
        check_same(called, measured);
        CHECK_NEAR(measured.fixture->blank_radius, bar / 2, 1e-12);
        CHECK_NEAR(*measured.settings.front().start, 19 + bar / 2, 1e-12);
        CHECK_NEAR(*measured.settings.front().finish, 25.0, 1e-12);
        CHECK_NEAR(called.lands[0].arc, measured.lands[0].arc, 0.0);
        CHECK_NEAR(called.noses[0].top_stock, measured.noses[0].top_stock, 0.0);
        check_same(called_and_measured(head({}, 10.0), bar).first,
                   called_and_measured(head({}, 10.0), bar).second);
    }
}

TEST_CASE("a bar that measures too small for the lobe and its allowance is refused") {
    Job job = job_of(one_lobe(), fixture(19, 72), 17);
    job.shaft.blank_measured = 16.79;
    CHECK_THAT(to_text(plan_hand(job, one_lobe(), "bench").diagnostics()[0]),
               ContainsSubstring("the blank is 16.79 mm across"));
    job.shaft.blank_measured = 16.9;
    CHECK(plan_hand(job, one_lobe(), "bench").ok());
    job.hand["bench"].allowance = 0.06;  // 16.92 is needed
    CHECK_THAT(to_text(plan_hand(job, one_lobe(), "bench").diagnostics()[0]),
               ContainsSubstring("take a blank of at least 16.92 mm"));
}

TEST_CASE("without a measured bar the sheet has the formula of the touch and a line to fill in") {
    const auto sheet = [](const HandMethod& method, std::optional<double> measured, Units units = Units::mm) {
        const double scale = units == Units::mm ? 1.0 : 25.4;
        const std::vector<SolvedLobe> lobes = {
            arcs_lobe({6 * scale, 2.4 * scale, 120, 25 * scale}, 40, "inlet")};
        Job job = job_of(lobes, method, 17 * scale, units);
        job.shaft.blank_measured = measured;
        return unbroken(hand_text(job, lobes, planned_bench(job, lobes), HandFormat::markdown));
    };
    HandMethod method = fixture(19, 72);
    CHECK_THAT(sheet(method, {}),
               ContainsSubstring("D = ____") && ContainsSubstring("19.000 + D / 2 = ____") &&
                   ContainsSubstring("A bar 0.05 larger") && ContainsSubstring("0.025 less lift"));
    CHECK_THAT(sheet(method, 17.05), !ContainsSubstring("____") && ContainsSubstring("measures 17.050"));
    method.dial = DialReading::diameter;
    method.dial_zero = 2.0;
    CHECK_THAT(sheet(method, {}), ContainsSubstring("40.000 + D = ____"));
    CHECK_THAT(sheet(head({}, 10.0), {}), ContainsSubstring("set it to D / 2 = ____"));
    HandMethod inch = fixture(19 * 25.4, 72);
    inch.infeed = 2.54;
    CHECK_THAT(sheet(inch, {}, Units::inch),
               ContainsSubstring("19.0000 + D / 2 = ____") && ContainsSubstring("A bar 0.002 larger"));
}
