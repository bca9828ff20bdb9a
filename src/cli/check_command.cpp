#include "cli/commands.h"
#include "cli/load.h"
#include "cli/post_files.h"
#include "cli/ways.h"
#include "job/complaint.h"

#include <lobewright/soundness.h>

namespace lobewright::cli {
namespace {

/// The grid of the machine's post; a post that can't be read is a complaint, for `cut` would stop at it.
std::optional<WordGrid> grid_of(const Job& job, Result& result) {
    if (!job.machine || !job.cut) return std::nullopt;
    const Outcome<Dialect> dialect = load_post_of(job, {}, result.inputs);
    if (!take(dialect, result)) return std::nullopt;
    return word_grid(*dialect, job.units, job.cut->blend);
}

/// A warning of the reading as a finding of the report, where it is told.
Finding finding_of(const Diagnostic& question) {
    const std::string remedy = question.remedy.empty() ? "" : ": " + question.remedy;
    return {question.severity, question.code, "", question.what + remedy, ""};
}

/// The findings that make the job unfit, at the places of the keys that cause them.
Diagnostics complaints(const Job& job, const std::vector<Finding>& findings) {
    Diagnostics all;
    for (const Finding& finding : told_once(findings)) {
        if (finding.severity != Severity::error) continue;
        const std::string about = finding.lobe.empty() ? std::string() : finding.lobe + ": ";
        all.push_back(refusal(job, finding.key, finding.code, about + finding.message, ""));
    }
    return all;
}

}  // namespace

Result check_command(const Options& options) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, result.inputs);
    if (!solved) {
        take(solved, result);
        return result;
    }
    const auto& [job, lobes] = *solved;
    const std::vector<Way> ways = ways_to_cut(job, lobes, grid_of(job, result));
    JobReport report = judge(job, lobes);
    for (const Diagnostic& question : solved.diagnostics())
        report.findings.push_back(finding_of(question));
    append(result.messages, complaints(job, report.findings));
    append(result.messages, failures(ways));
    for (const Way& way : ways)
        report.cutting.push_back(way.line);
    result.text = options.json ? report_json(job, report) : report_text(job, report);
    return result;
}

}  // namespace lobewright::cli
