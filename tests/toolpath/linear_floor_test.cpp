#include "catch.h"
#include "five_lobes.h"
#include "planned.h"
#include "toolpath/path/detour.h"

#include <cmath>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

struct Floored {
    int blocks = 0;
    int run_away = 0;
    double worst = 1.0;  // planned time of the worst by what it would take
};

/// Feed blocks whose radial motion is slower than `floor` (mm/min) and yet there.
Floored floored(const Toolpath& path, double floor) {
    Floored found;
    Words at = path.start;
    for (const Move& move : path.moves) {
        const double radial =
            std::abs(static_cast<double>(move.to.radial - at.radial)) * path.grid.radial_step;
        const double axial = std::abs(static_cast<double>(move.to.axial - at.axial)) * path.grid.axial_step;
        const double linear = std::sqrt(radial * radial + axial * axial);
        if (move.kind == MoveKind::feed) {
            ++found.blocks;
            if (linear > 0.0 && linear < floor * move.seconds / 60.0) {
                ++found.run_away;
                found.worst = std::max(found.worst, move.seconds / (linear / floor * 60.0));
            }
        }
        at = move.to;
    }
    return found;
}

WordGrid grid_with(double floor) {
    WordGrid grid;
    grid.rotary_step = 1e-4;
    grid.least_linear_feed = floor;
    return grid;
}

}  // namespace

TEST_CASE("without a floor some blocks move the radial axis slower than a controller may run it") {
    int run_away = 0;
    for (const five_lobes::Case& each : five_lobes::all())
        run_away += floored(planned(five_lobes::job_for(each.lobe, 0.002), {each.lobe}, grid_with(0.0)), 2.54)
                        .run_away;
    CHECK(run_away > 10);
}

TEST_CASE("with a floor every block keeps it: no radial motion at all, or enough") {
    for (const double floor : {0.1, 0.1 * 25.4}) {
        for (const five_lobes::Case& each : five_lobes::all()) {
            for (const double tolerance : {0.001, 0.002, 0.01}) {
                Job job = five_lobes::job_for(each.lobe, tolerance);
                for (const bool roughs : {false, true}) {
                    if (roughs) job.cut->rough_depth = 0.4;
                    const Floored found = floored(planned(job, {each.lobe}, grid_with(floor)), floor);
                    INFO(each.name << ", tolerance " << tolerance << ", floor " << floor << ", blocks "
                                   << found.blocks << ", worst " << found.worst);
                    CHECK(found.run_away == 0);
                }
            }
        }
    }
}

TEST_CASE("at a tenth of a millimetre a minute the floor costs few blocks") {
    for (const five_lobes::Case& each : five_lobes::all()) {
        const Job job = five_lobes::job_for(each.lobe, 0.002);
        const int free = floored(planned(job, {each.lobe}, grid_with(0.0)), 0.1).blocks;
        const int kept = floored(planned(job, {each.lobe}, grid_with(0.1)), 0.1).blocks;
        INFO(each.name << ": " << free << " blocks without, " << kept << " with");
        CHECK(kept <= free + free / 10 + 2);
    }
}

TEST_CASE("a controller that takes few blocks a second, or axes slow to start, run no block away either") {
    for (const five_lobes::Case& each : five_lobes::all()) {
        for (const double rate : {10.0, 30.0, 100.0}) {
            for (const double acceleration : {15.0, 300.0}) {
                Job job = five_lobes::job_for(each.lobe, 0.005);
                job.machine->limits.blocks_per_second = rate;
                job.machine->limits.radial_acceleration = acceleration;
                job.cut->rough_depth = 0.4;
                const Floored found = floored(planned(job, {each.lobe}, grid_with(2.54)), 2.54);
                INFO(each.name << ", " << rate << " blocks a second, " << acceleration << " mm/s2");
                CHECK(found.run_away == 0);
            }
        }
    }
}

TEST_CASE("where no knots keep the floor the job is refused, and with a coarser tolerance it is not") {
    const SolvedLobe lobe = five_lobes::all()[3].lobe;
    Job job = five_lobes::job_for(lobe, 0.0006);
    job.machine->limits.blocks_per_second = 3.0;
    WordGrid grid;
    grid.rotary_step = 1e-4;
    grid.least_linear_feed = 2.54;
    const auto path = plan_toolpath(job, {lobe}, grid);
    REQUIRE_FALSE(path.ok());
    const Diagnostic& why = path.diagnostics().front();
    CHECK(why.code == "controller-runs-away");
    CHECK_THAT(why.what, ContainsSubstring("3 blocks a second"));
    job.cut->tolerance = 0.02;
    CHECK(plan_toolpath(job, {lobe}, grid).ok());
}

// Along a large flank's radius the contact runs 5 mm while the shaft, 18 mm thick, turns by 0.2 degrees.
TEST_CASE("how steep a block goes down counts the shorter of the contact's way and the shaft's turn") {
    const BlockBetween block = [](const GridKnot& a, const GridKnot& b) {
        PathBlock made;
        made.radial = 1e-4 * static_cast<double>(b.radial - a.radial);
        made.rotary = 1e-4 * static_cast<double>(b.rotary - a.rotary);
        made.distance = 5.0;
        made.feed = 100.0;
        return made;
    };
    const FloorRule rule(block, {}, 2.54, 1e-4, 18.0);
    CHECK_NEAR(rule.descent({0, 800}, {2000, 0}), 0.08 / (0.2 * full_turn / 360.0 * 18.0), 1e-12);
    CHECK_NEAR(rule.descent({0, 800}, {2000000, 0}), 0.08 / 5.0, 1e-12);
    CHECK(rule.descent({0, 0}, {2000, 800}) < 0.0);
}
