#include "cli/commands.h"
#include "cli/load.h"
#include "cli/post_files.h"

#include <lobewright/sheet.h>

#include <algorithm>

namespace lobewright::cli {
namespace {

/// The program that --program names, as its own text says it.
Outcome<SheetProgram> given_program(const SolvedJob& solved, const Dialect& dialect, std::string name,
                                    std::string text) {
    const auto& [job, lobes] = solved;
    Outcome<ReadProgram> read = read_program(text, name, dialect, job.units);
    if (!read) return read.diagnostics();
    Outcome<ProofReport> proof = prove(job, lobes, dialect, text, name);
    if (!proof) return proof.diagnostics();
    return SheetProgram{std::move(name), std::move(text), std::move(read).value(), std::move(proof).value()};
}

/// The job's own, with the proof that it has passed; nothing where there is none, which the ways tell of.
std::optional<SheetProgram> own_program(const Job& job, const std::vector<Way>& ways,
                                        const Dialect& dialect) {
    const auto wanted =
        std::find_if(ways.begin(), ways.end(), [](const Way& way) { return way.program != nullptr; });
    if (wanted == ways.end()) return std::nullopt;
    const ProvenProgram& program = *wanted->program;
    const std::string name = "the program that cut writes";
    Outcome<ReadProgram> read = read_program(program.text, name, dialect, job.units);
    if (!read) return std::nullopt;
    return SheetProgram{name, program.text, std::move(read).value(), program.proof};
}

std::optional<SheetProgram> program_of(const Options& options, const SolvedJob& solved,
                                       const std::vector<Way>& ways, const std::optional<Dialect>& dialect,
                                       Result& result) {
    if (options.program.empty()) return dialect ? own_program(solved.job, ways, *dialect) : std::nullopt;
    const Diagnostics needs = unmet_needs(solved.job, Purpose::prove);
    append(result.messages, needs);
    const Outcome<std::string> text = read_data_argument(options.program, result.inputs);
    if (!take(text, result) || has_errors(needs) || !dialect) return std::nullopt;
    const auto program = given_program(solved, *dialect, name_of_argument(options.program), *text);
    return take(program, result) ? std::optional(*program) : std::nullopt;
}

}  // namespace

Result sheet_command(const Options& options) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, result.inputs);
    if (!take(solved, result)) return result;
    const auto& [job, lobes] = *solved;
    std::optional<Dialect> dialect;
    if (job.machine && job.cut) {
        const Outcome<Dialect> loaded = load_post_of(job, options.post, result.inputs);
        if (take(loaded, result)) dialect = *loaded;
    }
    SheetParts parts{judge(job, lobes), ways_to_cut(job, lobes, dialect), std::nullopt};
    parts.program = program_of(options, *solved, parts.ways, dialect, result);
    for (const Diagnostic& question : solved.diagnostics())
        parts.report.findings.push_back(finding(question.severity, question.code, {}, sentence_of(question)));
    if (!has_errors(result.messages)) result.text = sheet_page(job, lobes, parts);
    return result;
}

}  // namespace lobewright::cli
