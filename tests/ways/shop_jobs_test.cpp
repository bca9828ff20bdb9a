// Jobs as shops have them: any lobe, roughed from the bar in shallow or deep passes, with whatever cutter
// lies in the drawer, be it far too small. What the planner takes on must pass its proof.
#include "../toolpath/random_job.h"
#include "basalt.h"
#include "catch.h"
#include "finish_cut.h"
#include "job_kit.h"
#include "trials.h"

#include <lobewright/proven_program.h>

#include <map>
#include <string>
#include <utility>

using namespace lobewright;
using random_job::Source;

namespace {

template <class Value>
Value one_of(Source& random, std::initializer_list<Value> values) {
    return values.begin()[random.pick(0, static_cast<int>(values.size()) - 1)];
}

/// Flanks that are round, straight or hollow, or a law of motion.
Profile draw_profile(Source& random, double base) {
    const double lift = base * random.between(0.2, 0.5), action = random.between(105.0, 150.0);
    const int kind = random.pick(0, 5);
    if (kind == 0 || kind == 5) return basalt::arcs_with_flank(base, lift, action, straight_flank);
    if (kind == 1)
        return basalt::arcs_with_flank(base, lift, action, -base * one_of(random, {4.0, 6.0, 10.0}));
    if (kind == 2) return basalt::law(LawKind::modified_sine, base, lift, 0.5 * action, 0.55 * action);
    return basalt::arcs_with_flank(base, lift, action, base * one_of(random, {1.8, 2.5, 3.5, 5.0, 8.0}));
}

Cutter cutter_of_shop(Source& random, CutterAxis axis, double base) {
    const double diameter = base * one_of(random, {0.7, 1.0, 1.4, 2.0, 3.0});
    if (axis == CutterAxis::parallel && random.chance(0.7))
        return basalt::disc(diameter * 3.0, one_of(random, {3.0, 6.0}), diameter);
    const double flutes = diameter * one_of(random, {1.5, 2.5, 4.0});
    if (axis == CutterAxis::radial && random.chance(0.2)) return basalt::ball_nose(diameter, flutes);
    return basalt::end_mill(diameter, flutes, random.chance(0.3) ? 0.5 : 0.0);
}

Job draw_job(Source& random) {
    const double base = one_of(random, {6.0, 8.0, 12.0, 18.0});
    Profile profile = draw_profile(random, base);
    const auto* arcs = std::get_if<ArcsProfile>(&profile);
    const bool hollow =
        arcs != nullptr && (*arcs->flank_radius < 0.0 || *arcs->flank_radius == straight_flank);
    const Follower follower = !hollow && random.chance(0.5)
                                  ? basalt::flat(200.0)
                                  : basalt::roller(base * one_of(random, {0.6, 1.0, 2.0}));
    Job job = basalt::job(std::move(profile), follower, random.chance(0.5) ? Sense::ccw : Sense::cw);
    job.units = random.chance(0.3) ? Units::inch : Units::mm;
    job.lobes.front().width = base * one_of(random, {0.5, 1.0, 1.5});
    Machine machine;
    machine.post = "rs274ngc-xza";
    machine.cutter_axis = one_of(
        random, {CutterAxis::radial, CutterAxis::radial, CutterAxis::parallel, CutterAxis::tangential});
    machine.rotary_positive = random.chance(0.5) ? Sense::ccw : Sense::cw;
    job.cutters["c"] = cutter_of_shop(random, machine.cutter_axis, base);
    Cut cut;
    cut.cutter = "c";
    cut.tolerance = one_of(random, {0.004, 0.01, 0.02});
    cut.rough_depth = one_of(random, {0.25, 0.5, 1.0, 2.0});
    cut.surface_feed = one_of(random, {60.0, 120.0, 250.0});
    cut.spindle_speed = 800.0;
    cut.direction = random.chance(0.5) ? CutDirection::climb : CutDirection::conventional;
    cut.spring_passes = random.chance(0.2) ? 1 : 0;
    cut.along = random.chance(0.25) ? CutAlong::helix : CutAlong::steps;
    cut.allowance = random.chance(0.2) ? 0.2 : 0.0;
    if (machine.cutter_axis == CutterAxis::radial && random.chance(0.5))
        cut.side_shift = job.cutters["c"].diameter * one_of(random, {-0.3, -0.1, 0.06, 0.25, 0.4});
    job.machine = machine;
    job.cut = cut;
    return job;
}

}  // namespace

