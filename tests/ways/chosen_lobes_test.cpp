#include "basalt.h"
#include "catch.h"
#include "job_kit.h"

#include <lobewright/chosen_lobes.h>
#include <lobewright/proven_program.h>

#include <algorithm>

using namespace lobewright;

namespace {

/// The Basalt four with a bar so thick and lobes so far apart that its disc goes clear of what is left out.
struct Four {
    Job job = basalt::four();
    std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
};

bool has_error(const Diagnostics& messages, const std::string& code) {
    return std::any_of(messages.begin(), messages.end(), [&](const Diagnostic& message) {
        return message.code == code && message.severity == Severity::error;
    });
}

}  // namespace

TEST_CASE("lobes that are left out stand in the way as bar, and are no lobes any more") {
    const Four four;
    const ChosenLobes chosen = chosen_lobes(four.job, four.lobes, {"1 inlet", "2 exhaust"});
    REQUIRE(chosen.lobes.size() == 2);
    CHECK(chosen.lobes[0].name == "1 inlet");
    CHECK(chosen.lobes[1].name == "2 exhaust");
    CHECK(chosen.job.lobes.size() == 2);
    CHECK(chosen.left_out.size() == four.lobes.size() - 2);
    REQUIRE(chosen.job.shaft.journals.size() == four.job.shaft.journals.size() + chosen.left_out.size());
    const Journal& bar = chosen.job.shaft.journals.back();
    CHECK(bar.z == four.lobes.back().z);
    CHECK(bar.width == four.lobes.back().width);
    CHECK(bar.diameter == *four.job.shaft.blank_diameter);
}

TEST_CASE("a lobe and those after it are those no nearer to the drive end") {
    const Four four;
    CHECK(lobes_from(four.lobes, "3 exhaust") ==
          std::vector<std::string>{"3 exhaust", "4 inlet", "4 exhaust"});
    CHECK(lobes_from(four.lobes, four.lobes.front().name).size() == four.lobes.size());
    CHECK(lobes_from(four.lobes, "none").empty());
}

TEST_CASE("places of the job's lobes follow the lobes that are left") {
    const Job job = example_job("basalt-four");
    const std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
    const ChosenLobes chosen = chosen_lobes(job, lobes, {lobes[3].name});
    REQUIRE(chosen.job.lobes.size() == 1);
    CHECK(chosen.job.place_of("lobe[0].z").line == job.place_of("lobe[3].z").line);
    CHECK(chosen.job.places.count("lobe[1].z") == 0);
}

TEST_CASE("the chosen lobes' program passes, and one that touches another lobe does not") {
    const Job job = example_job("basalt-four");
    const std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
    const Dialect dialect = shipped_dialect(job.machine->post);
    const ChosenLobes chosen = chosen_lobes(job, lobes, {lobes[6].name, lobes[7].name});
    const ProvenProgram program = taken(proven_program(chosen.job, chosen.lobes, dialect));
    CHECK(program.proof.lobes.size() == 2);
    CHECK_THAT(program.text, ContainsSubstring("lobe " + lobes[6].name + ": finish") &&
                                 !ContainsSubstring("lobe " + lobes[0].name + ": finish"));
    const ChosenLobes one = chosen_lobes(job, lobes, {lobes[6].name});
    const ProofReport report = taken(prove(one.job, one.lobes, dialect, program.text, "two.ngc"));
    CHECK(has_error(report.findings, "touches-journal"));
}
