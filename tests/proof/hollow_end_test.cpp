// The proof's own section of a mill whose end is hollow, against the tests' sweep.

#include "basalt.h"
#include "catch.h"
#include "finish_cut.h"
#include "proof/section/cutter_section.h"
#include "proof_case.h"
#include "sweep.h"

#include <algorithm>
#include <cmath>

using namespace lobewright;

namespace {

Job hollow_job(double dish, double shift, double corner) {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat());
    job.shaft.blank_diameter = 17.0;
    job.lobes.front().width = 3.0;
    Cutter mill = basalt::end_mill(30.0, 40.0);
    mill.teeth = 4;
    mill.corner_radius = corner;
    mill.end_dish = SpaceAngle::from_degrees(dish);
    job.cutters["em30"] = mill;
    Machine machine;
    machine.post = "rs274ngc-zxa";
    machine.cutter_axis = CutterAxis::radial;
    job.machine = machine;
    Cut cut = finish_cut("em30", 0.01, 120.0, 300.0);
    cut.side_shift = shift;
    job.cut = cut;
    return job;
}

/// What the tests' sweep finds in many slabs over the width.
sweep::Comparison swept(const ProofCase& made, const Job& job) {
    const auto positions = sweep::positions_of(made.path);
    const SolvedLobe& lobe = made.lobes.front();
    sweep::Comparison worst{1.0, 0.0, -1.0, 0.0};
    for (int i = 0; i <= 32; ++i) {
        const double z = lobe.z + (i / 32.0 - 0.5) * (lobe.width - 4e-6);
        const sweep::Slab slab(positions, sweep::cutting_body(job), z, 8.5);
        const sweep::Comparison left = sweep::compare(slab, lobe, 0.0, 360);
        if (left.deepest < worst.deepest) worst.deepest = left.deepest;
        if (left.proudest > worst.proudest) worst.proudest = left.proudest;
    }
    return worst;
}

}  // namespace

TEST_CASE("the proof finds on a lobe under a hollow end what the tests' sweep finds") {
    for (const double shift : {9.0, -9.0}) {
        for (const double corner : {0.0, 0.8}) {
            ProofCase made = proof_case(hollow_job(1.0, shift, corner));
            const ProofReport report = made.prove();
            INFO("shift " << shift << ", corner " << corner << "\n" << findings_text(report));
            CHECK_FALSE(fails(report));
            const sweep::Comparison left = swept(made, made.job);
            CHECK_NEAR(report.lobes.front().deepest.along_normal, left.deepest, 2e-4);
            CHECK_NEAR(report.lobes.front().proudest.along_normal, left.proudest, 2e-4);
        }
    }
}

TEST_CASE("a program for a square end is found wrong when the end is hollow, to the depth that it is") {
    for (const double corner : {0.0, 0.8}) {
        ProofCase made = proof_case(hollow_job(0.0, 9.0, corner));
        CHECK_FALSE(fails(made.prove()));
        made.job.cutters["em30"].end_dish = SpaceAngle::from_degrees(1.0);
        const ProofReport report = made.prove();
        INFO("corner " << corner << "\n" << findings_text(report));
        CHECK(finding_of(report, "material-left") != nullptr);
        const sweep::Comparison left = swept(made, made.job);
        CHECK(left.proudest > 0.05);
        CHECK_NEAR(report.lobes.front().deepest.along_normal, left.deepest, 5e-4);
        CHECK_NEAR(report.lobes.front().proudest.along_normal, left.proudest, 5e-4);
    }
}

TEST_CASE("a program for a hollow end gouges when the end is square, or more hollow than was said") {
    ProofCase made = proof_case(hollow_job(1.0, 9.0, 0.0));
    made.job.cutters["em30"].end_dish = SpaceAngle::from_degrees(0.9);
    CHECK(finding_of(made.prove(), "gouge") != nullptr);
    made.job.cutters["em30"].end_dish = SpaceAngle::from_degrees(1.1);
    CHECK(finding_of(made.prove(), "material-left") != nullptr);
}
