#include "catch.h"
#include "job_text.h"
#include "program.h"

#include <lobewright/dialect.h>
#include <lobewright/hand.h>
#include <lobewright/program_writer.h>
#include <lobewright/proof.h>
#include <lobewright/soundness.h>
#include <lobewright/start.h>

using namespace lobewright;

namespace {

Job starting(const std::string& purpose) {
    const auto job = job_text::read(starting_job(purpose).value());
    INFO(purpose << '\n' << job_text::complaints(job));
    REQUIRE(job.ok());
    return *job;
}

std::vector<SolvedLobe> solved(const Job& job) {
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    return *lobes;
}

}  // namespace

TEST_CASE("there is a job to begin from for each purpose, and for no other word") {
    for (const std::string& purpose : starting_purposes()) {
        INFO(purpose);
        REQUIRE(starting_job(purpose).has_value());
        const std::string text = *starting_job(purpose);
        CHECK_THAT(text, ContainsSubstring("The engine is invented"));
        CHECK(text.back() == '\n');
        for (std::size_t start = 0; start < text.size();) {
            const std::size_t end = text.find('\n', start);
            INFO(text.substr(start, end - start));
            CHECK(end - start <= 120);
            start = end + 1;
        }
    }
    CHECK(starting_purposes().size() == 4);
    CHECK_FALSE(starting_job("").has_value());
    CHECK_FALSE(starting_job("lathe").has_value());
}

TEST_CASE("every job to begin from is sound, without a warning") {
    for (const std::string& purpose : starting_purposes()) {
        const Job job = starting(purpose);
        const JobReport report = judge(job, solved(job));
        CHECK(report.lobes.size() == job.lobes.size());
        for (const Diagnostic& finding : report.findings) {
            INFO(purpose << ": " << finding.what);
            CHECK(finding.severity == Severity::note);
        }
    }
}

TEST_CASE("the jobs to begin from by hand can be cut so, ridges low, every method clear of the lathe") {
    for (const auto& [purpose, method] : {std::pair{"offset-fixture", "lathe"}, {"dividing-head", "head"}}) {
        const Job job = starting(purpose);
        const auto plan = plan_hand(job, solved(job), method);
        REQUIRE(plan.ok());
        CHECK(plan->settings.size() > 50);
        for (const HandFinish& finish : plan->finish) {
            CHECK(finish.highest_ridge <= 0.005);
            CHECK(std::abs(finish.opens_late.degrees()) < 0.5);
        }
        for (const Diagnostic& finding : plan->findings) {
            INFO(purpose << ": " << finding.what);
            CHECK(finding.severity == Severity::note);
        }
    }
}

TEST_CASE("the jobs to begin from with a program give one that proves within its tolerance") {
    for (const char* purpose : {"rotary-mill", "lathe-c"}) {
        INFO(purpose);
        const Job job = starting(purpose);
        const auto lobes = solved(job);
        const std::string post = job.machine->post + ".toml";
        const auto dialect = read_dialect(file_text(source_folder() / "postprocessors" / post), post);
        REQUIRE(dialect.ok());
        const auto path = plan_toolpath(job, lobes, word_grid(*dialect, job.units, job.cut->blend));
        REQUIRE(path.ok());
        const auto program = write_program(job, lobes, *path, *dialect);
        REQUIRE(program.ok());
        const auto proof = prove(job, lobes, *dialect, *program, "twin.ngc");
        REQUIRE(proof.ok());
        CHECK(proof->within_tolerance);
        CHECK(proof->rapids_in_stock == 0);
        for (const Diagnostic& finding : proof->findings) {
            INFO(finding.what);
            CHECK(finding.severity == Severity::note);
        }
    }
}