// Beside its axis the mill's end is narrower still: its slices ride their corners along the straight flanks,
// and meet bar where the middle has passed it.
TEST_CASE(
    "the end of a mill narrower than a straight flank roughs no deeper than asked, and its proof passes") {
    Job job = basalt::job(basalt::arcs_with_flank(12.7, 6.35, 135.0, straight_flank), basalt::roller(10.0));
    job.shaft.blank_diameter = 38.1;
    job.lobes.front().width = 12.7;
    job.machine.emplace();
    job.machine->post = "rs274ngc-xza";
    job.cut = finish_cut("c", 0.01, 150.0, 1500.0);
    const std::vector<SolvedLobe> lobes{basalt::solved(job)};
    for (const double diameter : {12.7, 15.0, 19.0}) {
        job.cutters["c"] = basalt::end_mill(diameter, 30.0);
        for (const double depth : {0.5, 1.5}) {
            job.cut->rough_depth = depth;
            for (const double shift : {0.0, 2.5}) {
                job.cut->side_shift = shift;
                const auto program = proven_program(job, lobes, shipped_dialect("rs274ngc-xza"));
                INFO("end of " << diameter << " mm, " << depth << " mm deep, shifted by " << shift);
                for (const Diagnostic& each : program.diagnostics())
                    UNSCOPED_INFO(to_text(each));
                REQUIRE(program.ok());
                CHECK(program->proof.largest_depth <= 1.2 * depth);
            }
        }
    }
}

// Towards the flank its end comes down as steeply as the lobe itself falls, which is no plunge.
TEST_CASE("a ring that ends on a steep straight flank passes its proof") {
    for (const CutterAxis axis : {CutterAxis::radial, CutterAxis::tangential}) {
        Job job =
            basalt::job(basalt::arcs_with_flank(7.2, 3.919, 110.0, straight_flank), basalt::roller(5.76));
        job.shaft.blank_diameter = 23.0;
        job.lobes.front().width = 9.6;
        job.lobes.front().at = ShaftAngle::from_degrees(30.0);
        job.cutters["c"] = basalt::end_mill(16.0, 64.0);
        job.machine.emplace();
        job.machine->post = "rs274ngc-xza";
        job.machine->cutter_axis = axis;
        job.cut = finish_cut("c", 0.01, 250.0, 1500.0);
        job.cut->rough_depth = 2.0;
        const auto program = proven_program(job, {basalt::solved(job)}, shipped_dialect("rs274ngc-xza"));
        for (const Diagnostic& each : program.diagnostics())
            UNSCOPED_INFO(to_text(each));
        CHECK(program.ok());
    }
}

TEST_CASE("whatever a shop asks of whatever cutter, the planner refuses it itself, or its proof passes") {
    const auto seed = static_cast<unsigned>(campaign("LOBEWRIGHT_FIRST_SEED", 20261128));
    const int wanted = campaign("LOBEWRIGHT_SHOP_JOBS", costly_trials(20));
    const Dialect dialect = shipped_dialect("rs274ngc-xza");
    int cut = 0;
    std::map<std::string, int> refused;
    for (int i = 0; cut < wanted && i < 10 * wanted; ++i) {
        Source random(seed + static_cast<unsigned>(i));
        Job job = draw_job(random);
        const auto lobes = solve_lobes(job);
        if (!lobes.ok()) continue;
        job.shaft.blank_diameter =
            2.0 * (lobes->front().contour.largest_radius() + job.cut->allowance + random.between(0.01, 1.0));
        const auto program = proven_program(job, *lobes, dialect);
        if (program.ok()) {
            ++cut;
            continue;
        }
        const Diagnostic& first = program.diagnostics().front();
        ++refused[first.code];
        INFO("seed " << seed + static_cast<unsigned>(i));
        for (const Diagnostic& each : program.diagnostics())
            UNSCOPED_INFO(to_text(each));
        CHECK(first.place.file == job.file);
        if (job.units == Units::mm)
            CHECK(first.code != "tolerance-too-fine");  // 40 steps of the words and more
    }
    std::string told;
    for (const auto& [code, times] : refused)
        told += ' ' + code + ' ' + std::to_string(times);
    WARN(cut << " cut from seed " << seed << " on; refused:" << told);
    CHECK(cut >= wanted);
}
