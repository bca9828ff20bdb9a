// Where the tolerance of a finished surface goes, as measured: each stage's own error on the examples, by
// means that share nothing with it. DEVELOPERS.md has the figures.
#include "catch.h"
#include "job_kit.h"
#include "sweep.h"

#include <lobewright/program_writer.h>
#include <lobewright/proof.h>

#include <algorithm>
#include <cmath>
#include <iostream>

using namespace lobewright;

namespace {

constexpr double um = 1e3;

/// An example's finish passes, planned, written and proven.
struct Finished {
    Job job;
    Dialect dialect;
    std::vector<SolvedLobe> lobes;
    Toolpath path;
    std::string text;
    ProofReport report;
};

Finished finished(const std::string& example) {
    Finished made{example_job(example), {}, {}, {}, {}, {}};
    made.job.cut->rough_depth.reset(), made.job.cut->finish_depth = 10.0, made.job.cut->spring_passes = 0;
    made.dialect = shipped_dialect(made.job.machine->post);
    made.lobes = taken(solve_lobes(made.job));
    made.path = taken(plan_toolpath(made.job, made.lobes, word_grid(made.dialect, made.job.units)));
    made.text = taken(write_program(made.job, made.lobes, made.path, made.dialect));
    made.report = taken(prove(made.job, made.lobes, made.dialect, made.text, "program.ngc"));
    return made;
}

/// By the brute-force sweep of the planned path in the middle of a lobe; by it on the proof's own places, how
/// far they differ.
struct Swept {
    double deepest = 0.0, proudest = 0.0, apart = 0.0;
};

Swept swept(const Finished& made) {
    const auto positions = sweep::positions_of(made.path);
    const sweep::Body body = sweep::cutting_body(made.job);
    const double blank = *made.job.shaft.blank_diameter / 2.0;
    Swept worst;
    for (std::size_t i = 0; i < made.lobes.size(); ++i) {
        const SolvedLobe& lobe = made.lobes[i];
        const sweep::Comparison found = sweep::compare(sweep::Slab(positions, body, lobe.z, blank), lobe);
        worst.deepest = std::min(worst.deepest, found.deepest);
        worst.proudest = std::max(worst.proudest, found.proudest);
        const LobeVerdict& verdict = made.report.lobes[i];
        for (const Deviation* extreme : {&verdict.deepest, &verdict.proudest}) {
            const double there = sweep::deviation_on(sweep::Slab(positions, body, extreme->z, blank), lobe,
                                                     extreme->at.radians());
            worst.apart = std::max(worst.apart, std::abs(there - extreme->along_normal));
        }
    }
    return worst;
}

}  // namespace

TEST_CASE("what is left of the tolerance after plan, words and proof", "[budget]") {
    for (const char* example : {"basalt-four", "basalt-four-radial"}) {
        const Finished made = finished(example);
        const double tolerance = made.job.cut->tolerance;
        const Swept found = swept(made);
        double deepest = 0.0, proudest = 0.0, run_out = 0.0;
        for (const LobeVerdict& verdict : made.report.lobes) {
            deepest = std::min(deepest, verdict.deepest.along_normal);
            proudest = std::max(proudest, verdict.proudest.along_normal);
            run_out = std::max(run_out, verdict.heel_runout.value_or(0.0));
        }
        std::cout << example << ", tolerance " << um * tolerance << " um: by the proof " << um * deepest
                  << " to " << um * proudest << " um, by the sweep in each lobe's middle "
                  << um * found.deepest << " to " << um * found.proudest
                  << " um; at the proof's own extremes they differ by " << um * found.apart
                  << " um; the proof says " << um * made.report.resolution
                  << " um of itself; heels run out by " << um * run_out << " um\n";
        CHECK(found.apart < made.report.resolution + 5e-5);
        CHECK(std::max(-found.deepest, found.proudest) <= tolerance + 5e-5);
    }
}
