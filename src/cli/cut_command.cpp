#include "cli/commands.h"
#include "cli/load.h"
#include "cli/post_files.h"

#include <lobewright/number_text.h>
#include <lobewright/proven_program.h>

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

}  // namespace

Result cut_command(const Options& options) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, result.inputs, Purpose::cut);
    if (!take(solved, result)) return result;
    const auto& [job, lobes] = *solved;
    const Outcome<Dialect> dialect = load_post_of(job, options.post, result.inputs);
    if (!take(dialect, result)) return result;
    if (options.plan) {
        const WordGrid grid = word_grid(*dialect, job.units, job.cut->blend);
        const Outcome<Toolpath> path = plan_toolpath(job, lobes, grid);
        if (take(path, result)) result.text = toolpath_text(job, lobes, *path);
        return result;
    }
    const Outcome<ProvenProgram> program = proven_program(job, lobes, *dialect);
    if (!take(program, result)) return result;
    result.text = program->text;
    result.remarks.push_back(toolpath_totals_text(lobes, program->path) + proof_remark(job, program->proof));
    return result;
}

}  // namespace lobewright::cli
