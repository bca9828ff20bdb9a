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

std::vector<ToolTooWide> too_wide(const Job& job, const std::vector<SolvedLobe>& lobes, double width) {
    Obstacles obstacles;
    check_plunges(job, lobes, width, obstacles);
    std::vector<ToolTooWide> found;
    for (const Obstacle& obstacle : obstacles)
        found.push_back(std::get<ToolTooWide>(obstacle));
    return found;
}

/// How many lobes have no side free.
std::size_t fouled(const Job& job, const std::vector<SolvedLobe>& lobes, const Cutter& cutter) {
    Obstacles obstacles;
    check_body(job, lobes, cutter, obstacles);
    return obstacles.size();
}

Cutter end_mill(double diameter, double flute) {
    Cutter cutter;
    cutter.diameter = diameter;
    cutter.flute_length = flute;
    return cutter;
}

}  // namespace

TEST_CASE("a narrow tool's places overlap, flush with both sides of the lobe") {
    const auto lobes = two_lobes();
    const Job job = job_of(lobes, fixture(19, 72), 17);
    const auto plunges = plan_plunges(job, lobes, 2.5);
    CHECK(too_wide(job, lobes, 2.5).empty());
    REQUIRE(plunges.size() == 2);
    REQUIRE(plunges[0].z.size() == 3);
    CHECK_NEAR(plunges[0].z.front() - 1.25, 17.0, 1e-12);
    CHECK_NEAR(plunges[0].z.back() + 1.25, 23.0, 1e-12);
    CHECK_NEAR(plunges[1].z[1], 30.0, 1e-12);
}

TEST_CASE("a tool as wide as the lobe plunges once, and one that reaches over the gap is refused") {
    const auto lobes = two_lobes();
    Job job = job_of(lobes, fixture(19, 72), 17);
    CHECK(plan_plunges(job, lobes, 14.0)[0].z.size() == 1);
    CHECK(too_wide(job, lobes, 14.0).empty());
    REQUIRE(too_wide(job, lobes, 14.2).size() == 2);
    CHECK(too_wide(job, lobes, 14.2)[0].beside.index == 1);
    CHECK_NEAR(too_wide(job, lobes, 14.2)[0].gap, 4.0, 1e-12);
    job.hand["bench"].tool_width = 14.2;
    CHECK_THAT(
        to_text(plan_hand(job, lobes, "bench").diagnostics()[0]),
        ContainsSubstring("cut into lobe \"2\", 4 mm beside it") && ContainsSubstring("at most 14 mm"));
}

TEST_CASE("journals count where they stand out above the base circle") {
    const auto lobes = two_lobes();
    Job job = job_of(lobes, fixture(19, 72), 17);
    job.shaft.journals = {{14, 4, 14}};  // ends at 16, one before the first lobe
    REQUIRE(too_wide(job, lobes, 9.0).size() == 1);
    CHECK_NEAR(too_wide(job, lobes, 9.0)[0].gap, 1.0, 1e-12);
    job.hand["bench"].tool_width = 9.0;
    CHECK_THAT(plan_hand(job, lobes, "bench").diagnostics()[0].what,
               ContainsSubstring("journal 1, 1 mm beside it"));
    job.shaft.journals = {{14, 4, 12}};
    CHECK(too_wide(job, lobes, 9.0).empty());
}

TEST_CASE("without a width nothing is said about plunges") {
    const auto lobes = two_lobes();
    const auto plunges = plan_plunges(job_of(lobes, fixture(19, 72), 17), lobes, std::nullopt);
    CHECK(plunges[1].z.empty());
    CHECK_FALSE(plunges[1].along_from.has_value());
}

TEST_CASE("no two places of a tool meet edge to edge: a fin would stand between them") {
    const auto lobes = two_lobes();
    const Job job = job_of(lobes, fixture(19, 72), 17);
    for (const double width : {0.7, 1.0, 1.5, 2.0, 2.9, 3.0, 3.1, 5.0, 5.9, 6.0, 7.0}) {
        INFO("a tool of " << width << " mm");
        const auto places = plan_plunges(job, lobes, width)[0].z;
        if (width >= 6.0) {
            CHECK(places.size() == 1);
            continue;
        }
        CHECK_NEAR(places.front() - width / 2, 17.0, 1e-12);
        CHECK_NEAR(places.back() + width / 2, 23.0, 1e-12);
        for (std::size_t i = 1; i < places.size(); ++i)
            CHECK(width - (places[i] - places[i - 1]) >= shared_width * width - 1e-12);
        // One place less would not do.
        const auto fewer = static_cast<double>(places.size()) - 1.0;
        CHECK(fewer * (1.0 - shared_width) * width + shared_width * width < 6.0 + 1e-9);
    }
    CHECK(plan_plunges(job, lobes, 3.0)[0].z.size() == 3);  // two would share nothing
    CHECK(plan_plunges(job, lobes, 2.0)[0].z.size() == 4);
}

