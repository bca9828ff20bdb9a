#include "basalt.h"
#include "catch.h"
#include "hand/finish/valve_timing.h"
#include "planned_bench.h"
#include "program.h"

#include <lobewright/hand.h>
#include <lobewright/job_file.h>

#include <algorithm>
#include <cmath>

using namespace lobewright;
using namespace lobewright::hand;

namespace {

HandMethod table(double step_degrees) {
    HandMethod method;
    method.kind = HandKind::rotary_table;
    method.step = ShaftAngle::from_degrees(step_degrees);
    return method;
}

struct Case {
    std::string name;
    Profile profile;
    Follower follower;
};

std::vector<Case> every_follower() {
    using namespace basalt;
    const auto law345 = law(LawKind::polynomial_345, 14.0, 3.0, 70.0, 75.0);
    return {{"flat", lopsided(), flat(20.0)},
            {"roller", law345, roller(12.0, 0.0)},
            {"roller beside the axis", law345, roller(12.0, 2.0)},
            {"domed", law345, domed(60.0)},
            {"knife", law345, knife()},
            {"finger, ccw", law345, pivoted(12.0, 40.0, 36.0, Sense::ccw)},
            {"finger, cw", law345, pivoted(12.0, 40.0, 36.0, Sense::cw)}};
}

}  // namespace

TEST_CASE(
    "on fine facets every follower's valve opens and closes when it was designed to, whichever way the shaft "
    "runs") {
    for (const Case& each : every_follower()) {
        for (const Sense turns : {Sense::ccw, Sense::cw}) {
            Job job = basalt::job(each.profile, each.follower, turns);
            const SolvedLobe lobe = basalt::solved(job);
            if (lobe.contour.smallest_hollow_radius() < 1e6) continue;
            INFO(each.name << ", " << (turns == Sense::ccw ? "ccw" : "cw"));
            double before = 10.0;
            for (const double step : {2.0, 0.5, 0.1}) {
                job.hand["bench"] = table(step);
                const HandPlan plan = hand_jobs::planned_bench(job, {lobe});
                const double late = std::max(std::abs(plan.finish[0].opens_late.degrees()),
                                             std::abs(plan.finish[0].closes_late.degrees()));
                CHECK(plan.finish[0].valve_shuts);
                CHECK(late < before);
                before = late;
            }
            CHECK(before < 0.01);
        }
    }
}

TEST_CASE("a table set out by a whole angle moves every event by it, in time") {
    // Everything on the shaft lies 3 degrees further on: on a ccw shaft it meets the follower 3 degrees of
    // cam earlier.
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        const SolvedLobe lobe = basalt::solved(basalt::lopsided(), basalt::flat(20.0), turns);
        SolvedLobe moved = lobe;
        moved.at += ShaftAngle::from_degrees(3.0);
        std::vector<HandCut> cuts;
        for (int k = 0; k < 720; ++k) {
            const auto facing = ShaftAngle::from_degrees(0.5 * k);
            const FollowerContact touched =
                contact_at(moved, CamAngle::from_radians(sign_of(turns) * (moved.at - facing).radians()));
            cuts.push_back(flat_cut(facing, dot(touched.contact.point, unit(facing.radians()))));
        }
        const auto error = timing_error(lobe, *outline_of(cuts, 30.0), 0.5);
        REQUIRE((error.shuts && error.opens));
        CHECK_NEAR(error.opens_late.degrees(), -3.0 * sign_of(turns), 0.02);
        CHECK_NEAR(error.closes_late.degrees(), -3.0 * sign_of(turns), 0.02);
    }
}

TEST_CASE("the Basalt four on a lathe: timing comes within the vernier of the wheel") {
    Job job = basalt::four();
    HandMethod method;
    method.offset = 19.0;
    method.divisions = 72;
    method.vernier = ShaftAngle::from_degrees(0.02);
    job.hand["bench"] = method;
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const HandPlan plan = hand_jobs::planned_bench(job, *lobes);
    CHECK(plan.lands.size() == 8);
    for (const HandFinish& finish : plan.finish) {
        CHECK(std::abs(finish.opens_late.degrees()) <=
              0.02 + 1e-6);  // half a vernier step of cam, doubled for the crank
        CHECK(std::abs(finish.closes_late.degrees()) <= 0.02 + 1e-6);
        CHECK(finish.highest_ridge < 0.005);
        CHECK(finish.deepest > -0.001);
    }
    REQUIRE(plan.noses.size() == 8);
    for (const HandNose& nose : plan.noses)  // flanks within half a vernier step
        CHECK_NEAR(*nose.radius, (*lobes)[nose.lobe].arcs->nose_radius, 0.005);
}

TEST_CASE("straight flanks are cut by facets within the wanted ridge, where the heads' holes allow it") {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, straight_flank), basalt::roller(30.0));
    job.shaft.blank_diameter = 17.0;
    HandMethod method;
    method.kind = HandKind::rotary_table;
    method.cusp = 0.01;
    method.vernier = ShaftAngle::from_degrees(1.0 / 60.0);
    job.hand["bench"] = method;
    const SolvedLobe lobe = basalt::solved(job);
    const HandPlan plan = hand_jobs::planned_bench(job, {lobe});
    CHECK(plan.finish[0].highest_ridge <= 0.01);
    CHECK(plan.finish[0].valve_shuts);
}

TEST_CASE(
    "a ring of lobes has a land for each nose, all of them alike where the wheel divides by their number") {
    Job job = basalt::job(basalt::arcs_with_flank(20.0, 1.5, 60.0, 45.0), basalt::flat(30.0));
    job.lobes[0].repeat = 4;
    job.shaft.blank_diameter = 43.4;
    HandMethod method;
    method.offset = 25.0;
    method.divisions = 72;
    job.hand["bench"] = method;
    const SolvedLobe lobe = basalt::solved(job);
    const HandPlan plan = hand_jobs::planned_bench(job, {lobe});
    REQUIRE(plan.lands.size() == 4);
    for (const Land& land : plan.lands)
        CHECK_NEAR(land.arc, plan.lands[0].arc, 1e-9);
    CHECK(plan.lands[0].nose == 1);
    CHECK_NEAR(plan.finish[0].deepest, 0.0, 1e-9);
    CHECK_NEAR(plan.finish[0].proudest, plan.finish[0].highest_ridge, 1e-9);
    CHECK(std::count_if(plan.settings.begin(), plan.settings.end(),
                        [](const HandSetting& setting) { return setting.work == HandWork::flank; }) == 8);
}

TEST_CASE(
    "the example for a bare lathe has a mark for every flank, loses no timing, and nothing to warn of") {
    const auto file = source_folder() / "examples" / "basalt-single-lathe.toml";
    const auto no_neighbour = [](const std::string& name) -> Outcome<std::string> {
        return Diagnostic{Fault::unreadable, Severity::error, "none", name, "none", {}};
    };
    const auto job = read_job(file_text(file), file.string(), no_neighbour);
    REQUIRE(job.ok());
    const auto lobes = solve_lobes(*job);
    REQUIRE(lobes.ok());
    const auto plan = plan_hand(*job, *lobes, "lathe");
    REQUIRE(plan.ok());
    CHECK(plan->findings.empty());
    for (const HandFinish& finish : plan->finish) {
        CHECK_NEAR(finish.opens_late.degrees(), 0.0, 1e-6);
        CHECK_NEAR(finish.closes_late.degrees(), 0.0, 1e-6);
        CHECK_NEAR(finish.deepest, 0.0, 1e-9);
    }
}
