#include "basalt.h"
#include "catch.h"
#include "job_kit.h"

#include <lobewright/proven_program.h>

#include <cmath>

using namespace lobewright;

namespace {

Dialect dialect() {
    return shipped_dialect("rs274ngc-xza");
}

ProofReport report_with(Diagnostics findings, bool within = true) {
    ProofReport report;
    report.within_tolerance = within;
    report.tolerance = 0.002;
    report.findings = std::move(findings);
    return report;
}

}  // namespace

TEST_CASE("a proven program is the planner's path, the writer's text, and a proof that passes") {
    const Job job = basalt::four();
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const auto program = proven_program(job, *lobes, dialect());
    REQUIRE(program.ok());
    CHECK(program->proof.within_tolerance);
    CHECK(program->proof.lobes.size() == 8);
    CHECK(program->text.find("G93") != std::string::npos);
    CHECK(program->path.passes.size() >= 8);
}

TEST_CASE(
    "a bar turned exactly to the nose's height, or a hair to either side, makes one and the same program") {
    for (const CutterAxis axis : {CutterAxis::parallel, CutterAxis::radial, CutterAxis::tangential}) {
        for (const double allowance : {0.0, 0.1}) {
            Job job = basalt::four();
            job.lobes.resize(2);
            job.machine->cutter_axis = axis;
            job.cut->allowance = allowance;
            job.cut->rough_depth = 0.8;
            job.cutters["em12"].diameter = 12.0;
            job.cutters["em12"].flute_length = 30.0;
            if (axis != CutterAxis::parallel) job.cut->cutter = "em12";
            const auto lobes = solve_lobes(job);
            REQUIRE(lobes.ok());
            const double bar = 2.0 * (8.4 + allowance);
            std::vector<std::string> texts;
            for (const double diameter : {std::nextafter(bar, 0.0), bar, std::nextafter(bar, 100.0)}) {
                job.shaft.blank_diameter = diameter;
                const auto program = proven_program(job, *lobes, dialect());
                for (const Diagnostic& each : program.diagnostics())
                    UNSCOPED_INFO(to_text(each));
                REQUIRE(program.ok());
                CHECK(program->proof.within_tolerance);
                texts.push_back(program->text);
            }
            CHECK(texts[0] == texts[1]);
            CHECK(texts[2] == texts[1]);
        }
    }
}

TEST_CASE("what keeps the planner, the writer or the proof from a program keeps it from leaving") {
    Job job = basalt::four();
    const auto lobes = solve_lobes(job);
    const auto code = [&](const Job& tried, const Dialect& in) {
        const auto program = proven_program(tried, *lobes, in);
        REQUIRE_FALSE(program.ok());
        return program.diagnostics().front().code;
    };
    Dialect no_rule = dialect();
    no_rule.feed_mode = FeedMode::per_minute, no_rule.feed_counts.reset();
    CHECK(code(job, no_rule) == "no-rule-for-feed");
    Job no_cut = job;
    no_cut.cut.reset();
    CHECK_FALSE(proven_program(no_cut, *lobes, dialect()).ok());
    Job small_bar = job;
    small_bar.shaft.blank_diameter = 16.0;
    CHECK(code(small_bar, dialect()) == "blank-too-small");
    Job thin_passes = job;
    thin_passes.cut->rough_depth = 0.001;  // 2500 of them
    CHECK(code(thin_passes, dialect()) == "too-many-passes");
}

TEST_CASE("a proof's errors are complaints, its warnings follow, its notes are left out") {
    const Job job = basalt::four();
    const Diagnostics told =
        fitness(job,
                report_with({finding_in_line(Severity::warning, "slow", 7, "it is slow"),
                             finding_in_line(Severity::note, "note", 0, "it is so"),
                             finding_in_line(Severity::error, "gouge", 12, "it gouges")}),
                "a.ngc", "mend it");
    REQUIRE(told.size() == 2);
    CHECK(to_text(told[0]) == "a.ngc:12: it gouges: mend it");
    CHECK(told[0].fault == Fault::check_failed);
    CHECK(told[1].severity == Severity::warning);
    CHECK(told[1].place.line == 7);
}

TEST_CASE("out of tolerance is a complaint of its own only where nothing else says why") {
    const Job job = basalt::four();
    const Diagnostics bare = fitness(job, report_with({}, false), "a.ngc", "mend it");
    REQUIRE(bare.size() == 1);
    CHECK(bare[0].code == "out-of-tolerance");
    CHECK_THAT(bare[0].what, ContainsSubstring("within 0.002 mm"));
    CHECK(
        fitness(job, report_with({finding_in_line(Severity::error, "gouge", 1, "it gouges")}, false), "", "")
            .size() == 1);
    CHECK(fitness(job, report_with({}), "", "").empty());
}
