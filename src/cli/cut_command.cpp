#include "base/text/angle_text.h"
#include "base/text/length_text.h"
#include "cli/commands.h"
#include "cli/load.h"
#include "cli/post_files.h"
#include "cli/program_output.h"

#include <lobewright/number_text.h>
#include <lobewright/program_reader.h>
#include <lobewright/program_writer.h>
#include <lobewright/proven_program.h>

namespace lobewright::cli {

std::string proof_remark(const Job& job, const ProofReport& report, const std::string& against) {
    double deepest = 0.0, proudest = 0.0;
    for (const LobeVerdict& lobe : report.lobes) {
        deepest = std::max(deepest, -lobe.deepest.along_normal);
        proudest = std::max(proudest, lobe.proudest.along_normal);
    }
    constexpr Decimals decimals = sentence_decimals;
    return "Proven from its own text: " + counted(static_cast<long long>(report.lobes.size()), "lobe") +
           ", from " + fixed_length(deepest, job.units, decimals) + " below " + against + " to " +
           with_unit(fixed_length(proudest, job.units, decimals), job.units) + " above it.";
}

namespace {

/// Whether a file may be written over: it is empty, or a program that we wrote, or, where the dialect has no
/// comments to know it by, one that this dialect's controller would take.
bool may_go(const std::string& text, const Dialect& dialect, Units units) {
    if (text.empty() || bears_our_mark(text)) return true;
    return dialect.comments == CommentStyle::none && read_program(text, "", dialect, units).ok();
}

}  // namespace

std::optional<Diagnostic> find_other_file(const Options& options, const Dialect& dialect, Units units) {
    std::error_code ignored;
    if (options.force || options.plan || !std::filesystem::is_regular_file(options.output, ignored))
        return std::nullopt;
    std::vector<std::filesystem::path> unused;
    const Outcome<std::string> text = read_data(options.output, unused);
    if (text && may_go(*text, dialect, units)) return std::nullopt;
    return Diagnostic{Fault::bad_input,
                      Severity::error,
                      "not-our-program",
                      "the file there is no program of ours",
                      "give another name, or --force to write over it",
                      {options.output}};
}

Result cut_command(const Options& options) {
    if (!options.readings.empty()) return cut_correction(options);
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, result.inputs, Purpose::cut);
    if (!take(solved, result)) return result;
    const Outcome<SolvedJob> chosen = chosen_work(*solved, options, result.remarks);
    if (!take(chosen, result)) return result;
    const auto& [job, lobes] = *chosen;
    const Outcome<Dialect> dialect = load_post_of(job, options.post, result.inputs);
    if (!take(dialect, result)) return result;
    if (const auto complaint = find_other_file(options, *dialect, job.units)) {
        result.messages.push_back(*complaint);
        return result;
    }
    if (options.plan) {
        const WordGrid grid = word_grid(*dialect, job.units, job.cut->blend);
        const Outcome<Toolpath> path = plan_toolpath(job, lobes, grid);
        if (!take(path, result)) return result;
        result.text = options.json ? toolpath_json(job, lobes, *path) : toolpath_text(job, lobes, *path);
        return result;
    }
    const Outcome<ProvenProgram> program = proven_program(job, lobes, *dialect);
    if (!take(program, result)) return result;
    result.text = program->text;
    result.remarks.push_back(toolpath_totals_text(lobes, program->path) + proof_remark(job, program->proof));
    return result;
}

}  // namespace lobewright::cli
