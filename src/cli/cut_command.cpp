#include "cli/commands.h"
#include "cli/load.h"
#include "cli/post_files.h"
#include "cli/verdict.h"

#include <lobewright/number_text.h>
#include <lobewright/program_writer.h>

namespace lobewright::cli {
namespace {

/// "Proven from its own text: 8 lobes, from 0.0012 below the design to 0.0009 mm above it."
std::string proof_remark(const Job& job, const ProofReport& report) {
    double deepest = 0.0, proudest = 0.0;
    for (const LobeVerdict& lobe : report.lobes) {
        deepest = std::max(deepest, -lobe.deepest.along_normal);
        proudest = std::max(proudest, lobe.proudest.along_normal);
    }
    const double unit = mm_per(job.units);
    const int decimals = job.units == Units::mm ? 4 : 5;
    return "Proven from its own text: " + std::to_string(report.lobes.size()) +
           (report.lobes.size() == 1 ? " lobe, from " : " lobes, from ") + fixed(deepest / unit, decimals) +
           " below the design to " + fixed(proudest / unit, decimals) +
           (job.units == Units::mm ? " mm" : " in") + " above it.";
}

/// The program's text, once it has passed its own proof.
Outcome<std::string> proven_program(const SolvedJob& solved, const Toolpath& path, const Dialect& dialect,
                                    Result& result) {
    const auto& [job, lobes] = solved;
    const Outcome<std::string> text = write_program(job, lobes, path, dialect);
    if (!text) return text;
    const std::string name = "the program for " + job.file;
    const Outcome<ProofReport> report = prove(job, lobes, dialect, *text, name);
    if (!report) return report.diagnostics();
    Diagnostics messages = text.diagnostics();
    append(messages,
           verdict(job, *report, name, "nothing is written that fails its own proof; change the job"));
    if (has_errors(messages)) return messages;
    result.remarks.push_back(toolpath_totals_text(lobes, path) + proof_remark(job, *report));
    return {*text, std::move(messages)};
}

}  // namespace

Result cut_command(const Options& options) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, result.inputs, Purpose::cut);
    if (!take(solved, result)) return result;
    const auto& [job, lobes] = *solved;
    const Outcome<Dialect> dialect = load_post_of(job, options.post, result.inputs);
    if (!take(dialect, result)) return result;
    const Outcome<Toolpath> path = plan_toolpath(job, lobes, word_grid(*dialect, job.units, job.cut->blend));
    if (!take(path, result)) return result;
    if (options.plan) {
        result.text = toolpath_text(job, lobes, *path);
        return result;
    }
    const Outcome<std::string> program = proven_program(*solved, *path, *dialect, result);
    if (take(program, result)) result.text = *program;
    return result;
}

}  // namespace lobewright::cli
