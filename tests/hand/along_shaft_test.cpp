#include "hand/along_shaft.h"

#include "catch.h"
#include "hand_jobs.h"

using namespace hand_jobs;
using namespace lobewright::hand;

namespace {

// Lobes 6 wide with their middles at 20 and 30: gaps of 4.
std::vector<SolvedLobe> two_lobes() {
    return {arcs_lobe({6, 2.4, 120, 25}, 0, "1", 0), arcs_lobe({6, 2.4, 120, 25}, 90, "2", 1)};
}

Cutter end_mill(double diameter, double flute) {
    Cutter cutter;
    cutter.diameter = diameter;
    cutter.flute_length = flute;
    return cutter;
}

}  // namespace

TEST_CASE("a narrow tool plunges side by side, flush with both sides of the lobe") {
    const auto lobes = two_lobes();
    Diagnostics complaints;
    const auto plunges =
        plan_plunges(job_of(lobes, fixture(19, 72), 17), lobes, 2.5, "hand.bench.tool_width", complaints);
    CHECK(complaints.empty());
    REQUIRE(plunges.size() == 2);
    REQUIRE(plunges[0].z.size() == 3);
    CHECK_NEAR(plunges[0].z.front() - 1.25, 17.0, 1e-12);
    CHECK_NEAR(plunges[0].z.back() + 1.25, 23.0, 1e-12);
    CHECK_NEAR(plunges[1].z[1], 30.0, 1e-12);
}

TEST_CASE("a tool as wide as the lobe plunges once, and one that reaches over the gap is refused") {
    const auto lobes = two_lobes();
    const Job job = job_of(lobes, fixture(19, 72), 17);
    Diagnostics complaints;
    CHECK(plan_plunges(job, lobes, 14.0, "hand.bench.tool_width", complaints)[0].z.size() == 1);
    CHECK(complaints.empty());
    plan_plunges(job, lobes, 14.2, "hand.bench.tool_width", complaints);
    REQUIRE(complaints.size() == 2);
    CHECK_THAT(to_text(complaints[0]), ContainsSubstring("cut into lobe \"2\", 4 mm beside it") &&
                                           ContainsSubstring("at most 14 mm"));
}

TEST_CASE("journals count where they stand out above the base circle") {
    const auto lobes = two_lobes();
    Job job = job_of(lobes, fixture(19, 72), 17);
    job.shaft.journals = {{14, 4, 14}};  // ends at 16, one before the first lobe
    Diagnostics complaints;
    plan_plunges(job, lobes, 9.0, "hand.bench.tool_width", complaints);
    REQUIRE(complaints.size() == 1);
    CHECK_THAT(complaints[0].what, ContainsSubstring("journal 1, 1 mm beside it"));
    job.shaft.journals = {{14, 4, 12}};
    complaints.clear();
    plan_plunges(job, lobes, 9.0, "hand.bench.tool_width", complaints);
    CHECK(complaints.empty());
}

TEST_CASE("without a width nothing is said about plunges") {
    const auto lobes = two_lobes();
    Diagnostics complaints;
    CHECK(plan_plunges(job_of(lobes, fixture(19, 72), 17), lobes, std::nullopt, "", complaints)[1].z.empty());
}

TEST_CASE("a cutter along the shaft needs one free side") {
    auto lobes = two_lobes();
    Diagnostics complaints;
    check_body(job_of(lobes, fixture(19, 72), 17), lobes, end_mill(10, 22), "hand.bench.cutter", complaints);
    CHECK(complaints.empty());  // each has its other neighbour's side free
    lobes.push_back(arcs_lobe({6, 2.4, 120, 25}, 180, "3", 2));
    check_body(job_of(lobes, fixture(19, 72), 17), lobes, end_mill(10, 22), "hand.bench.cutter", complaints);
    REQUIRE(complaints.size() == 1);
    CHECK_THAT(complaints[0].what, ContainsSubstring("lobe \"2\"") && ContainsSubstring("lobe \"1\"") &&
                                       ContainsSubstring("lobe \"3\""));
}

TEST_CASE("short flutes on a thin shank, or a thin neck, pass the neighbours") {
    auto lobes = two_lobes();
    lobes.push_back(arcs_lobe({6, 2.4, 120, 25}, 180, "3", 2));
    const Job job = job_of(lobes, fixture(19, 72), 17);
    Cutter slim = end_mill(10, 9);
    slim.shank_diameter = 4;  // 6 + 5 - 2 = 9 from the axis, the blank stands 8.5
    Diagnostics complaints;
    check_body(job, lobes, slim, "", complaints);
    CHECK(complaints.empty());
    slim.shank_diameter = 6;
    check_body(job, lobes, slim, "", complaints);
    CHECK(complaints.size() == 1);
    Cutter disc;
    disc.kind = CutterKind::disc;
    disc.diameter = 32;
    disc.width = 5;
    disc.neck_diameter = 12;
    complaints.clear();
    check_body(job, lobes, disc, "", complaints);
    CHECK(complaints.empty());
    disc.neck_diameter = 28;  // 6 + 16 - 14 = 8 from the axis
    check_body(job, lobes, disc, "", complaints);
    CHECK(complaints.size() == 1);
}
