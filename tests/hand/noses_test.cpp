// Noses between the flanks as they are cut, by a solver of the tests' own.
#include "planned_bench.h"
#include "trials.h"

#include <cmath>
#include <random>

using namespace hand_jobs;

namespace {

/// The largest circle with its top at `height` in the direction `towards` that stays within both discs, found
/// by halving: a circle about a point p of radius r lies within a disc about c of radius R if |p - c| + r <=
/// R.
double largest_nose(Vec2 towards, double height, const std::vector<Vec2>& centres, double radius) {
    double low = 0.0, high = height;
    for (int i = 0; i < 200; ++i) {
        const double nose = (low + high) / 2;
        const Vec2 centre = (height - nose) * towards;
        bool within = true;
        for (const Vec2 disc : centres)
            within = within && length(centre - disc) + nose <= radius;
        // A larger nose stands further in: it touches the discs when it outgrows them.
        (within ? low : high) = nose;
    }
    return (low + high) / 2;
}

struct Trial {
    std::vector<SolvedLobe> lobes;
    HandMethod method;
    double offset = 0.0, base = 0.0, lift = 0.0;
};

Trial random_trial(std::mt19937& random) {
    const auto number = [&](double low, double high) {
        return std::uniform_real_distribution<>(low, high)(random);
    };
    for (;;) {
        Trial trial;
        trial.offset = number(12, 40);
        Arcs arcs{number(5, 12), number(1, 3), number(95, 150), 0};
        arcs.flank = arcs.base + trial.offset;
        if (!(arcs.nose() > 0.5 && arcs.nose() < arcs.base)) continue;
        trial.base = arcs.base, trial.lift = arcs.lift;
        trial.lobes = {arcs_lobe(arcs, number(0, 360), "inlet", 0, random() % 2 ? Sense::ccw : Sense::cw)};
        trial.method = fixture(trial.offset, static_cast<int>(60 + random() % 300));
        trial.method.counts = random() % 2 ? Sense::ccw : Sense::cw;
        trial.method.zero = ShaftAngle::from_degrees(number(0, 360));
        if (random() % 2) trial.method.allowance = number(0.0, 0.1);
        return trial;
    }
}

}  // namespace

TEST_CASE("the nose told is the one that fits between the flanks as cut, over 500 random jobs") {
    const unsigned seed = 4;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    int off_marks = 0, none = 0;
    for (int trial = 0; trial < trials(500); ++trial) {
        const Trial each = random_trial(random);
        const double left_on = each.method.allowance;
        const Job job = job_of(each.lobes, each.method, 2 * (each.base + each.lift + left_on) + 0.3);
        const HandPlan plan = planned_bench(job, each.lobes);
        REQUIRE(plan.noses.size() == 1);
        const HandNose& nose = plan.noses.front();
        std::vector<Vec2> centres;
        for (const HandSetting& setting : plan.settings) {
            if (setting.work != HandWork::flank) continue;
            centres.push_back(-each.offset * unit(setting.shaft_angle.radians()));
            off_marks += std::abs(wrapped(setting.shaft_angle - setting.wanted).degrees()) > 0.1;
        }
        REQUIRE(centres.size() == 2);
        const double swept = each.offset + each.base + left_on, height = each.base + each.lift + left_on;
        // Midway: as far from either flank's centre.
        const Vec2 towards = unit(nose.at.radians());
        CHECK_NEAR(length(towards - centres[0]), length(towards - centres[1]), 1e-9);
        CHECK(dot(towards, unit(each.lobes[0].at.radians())) > 0.9);
        const bool tip_below = length(height * towards - centres[0]) > swept;
        if (tip_below) {
            ++none;
            CHECK_FALSE(nose.radius.has_value());
            CHECK(nose.short_by > 0.0);
            continue;
        }
        REQUIRE(nose.radius.has_value());
        CHECK_NEAR(*nose.radius, largest_nose(towards, height, centres, swept), 1e-6);
        CHECK_NEAR(nose.short_by, 0.0, 0.0);
        // Smooth: it touches each flank from within, at the corners of the template's mouth.
        const double centre = height - *nose.radius;
        const Vec2 joint = centre * towards + *nose.radius * (centre * towards - centres[0]) /
                                                  length(centre * towards - centres[0]);
        CHECK_NEAR(length(joint - centres[0]), swept, 1e-9);
        CHECK_NEAR(2.0 * std::abs(cross(towards, joint)), nose.template_mouth, 1e-6);
    }
    INFO(off_marks << " flanks off their marks, " << none << " without a nose at full height");
    CHECK(off_marks > trials(200));
}

