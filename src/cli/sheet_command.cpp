#include "cli/commands.h"
#include "cli/load_readings.h"
#include "cli/post_files.h"

#include <lobewright/proven_program.h>
#include <lobewright/sheet.h>

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
std::optional<SheetProgram> own_program(const SolvedJob& solved, const Dialect& dialect) {
    const auto& [job, lobes] = solved;
    Outcome<ProvenProgram> cut = proven_program(job, lobes, dialect);
    if (!cut) return std::nullopt;
    const std::string name = "the program that cut writes";
    Outcome<ReadProgram> read = read_program(cut->text, name, dialect, job.units);
    if (!read) return std::nullopt;
    ProvenProgram program = std::move(cut).value();
    return SheetProgram{name, std::move(program.text), std::move(read).value(), std::move(program.proof)};
}

std::optional<SheetProgram> program_of(const Options& options, const SolvedJob& solved,
                                       const std::optional<Dialect>& dialect, Result& result) {
    if (options.program.empty()) return dialect ? own_program(solved, *dialect) : std::nullopt;
    const Diagnostics needs = unmet_needs(solved.job, Purpose::prove);
    append(result.messages, needs);
    const Outcome<std::string> text = read_data_argument(options.program, result.inputs);
    if (!take(text, result) || has_errors(needs) || !dialect) return std::nullopt;
    const auto program = given_program(solved, *dialect, name_of_argument(options.program), *text);
    return take(program, result) ? std::optional(*program) : std::nullopt;
}

std::vector<HandPlan> plans_of(const SolvedJob& solved) {
    std::vector<HandPlan> plans;
    for (const auto& [name, method] : solved.job.hand) {
        Outcome<HandPlan> plan = plan_hand(solved.job, solved.lobes, name);
        if (plan) plans.push_back(std::move(plan).value());
    }
    return plans;
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
    SheetParts parts{judge(job, lobes), ways_to_cut(job, lobes, dialect), plans_of(*solved),
                     program_of(options, *solved, dialect, result)};
    parts.inspections = load_inspections(*solved, options, result);
    for (const Diagnostic& question : solved.diagnostics())
        parts.report.findings.push_back(finding(question.severity, question.code, {}, sentence_of(question)));
    if (!has_errors(result.messages)) result.text = sheet_page(job, lobes, parts);
    return result;
}

}  // namespace lobewright::cli
