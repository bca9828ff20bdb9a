// Which action angles and places land on the wheel in hand, and what they do to the valve.
#include "hand/fixture/angles_on_marks.h"

#include "basalt.h"
#include "job_kit.h"

#include <lobewright/timing.h>

#include <algorithm>
#include <cmath>

using namespace lobewright;
using namespace lobewright::hand;

namespace {

Job single_on(int divisions, double action) {
    Job job = example_job("basalt-single-lathe");
    job.hand.at("lathe").divisions = divisions;
    std::get<ArcsProfile>(job.profiles.at("valve")).action_angle = CamAngle::from_degrees(action);
    return job;
}

std::vector<AnglesOnMarks> asked(const Job& job, const std::vector<SolvedLobe>& lobes) {
    const HandMethod& method = job.hand.at("lathe");
    return angles_on_marks(job, mounted(lobes, method, *method.offset, *job.shaft.blank() / 2));
}

}  // namespace

TEST_CASE("set in the job, what is proposed lands on the marks, and the valve does what was told") {
    for (const int divisions : {72, 60, 100, 48}) {
        const Job job = single_on(divisions, 132.0);
        const auto lobes = taken(solve_lobes(job));
        const auto before_inlet = *valve_events(job, lobes[0]), before_exhaust = *valve_events(job, lobes[1]);
        const auto angles = asked(job, lobes);
        INFO(divisions << " divisions");
        REQUIRE(angles.size() == 2);
        for (std::size_t i = 0; i < 2; ++i) {
            REQUIRE_FALSE(angles[i].choices.empty());
            for (const auto& choice : angles[i].choices) {
                Job changed = job;
                changed.hand.at("lathe").zero = angles[i].zero;
                std::get<ArcsProfile>(changed.profiles.at("valve")).action_angle = choice.action_angle;
                const auto solved = taken(solve_lobes(changed));
                // Both flanks on marks.
                for (const double side : {-0.5, 0.5}) {
                    const double flank = choice.at.degrees() + side * choice.action_angle.degrees();
                    const double mark = (flank - angles[i].zero.degrees()) * divisions / 360.0;
                    CHECK_NEAR(mark, std::round(mark), 1e-6);
                }
                // The events by the library's own reading of the solved lobe, shifted by the nose's move.
                const double later =
                    -sign_of(lobes[i].turns) * wrapped(choice.at - solved[i].at).degrees() * 2.0;
                const auto now = *valve_events(changed, solved[i]);
                const auto& before = i == 0 ? before_inlet : before_exhaust;
                // The inlet's angles are before TDC and after BDC, the exhaust's before BDC and after TDC.
                CHECK_NEAR(choice.opens_late.degrees(), before.opens.degrees() - now.opens.degrees() + later,
                           1e-6);
                CHECK_NEAR(choice.closes_late.degrees(),
                           now.closes.degrees() - before.closes.degrees() + later, 1e-6);
                CHECK_NEAR(choice.more_overlap.degrees(),
                           i == 0 ? -choice.opens_late.degrees() : choice.closes_late.degrees(), 1e-9);
            }
        }
    }
}

TEST_CASE("the nearest action angle comes first, and one on the marks has no other") {
    const Job off = single_on(72, 132.0);
    const auto lobes = taken(solve_lobes(off));
    const auto angles = asked(off, lobes);
    REQUIRE(angles[0].choices.size() == 2);
    CHECK_NEAR(angles[0].choices[0].action_angle.degrees(), 130.0, 1e-9);
    CHECK_NEAR(angles[0].choices[1].action_angle.degrees(), 135.0, 1e-9);
    const Job on = single_on(72, 130.0);
    const auto on_lobes = taken(solve_lobes(on));
    const auto as_is = asked(on, on_lobes);
    REQUIRE(as_is[0].choices.size() == 1);
    CHECK_NEAR(as_is[0].choices[0].opens_late.degrees(), 0.0, 1e-6);
    CHECK_NEAR(wrapped(as_is[0].choices[0].at - on_lobes[0].at).degrees(), 0.0, 1e-6);
}

TEST_CASE("every action angle that would do is told, the nearest first") {
    const Job job = single_on(72, 132.0);
    const auto lobes = taken(solve_lobes(job));
    const HandPlan plan = taken(plan_hand(job, lobes, "lathe"));
    const auto told = std::find_if(plan.findings.begin(), plan.findings.end(),
                                   [](const Diagnostic& each) { return each.code == "angles-on-marks"; });
    REQUIRE(told != plan.findings.end());
    const std::size_t nearest = told->what.find("130"), other = told->what.find("; or ");
    CHECK(nearest < other);
    CHECK(told->what.find("135", other) != std::string::npos);
}

TEST_CASE("no other zero of the wheel would move the noses of all lobes less, wherever it stood") {
    for (const double stood : {0.0, 1.1, 2.9, 5.3}) {
        Job job = single_on(50, 132.0);
        job.hand.at("lathe").zero = ShaftAngle::from_degrees(stood);
        const auto lobes = taken(solve_lobes(job));
        const auto angles = asked(job, lobes);
        const auto worst_move = [&](double zero) {
            double worst = 0.0;
            for (std::size_t i = 0; i < lobes.size(); ++i) {
                const double flank = lobes[i].at.degrees() - angles[i].choices[0].action_angle.degrees() / 2;
                worst = std::max(worst, std::abs(std::remainder(flank - zero, 7.2)));
            }
            return worst;
        };
        const double told = worst_move(angles[0].zero.degrees());
        for (int k = 0; k < 720; ++k)
            REQUIRE(worst_move(0.01 * k) >= told - 1e-9);
    }
}