TEST_CASE("on their marks the flanks leave the design's nose, with the allowance on it") {
    const Arcs arcs{6, 2.4, 120, 25};
    const std::vector<SolvedLobe> lobes = {arcs_lobe(arcs, 40, "inlet")};
    for (const double allowance : {0.0, 0.05}) {
        HandMethod method = fixture(19, 72);
        method.allowance = allowance;
        const HandPlan plan = planned_bench(job_of(lobes, method, 17.2), lobes);
        CHECK_NEAR(*plan.noses[0].radius, arcs.nose() + allowance, 1e-9);
        CHECK_NEAR(plan.noses[0].at.degrees(), 40.0, 1e-9);
        CHECK_FALSE(plan.noses[0].lift_for_design_radius.has_value());
        CHECK(finding_of(plan, "nose-off-design") == nullptr);
    }
}

TEST_CASE("flanks set nearer to each other leave a sharper nose, and the design's would stand too low") {
    const Arcs arcs{6, 2.4, 123, 25};  // flanks at -1.5 and 121.5, on a wheel of 5 degrees at 0 and 120
    const std::vector<SolvedLobe> lobes = {arcs_lobe(arcs, 60, "inlet")};
    const HandPlan plan = planned_bench(job_of(lobes, fixture(19, 72), 17), lobes);
    const Arcs as_cut{6, 2.4, 120, 25};
    const HandNose& nose = plan.noses[0];
    REQUIRE(nose.radius.has_value());
    CHECK_NEAR(*nose.radius, as_cut.nose(), 1e-9);
    CHECK(*nose.radius < arcs.nose());
    // Its centre on the line between, arcs.nose() from both discs' rims: by the triangle's cosine.
    const double c = std::cos(rad(60)), reach = 25 - arcs.nose();
    const double centre = -19 * c + std::sqrt(reach * reach - 19 * 19 * (1 - c * c));
    REQUIRE(nose.lift_for_design_radius.has_value());
    CHECK_NEAR(*nose.lift_for_design_radius, 8.4 - centre - arcs.nose(), 1e-9);
    REQUIRE(finding_of(plan, "nose-off-design") != nullptr);
    CHECK_THAT(finding_of(plan, "nose-off-design")->what, ContainsSubstring("too low"));
}

TEST_CASE(
    "flanks that meet below the nose's height are blended with a quarter of the design's radius, and cost "
    "lift") {
    const Arcs arcs{6, 2.4, 111, 25};  // flanks at -3.5 and 107.5, on a wheel of 8 degrees at 0 and 104
    const std::vector<SolvedLobe> lobes = {arcs_lobe(arcs, 52, "inlet")};
    const HandPlan plan = planned_bench(job_of(lobes, fixture(19, 45), 17), lobes);
    std::vector<double> facing;
    for (const HandSetting& setting : plan.settings)
        if (setting.work == HandWork::flank) facing.push_back(setting.shaft_angle.degrees());
    const double half = rad(std::abs(std::remainder(facing[1] - facing[0], 360.0)) / 2);
    const double tip = std::sqrt(25.0 * 25.0 - std::pow(19 * std::sin(half), 2)) - 19 * std::cos(half);
    REQUIRE(tip < 8.4);
    const HandNose& nose = plan.noses[0];
    CHECK_FALSE(nose.radius.has_value());
    CHECK_NEAR(nose.filed_radius, arcs.nose() / 4, 1e-12);
    CHECK(nose.short_by > 8.4 - tip);
    // A quarter of the radius, its centre so far from either flank's.
    const double reach = 25 - arcs.nose() / 4;
    const double centre = std::sqrt(reach * reach - std::pow(19 * std::sin(half), 2)) - 19 * std::cos(half);
    CHECK_NEAR(nose.short_by, 8.4 - centre - arcs.nose() / 4, 1e-9);
    REQUIRE(finding_of(plan, "flanks-meet-low") != nullptr);
    CHECK(finding_of(plan, "flanks-meet-low")->severity == Severity::warning);
}

TEST_CASE("a ring has a nose of its own between every two flanks") {
    Arcs arcs{8, 1.2, 70, 0};
    arcs.flank = 8 + 30;
    REQUIRE(arcs.nose() > 0.3);
    const std::vector<SolvedLobe> lobes = {arcs_lobe(arcs, 10, "ring", 0, Sense::ccw, 3)};
    const HandPlan plan = planned_bench(job_of(lobes, fixture(30, 72), 18.6), lobes);
    REQUIRE(plan.noses.size() == 3);
    for (std::size_t k = 0; k < 3; ++k) {
        CHECK(plan.noses[k].nose == static_cast<int>(k) + 1);
        CHECK_NEAR(wrapped(plan.noses[k].at - ShaftAngle::from_degrees(10 + 120.0 * static_cast<double>(k)))
                       .degrees(),
                   0.0, 2.6);
    }
}
