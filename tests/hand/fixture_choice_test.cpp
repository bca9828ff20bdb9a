#include "hand/fixture/fixture_choice.h"

#include "catch.h"
#include "planned_bench.h"

#include <cmath>
#include <random>

using namespace hand_jobs;
using namespace lobewright::hand;

namespace {

HandMethod without_offset() {
    HandMethod method = fixture(0, 72);
    method.offset.reset();
    return method;
}

}  // namespace

TEST_CASE("the nose that an offset leaves is the textbook's, and the offset for a nose is its inverse") {
    const unsigned seed = 3;
    std::mt19937 random(seed);
    INFO("seed " << seed);
    const auto number = [&](double low, double high) {
        return std::uniform_real_distribution<>(low, high)(random);
    };
    for (int i = 0; i < 500; ++i) {
        const LobeMeasures shape{number(5, 20), number(0.5, 3), CamAngle::from_degrees(number(50, 80))};
        if (limiting_nose(shape) < 0.1) continue;
        const double offset = least_offset(shape) + number(0.01, 100);
        const Arcs arcs{shape.base_radius, shape.lift, 2 * shape.half_action.degrees(),
                        offset + shape.base_radius};
        const double nose = nose_for_offset(shape, offset);
        REQUIRE(std::abs(nose - arcs.nose()) < 1e-9 * arcs.flank);
        REQUIRE(nose > 0.0);
        REQUIRE(nose < limiting_nose(shape));
        REQUIRE(std::abs(offset_for_nose(shape, nose) - offset) < 1e-6 * offset);
    }
}

TEST_CASE("below the least offset there is no nose") {
    const LobeMeasures shape{6, 2.4, CamAngle::from_degrees(60)};
    CHECK_NEAR(nose_for_offset(shape, least_offset(shape)), 0.0, 1e-12);
    CHECK(nose_for_offset(shape, least_offset(shape) - 0.01) < 0.0);
}

TEST_CASE(
    "the worked examples of the textbooks keep their flanks: flank radius less base radius off centre") {
    // A flank of 116.91 mm on a base of 20 swings about centres 96.91 off: the suction valve's cam in Khurmi
    // and Gupta, Theory of Machines (inputs from memory, geometry derived), half action 56.5 degrees,
    // nose 2.5, lift 10.
    const LobeMeasures shape{20, 10, CamAngle::from_degrees(56.5)};
    CHECK_NEAR(offset_for_nose(shape, 2.5), 96.910372, 5e-7);
    // Bevan, The Theory of Machines, example 5 on page 300: base 1.125, nose 0.125, lift 0.5, half action 55.
    // It prints 4.477, with cosines of four figures; the geometry gives 4.475944.
    CHECK_NEAR(offset_for_nose({1.125, 0.5, CamAngle::from_degrees(55)}, 0.125), 4.475944, 5e-7);
}

TEST_CASE("without an offset, lobes that agree on one get it, told as a note") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet", 0),
                                           arcs_lobe({6.5, 2.2, 124, 25.5}, 140, "exhaust", 1)};
    const HandPlan plan = planned_bench(job_of(lobes, without_offset(), 18), lobes);
    CHECK_NEAR(plan.fixture->offset, 19.0, 1e-12);
    REQUIRE_FALSE(plan.findings.empty());
    CHECK(plan.findings[0].code == "offset-found");
    CHECK_THAT(plan.findings[0].what, ContainsSubstring("19 mm"));
}

