// The proof of a pass that goes along the lobe while the shaft turns.

#include "basalt.h"
#include "catch.h"
#include "finish_cut.h"
#include "inside_cases.h"
#include "proof/judge/lobe_planes.h"
#include "proof_case.h"
#include "sweep.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

using namespace lobewright;

namespace {

Job wide_job(const Cutter& cutter, CutterAxis axis, double tolerance) {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat());
    job.shaft.blank_diameter = 17.0;
    job.lobes.front().width = 7.0;
    job.cutters["it"] = cutter;
    Machine machine;
    machine.post = "rs274ngc-zxa";
    machine.cutter_axis = axis;
    job.machine = machine;
    Cut cut = finish_cut("it", tolerance, 120.0, 300.0);
    cut.along = CutAlong::helix;
    job.cut = cut;
    return job;
}

Cutter ball(double diameter) {
    Cutter cutter = basalt::end_mill(diameter, 40.0);
    cutter.kind = CutterKind::ball_nose;
    return cutter;
}

struct Case {
    const char* name;
    Cutter cutter;
    CutterAxis axis;
};

std::vector<Case> cases() {
    return {{"a ball", ball(10.0), CutterAxis::radial},
            {"a narrow disc", basalt::disc(32.0, 2.5, 10.0), CutterAxis::parallel},
            {"a disc across", basalt::disc(50.0, 20.0, 15.0), CutterAxis::tangential}};
}

sweep::Comparison swept(const ProofCase& made, int slabs) {
    const auto positions = sweep::positions_of(made.path);
    const SolvedLobe& lobe = made.lobes.front();
    sweep::Comparison worst{1.0, 0.0, -1.0, 0.0};
    for (int i = 0; i < slabs; ++i) {
        const double z = lobe.z + ((i + 0.5) / slabs - 0.5) * lobe.width;
        const sweep::Slab slab(positions, sweep::cutting_body(made.job), z, 8.5);
        const sweep::Comparison left = sweep::compare(slab, lobe, 0.0, 120);
        worst.deepest = std::min(worst.deepest, left.deepest);
        worst.proudest = std::max(worst.proudest, left.proudest);
    }
    return worst;
}

}  // namespace

TEST_CASE("the planes over a lobe that is cut in a helix ascend from face to face, and none stands twice") {
    for (const Case& of : cases()) {
        INFO(of.name);
        const Job job = wide_job(of.cutter, of.axis, 0.01);
        const SolvedLobe lobe = basalt::solved(job);
        const auto zs =
            proof::lobe_planes(lobe, 0.0, {{lobe.z - 3.0, lobe.z + 3.0}, true}, proof::cutter_body(job)).zs;
        CHECK(zs.size() > 10);
        CHECK(std::adjacent_find(zs.begin(), zs.end(), std::greater_equal<>()) == zs.end());
        CHECK_NEAR(zs.front(), lobe.z - 3.5, 1e-5);
        CHECK_NEAR(zs.back(), lobe.z + 3.5, 1e-5);
    }
}

TEST_CASE("a slide whose shortest blocks stand still is one slide, and a rest of some degrees is a place") {
    const auto places_of = [](double rest_degrees) {
        std::vector<proof::ShaftPlace> way{{0.0, 7.0, 20.0}};
        for (int i = 0; i < 400; ++i) {
            way.push_back({way.back().facing + 0.005, 7.0, way.back().z + 0.001});
            way.push_back({way.back().facing + 0.005, 7.0, way.back().z});
            if (i == 200)
                way.push_back({way.back().facing + rest_degrees * full_turn / 360.0, 7.0, way.back().z});
        }
        return proof::cutting_places(inside::chain(way), 8.5).zs;
    };
    REQUIRE(places_of(0.5).size() == 2);
    CHECK_NEAR(places_of(0.5).front(), 20.0, 1e-9);
    CHECK_NEAR(places_of(0.5).back(), 20.4, 1e-9);
    REQUIRE(places_of(5.0).size() == 3);
    CHECK_NEAR(places_of(5.0)[1], 20.201, 1e-9);
}

TEST_CASE("a helix passes its proof, which finds no less than the tests' sweep in any slab") {
    for (const Case& c : cases()) {
        const ProofCase made = proof_case(wide_job(c.cutter, c.axis, 0.01));
        const ProofReport report = made.prove();
        INFO(c.name << "\n" << findings_text(report));
        CHECK_FALSE(fails(report));
        const LobeVerdict& lobe = report.lobes.front();
        const sweep::Comparison left = swept(made, 17);
        CHECK(lobe.deepest.along_normal <= left.deepest + 3e-4);
        CHECK(lobe.proudest.along_normal >= left.proudest - 3e-4);
        CHECK(lobe.proudest.along_normal <= 0.01 + 1e-6);
        CHECK(lobe.deepest.along_normal >= -0.01 - 1e-6);
        CHECK(std::abs(report.cycle_seconds / made.path.cycle_seconds - 1.0) < 0.02);
        CHECK_THAT(made.text, ContainsSubstring(" in a helix"));
    }
}

TEST_CASE("a helix that goes too far in a turn is found proud on the ridge between its turns") {
    for (const Case& c : cases()) {
        if (c.axis == CutterAxis::parallel) continue;
        const ProofCase made = proof_case(wide_job(c.cutter, c.axis, 0.01));
        ProofCase fine = made;
        fine.job.cut->tolerance = 0.008;
        const ProofReport report = fine.prove();
        INFO(c.name << "\n" << findings_text(report));
        CHECK(finding_of(report, "material-left") != nullptr);
    }
}

TEST_CASE("a helix of a cutter narrower than was said leaves part of the lobe uncut") {
    ProofCase made = proof_case(wide_job(basalt::disc(32.0, 2.5, 10.0), CutterAxis::parallel, 0.01));
    CHECK_FALSE(fails(made.prove()));
    made.job.cutters["it"].width = 1.6;
    CHECK(fails(made.prove()));
}

TEST_CASE(
    "a helix that goes far along the lobe in a turn, in many short blocks, ends on the lobe's very face") {
    // 4 mm of disc a turn, over the lobe's face by a thousandth at its end; and an end that goes 6 mm a turn.
    const Cutter end = basalt::end_mill(12.0, 30.0);
    for (const auto& [cutter, axis] : {std::pair(basalt::disc(20.0, 4.0, 7.0), CutterAxis::parallel),
                                       std::pair(end, CutterAxis::radial)}) {
        Job job = wide_job(cutter, axis, 0.002);
        job.lobes.front().width = 20.0;
        job.machine->limits.radial_jump = 100.0;
        job.machine->limits.rotary_jump = 100.0;
        job.machine->limits.blocks_per_second = 50.0;
        const ProofReport report = proof_case(job).prove();
        INFO(cutter.diameter << "\n" << findings_text(report));
        CHECK_FALSE(fails(report));
    }
}
