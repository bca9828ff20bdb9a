#include "fuzz_promises.h"
#include "fuzz_runs.h"

#include <lobewright/job_file.h>
#include <lobewright/lift_table.h>
#include <lobewright/lobe.h>
#include <lobewright/needs.h>
#include <lobewright/operations.h>
#include <lobewright/plausibility.h>
#include <lobewright/soundness.h>

#include <algorithm>

using namespace lobewright;

namespace {

/// A small lift table, whichever file the job names; but for one that is not there.
Outcome<std::string> neighbour(const std::string& path) {
    if (path.find("missing") != std::string::npos)
        return Diagnostic{Fault::unreadable, Severity::error, "unreadable",
                          "no such file",    "look for it",   {path}};
    std::string table = "cam_angle,lift\n";
    for (const char* row : {"-180,0", "-80,0", "-70,0", "-60,0.1", "-40,0.9", "-20,1.9", "0,2.4", "20,1.9",
                            "40,0.9", "60,0.1", "70,0", "80,0", "170,0"})
        table += std::string(row) + '\n';
    return table;
}

/// Whether its lobes are solved in a moment: what is slow by its nature has tests of its own.
bool is_small(const Job& job) {
    const auto slow = [](const auto& each) { return std::holds_alternative<FullestProfile>(each.second); };
    return job.lobes.size() <= 3 && std::none_of(job.profiles.begin(), job.profiles.end(), slow);
}

void judge_all(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& text) {
    hold_remarks(implausible_figures(job, lobes), text, job.file);
    const JobReport report = judge(job, lobes);
    hold_remarks(report.findings, text, job.file);
    hold(!report_text(job, report).empty(), "a report says nothing");
    hold_figures(report_json(job, report));
    if (lobes.empty()) return;
    const auto rows = lift_table(lobes.front(), CamAngle::from_degrees(30.0));
    hold_figures(lift_table_text(rows, lobes.front(), job.units, TableFormat::csv));
}

}  // namespace

void run_job(const std::string& text, FuzzDepth depth) {
    const Outcome<Job> job = read_job(text, "job.toml", neighbour);
    if (!job) return hold_complaints(job.diagnostics(), text, "job.toml");
    hold_remarks(job.diagnostics(), text, "job.toml");
    for (const Purpose purpose : {Purpose::cut, Purpose::prove, Purpose::installed})
        hold_remarks(unmet_needs(*job, purpose), text, "job.toml");
    hold(jobs_of_operations(*job).size() >= 1, "a job has no operation");
    if (depth == FuzzDepth::reads || !is_small(*job)) return;
    const Outcome<std::vector<SolvedLobe>> lobes = solve_lobes(*job);
    if (!lobes) {
        hold_remarks(implausible_figures(*job, {}), text, "job.toml");
        return hold_complaints(lobes.diagnostics(), text, "job.toml");
    }
    judge_all(*job, *lobes, text);
}
