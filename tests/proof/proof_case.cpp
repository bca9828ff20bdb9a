#include "proof_case.h"

#include "catch.h"
#include "program.h"

#include <lobewright/job_file.h>

#include <algorithm>

using namespace lobewright;

namespace {

template <class T>
T taken(Outcome<T> outcome) {
    std::string complaints;
    for (const Diagnostic& diagnostic : outcome.diagnostics())
        complaints += to_text(diagnostic) + '\n';
    INFO(complaints);
    REQUIRE(outcome.ok());
    return std::move(outcome).value();
}

}  // namespace

Dialect dialect_named(const std::string& name) {
    const auto file = source_folder() / "postprocessors" / (name + ".toml");
    return taken(read_dialect(file_text(file), file.string()));
}

Job example_job(const std::string& name) {
    const auto file = source_folder() / "examples" / (name + ".toml");
    const auto neighbour = [&](const std::string& beside) {
        return Outcome<std::string>(file_text(file.parent_path() / beside));
    };
    return taken(read_job(file_text(file), file.filename().string(), neighbour));
}

ProofCase proof_case(Job job) {
    const Dialect dialect = dialect_named(job.machine->post);
    return proof_case(std::move(job), dialect);
}

ProofCase proof_case(Job job, const Dialect& dialect) {
    ProofCase made;
    made.job = std::move(job);
    made.dialect = dialect;
    made.lobes = taken(solve_lobes(made.job));
    made.path =
        taken(plan_toolpath(made.job, made.lobes, word_grid(dialect, made.job.units, made.job.cut->blend)));
    made.text = taken(write_program(made.job, made.lobes, made.path, dialect));
    return made;
}

ProofReport ProofCase::prove(const std::string& program) const {
    return taken(lobewright::prove(job, lobes, dialect, program, "program.ngc"));
}

const Diagnostic* finding_of(const ProofReport& report, const std::string& code) {
    const auto found = std::find_if(report.findings.begin(), report.findings.end(),
                                    [&](const Diagnostic& finding) { return finding.code == code; });
    return found == report.findings.end() ? nullptr : &*found;
}

bool fails(const ProofReport& report) {
    return !report.within_tolerance ||
           std::any_of(report.findings.begin(), report.findings.end(),
                       [](const Diagnostic& finding) { return finding.severity == Severity::error; });
}

std::string findings_text(const ProofReport& report) {
    std::string text;
    for (const Diagnostic& finding : report.findings) {
        text += std::to_string(finding.place.line) + ": " + finding.code + ": " + finding.what + '\n';
    }
    return text;
}