TEST_CASE("a tool fed along begins clear of the lobe, on the side with more room, and ends flush") {
    const auto lobes = two_lobes();
    Job job = job_of(lobes, fixture(19, 72), 17);
    const auto plunges = plan_plunges(job, lobes, 2.0);
    CHECK_NEAR(*plunges[0].along_from, 16.0, 1e-12);  // nothing towards the drive end
    CHECK_NEAR(*plunges[0].along_to, 22.0, 1e-12);
    CHECK_NEAR(*plunges[1].along_from, 34.0, 1e-12);
    CHECK_NEAR(*plunges[1].along_to, 28.0, 1e-12);
    job.shaft.journals = {{15, 2, 14}};  // ends at 16: one beside the first lobe, the gap of 4 is roomier
    CHECK_NEAR(*plan_plunges(job, lobes, 2.0)[0].along_from, 24.0, 1e-12);
}

TEST_CASE("with the slide locked a tool that has no room beside a lobe is refused, and plunging is named") {
    auto lobes = two_lobes();
    lobes.push_back(arcs_lobe({6, 2.4, 120, 25}, 180, "3", 2));
    Job job = job_of(lobes, fixture(19, 72), 17);
    job.hand["bench"].travel = HandTravel::along;
    job.hand["bench"].tool_width = 4.0;
    CHECK(plan_hand(job, lobes, "bench").ok());
    job.hand["bench"].tool_width = 4.1;  // beside the middle lobe there is 4 either way
    const auto refused = plan_hand(job, lobes, "bench");
    REQUIRE(refused.diagnostics().size() == 1);
    CHECK_THAT(to_text(refused.diagnostics()[0]), ContainsSubstring("lobe \"2\"") &&
                                                      ContainsSubstring("there is room for 4 mm") &&
                                                      ContainsSubstring("travel = \"plunge\""));
    job.hand["bench"].travel = HandTravel::plunge;
    CHECK(plan_hand(job, lobes, "bench").ok());
}

TEST_CASE("a cutter along the shaft needs one free side") {
    auto lobes = two_lobes();
    // Each has its other neighbour's side free.
    CHECK(fouled(job_of(lobes, fixture(19, 72), 17), lobes, end_mill(10, 22)) == 0);
    lobes.push_back(arcs_lobe({6, 2.4, 120, 25}, 180, "3", 2));
    Job job = job_of(lobes, head({}, 5.0), 17);
    CHECK(fouled(job, lobes, end_mill(10, 22)) == 1);
    job.cutters["em"] = end_mill(10, 22);
    job.hand["bench"].cutter_axis = CutterAxis::parallel;
    job.hand["bench"].cutter = "em";
    CHECK_THAT(plan_hand(job, lobes, "bench").diagnostics()[0].what, ContainsSubstring("lobe \"2\"") &&
                                                                         ContainsSubstring("lobe \"1\"") &&
                                                                         ContainsSubstring("lobe \"3\""));
}

TEST_CASE("short flutes on a thin shank, or a thin neck, pass the neighbours") {
    auto lobes = two_lobes();
    lobes.push_back(arcs_lobe({6, 2.4, 120, 25}, 180, "3", 2));
    const Job job = job_of(lobes, fixture(19, 72), 17);
    Cutter slim = end_mill(10, 9);
    slim.shank_diameter = 4;  // 6 + 5 - 2 = 9 from the axis, the blank stands 8.5
    CHECK(fouled(job, lobes, slim) == 0);
    slim.shank_diameter = 6;
    CHECK(fouled(job, lobes, slim) == 1);
    Cutter disc;
    disc.kind = CutterKind::disc;
    disc.diameter = 32;
    disc.width = 5;
    disc.neck_diameter = 12;
    CHECK(fouled(job, lobes, disc) == 0);
    disc.neck_diameter = 28;  // 6 + 16 - 14 = 8 from the axis
    CHECK(fouled(job, lobes, disc) == 1);
}
