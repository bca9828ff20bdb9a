#include "proof_case.h"

#include "catch.h"

#include <algorithm>

using namespace lobewright;

ProofCase proof_case(Job job) {
    const Dialect dialect = shipped_dialect(job.machine->post);
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
