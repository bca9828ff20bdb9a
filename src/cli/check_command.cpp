#include "cli/commands.h"
#include "cli/works.h"

#include <lobewright/ways.h>

namespace lobewright::cli {
namespace {

/// A warning of the reading as a finding of the report, where it is told.
Diagnostic finding_of(const Diagnostic& question) {
    return finding(question.severity, question.code, {}, sentence_of(question));
}

}  // namespace

Result check_command(const Options& options, Inputs& inputs) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, inputs);
    if (!solved) {
        take(solved, result);
        return result;
    }
    const auto& [job, lobes] = *solved;
    const std::vector<Way> ways = ways_of(*solved, options, inputs, result);
    JobReport report = judge(job, lobes);
    for (const Diagnostic& question : solved.diagnostics())
        report.findings.push_back(finding_of(question));
    append(result.messages, complaints_of(job, report.findings, Severity::error));
    for (const Way& way : ways) {
        if (fails_by(way, ways)) append(result.messages, way.complaints);
    }
    result.text = options.json ? check_json(job, report, ways) : check_text(job, report, ways);
    return result;
}

}  // namespace lobewright::cli