TEST_CASE("without an offset, lobes that disagree are told the range and a suggestion that really works") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet", 0),
                                           arcs_lobe({6, 2.4, 124, 30}, 140, "exhaust", 1)};
    HandMethod method = without_offset();
    const std::string text = refused_bench(job_of(lobes, method, 17), lobes);
    // The inlet asks for more: its nose comes to nothing at 2.4·14.4/(2·0.5·3.6) = 9.6, and has two thirds
    // of 3.6 at 19.2.
    CHECK_THAT(text, ContainsSubstring("above 9.6 mm"));
    CHECK_THAT(text, ContainsSubstring("offset = 20 mm") &&
                         ContainsSubstring("[profile.inlet] flank_radius = 26 mm") &&
                         ContainsSubstring("[profile.exhaust] flank_radius = 26 mm"));
    const std::vector<SolvedLobe> suggested = {arcs_lobe({6, 2.4, 120, 26}, 40, "inlet", 0),
                                               arcs_lobe({6, 2.4, 124, 26}, 140, "exhaust", 1)};
    CHECK(plan_hand(job_of(suggested, fixture(20, 72), 17), suggested, "bench").ok());
    method.swing_over_cross_slide = 50;
    CHECK_THAT(refused_bench(job_of(lobes, method, 17), lobes),
               ContainsSubstring("and up to 16.5 mm") && ContainsSubstring("offset = 16.5 mm"));
    method.swing_over_cross_slide = 30;
    CHECK_THAT(refused_bench(job_of(lobes, method, 17), lobes),
               ContainsSubstring("swings the blank only up to 6.5 mm"));
}

TEST_CASE("without an offset, a lobe that no fixture cuts is told so at the offset of the others") {
    std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet", 0),
                                     arcs_lobe({6, 2.4, 124, 25}, 140, "exhaust", 1)};
    lobes[1].arcs.reset();
    CHECK_THAT(refused_bench(job_of(lobes, without_offset(), 17), lobes),
               ContainsSubstring("lobe \"exhaust\"") && ContainsSubstring("law of motion") &&
                   ContainsSubstring("flank_radius = 25 mm"));
    lobes[0].arcs.reset();
    CHECK_THAT(refused_bench(job_of(lobes, without_offset(), 17), lobes),
               ContainsSubstring(
                   "offset = 20 mm, and in [profile.inlet] shape = \"arcs\" and flank_radius = 26 mm"));
}

TEST_CASE("in inches the suggestion is a whole number of 32nds") {
    constexpr double inch = 25.4;
    const std::vector<SolvedLobe> lobes = {
        arcs_lobe({0.25 * inch, 0.1 * inch, 120, 1.0 * inch}, 40, "inlet", 0),
        arcs_lobe({0.25 * inch, 0.1 * inch, 124, 1.2 * inch}, 140, "exhaust", 1)};
    // Two thirds of 0.15 in at 0.1·(0.6 - 0.2)/(2·0.5·0.05) = 0.8 in; the next 32nd is 26/32.
    CHECK_THAT(refused_bench(job_of(lobes, without_offset(), 0.75 * inch, Units::inch), lobes),
               ContainsSubstring("offset = 0.8125 in"));
}

TEST_CASE("what swings is held against the lathe, with the remedy that fits") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    HandMethod method = fixture(19, 72);
    method.wheel_diameter = 60;
    method.swing_over_bed = 98;
    method.swing_over_cross_slide = 98;
    CHECK(planned_bench(job_of(lobes, method, 17), lobes).findings.empty());
    method.swing_over_cross_slide = 97;
    const HandPlan plan = planned_bench(job_of(lobes, method, 17), lobes);
    REQUIRE(plan.findings.size() == 1);
    CHECK(plan.findings[0].severity == Severity::warning);
    CHECK_THAT(plan.findings[0].what,
               ContainsSubstring("the other way round") && ContainsSubstring("at most 59 mm"));
    method.swing_over_bed = 97;
    CHECK_THAT(refused_bench(job_of(lobes, method, 17), lobes),
               ContainsSubstring("use a wheel of at most 59 mm"));
    method.swing_over_bed = 200;
    method.swing_over_cross_slide = 54;  // the blank swings 55
    CHECK_THAT(refused_bench(job_of(lobes, method, 17), lobes),
               ContainsSubstring("an offset of at most 18.5 mm") &&
                   ContainsSubstring("over the cross slide there is"));
    method.wheel_diameter.reset();
    std::swap(method.swing_over_bed, method.swing_over_cross_slide);
    CHECK_THAT(refused_bench(job_of(lobes, method, 17), lobes),
               ContainsSubstring("over the bed there is room"));
}
