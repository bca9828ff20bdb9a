#include "cli/commands.h"
#include "cli/load_readings.h"
#include "cli/works.h"

#include <lobewright/sheet.h>

#include <algorithm>

namespace lobewright::cli {
namespace {

/// The operation whose program the page shows, on what those before it leave.
struct ShownOperation {
    OperationWork work;
    std::vector<EarlierProgram> earlier;
};

/// The one that --operation chooses, else the last; nothing where the job has no machine or no cut.
std::optional<ShownOperation> shown_operation(const SolvedJob& solved, const Options& options, Inputs& inputs,
                                              Result& result) {
    const auto chosen = chosen_operation(solved.job, options);
    if (!take(chosen, result) || !unmet_needs(solved.job, Purpose::prove).empty()) return std::nullopt;
    const auto works = load_works(solved, options, inputs);
    if (!works) return std::nullopt;  // the ways have complained
    const std::size_t index = chosen->value_or(works->size() - 1);
    auto earlier = programs_before(*works, index);
    if (!earlier) return std::nullopt;
    return ShownOperation{(*works)[index], std::move(earlier).value()};
}

/// The program that --program names, as its own text says it.
Outcome<SheetProgram> given_program(const ShownOperation& shown, std::string name, std::string text) {
    const auto& [job, lobes, left_out, dialect] = shown.work;
    Outcome<ReadProgram> read = read_program(text, name, dialect, job.units);
    if (!read) return read.diagnostics();
    Outcome<ProofReport> proof = prove(job, lobes, dialect, text, name, shown.earlier);
    if (!proof) return proof.diagnostics();
    return SheetProgram{std::move(name), std::move(text), std::move(read).value(), std::move(proof).value()};
}

/// The job's own, with the proof that it has passed; nothing where there is none, which the ways tell of.
std::optional<SheetProgram> own_program(const ShownOperation& shown, const std::vector<Way>& ways) {
    const Job& job = shown.work.job;
    const auto wanted = std::find_if(ways.begin(), ways.end(), [&](const Way& way) {
        return way.program != nullptr && (job.operation.empty() || way.name == job.operation);
    });
    if (wanted == ways.end()) return std::nullopt;
    const ProvenProgram& program = *wanted->program;
    const std::string name =
        "the program that cut writes" + (job.operation.empty() ? "" : " for operation " + job.operation);
    Outcome<ReadProgram> read = read_program(program.text, name, shown.work.dialect, job.units);
    if (!read) return std::nullopt;
    return SheetProgram{name, program.text, std::move(read).value(), program.proof};
}

std::optional<SheetProgram> program_of(const Options& options, const SolvedJob& solved,
                                       const std::vector<Way>& ways,
                                       const std::optional<ShownOperation>& shown, Inputs& inputs,
                                       Result& result) {
    if (options.program.empty()) return shown ? own_program(*shown, ways) : std::nullopt;
    const Diagnostics needs = unmet_needs(solved.job, Purpose::prove);
    append(result.messages, needs);
    const Outcome<std::string> text = read_data_argument(options.program, inputs);
    if (!take(text, result) || has_errors(needs) || !shown) return std::nullopt;
    const auto program = given_program(*shown, name_of_argument(options.program), *text);
    return take(program, result) ? std::optional(*program) : std::nullopt;
}

}  // namespace

Result sheet_command(const Options& options, Inputs& inputs) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, inputs);
    if (!take(solved, result)) return result;
    const auto& [job, lobes] = *solved;
    SheetParts parts{judge(job, lobes), ways_of(*solved, options, inputs, result), std::nullopt};
    const std::optional<ShownOperation> shown = shown_operation(*solved, options, inputs, result);
    parts.program = program_of(options, *solved, parts.ways, shown, inputs, result);
    parts.inspections = load_inspections(*solved, options, inputs, result);
    for (const Diagnostic& question : solved.diagnostics())
        parts.report.findings.push_back(finding(question.severity, question.code, {}, sentence_of(question)));
    Job at_hand = job;
    if (shown) at_hand.machine = shown->work.job.machine, at_hand.cut = shown->work.job.cut;
    if (!has_errors(result.messages)) result.text = sheet_page(at_hand, lobes, parts);
    return result;
}

}  // namespace lobewright::cli
