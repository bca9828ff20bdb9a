#include "base/text/length_text.h"
#include "cli/commands.h"
#include "cli/load_readings.h"
#include "cli/program_files.h"
#include "cli/works.h"

#include <lobewright/corrected_work.h>

#include <algorithm>

namespace lobewright::cli {
namespace {

/// mm: what a correction may take off at most; who wants more has another lobe in mind. Common practice, no
/// source.
constexpr double largest_correction = 1.0;

Outcome<CorrectionRequest> correction_of(const Options& options, Units units) {
    const CorrectionRequest request{request_of(options, units), *options.most * mm_per(units),
                                    options.comes_again.value_or(1.0)};
    if (request.most <= largest_correction) return request;
    return Diagnostic{Fault::bad_input,
                      Severity::error,
                      "bad-number",
                      "--most " + options.most_words + " is more than a correction may take off",
                      "give " + own_figure(largest_correction, units) + " at most",
                      {"lobewright --most"}};
}

/// The lobes that --lobe and --from choose: names; empty: all.
Outcome<std::vector<std::string>> wanted_lobes(const SolvedJob& solved, const Options& options) {
    std::vector<std::string> remarks;
    if (options.lobes.empty() && options.from.empty()) return std::vector<std::string>{};
    const Outcome<SolvedJob> chosen = chosen_work(solved, options, remarks);
    if (!chosen) return chosen.diagnostics();
    std::vector<std::string> names;
    for (const SolvedLobe& lobe : chosen->lobes)
        names.push_back(lobe.name);
    return names;
}

Outcome<std::vector<MeasuredLobe>> wanted_readings(const SolvedJob& solved, const Options& options,
                                                   Inputs& inputs) {
    const Outcome<std::vector<std::string>> names = wanted_lobes(solved, options);
    if (!names) return names.diagnostics();
    const std::string lobe = names->size() == 1 ? names->front() : "";
    Outcome<std::vector<MeasuredLobe>> all = load_readings(solved, lobe, options, inputs);
    if (!all || names->empty()) return all;
    std::vector<MeasuredLobe> measured = std::move(all).value();
    std::erase_if(measured, [&](const MeasuredLobe& each) {
        return std::find(names->begin(), names->end(), solved.lobes[each.lobe].name) == names->end();
    });
    if (!measured.empty()) return measured;
    return Diagnostic{Fault::bad_input,
                      Severity::error,
                      "no-readings",
                      "there are no readings of the lobes that --lobe and --from choose",
                      "leave those out, or give the readings of these lobes",
                      {name_of_argument(options.readings)}};
}

/// What the readings say is left, as work, and what is to be known of it among the remarks.
Outcome<CorrectedWork> correction_work(const SolvedJob& solved, const Dialect& dialect,
                                       const Options& options, Inputs& inputs, Result& result) {
    const Outcome<CorrectionRequest> request = correction_of(options, solved.job.units);
    if (!request) return request.diagnostics();
    const auto measured = wanted_readings(solved, options, inputs);
    if (!measured) return measured.diagnostics();
    auto work = corrected_work(solved.job, solved.lobes, *measured, *request, dialect,
                               name_of_argument(options.readings));
    if (!work) return work;
    std::string said;
    for (const LobeCorrection& each : work->corrections)
        for (const std::string& sentence : correction_sentences(solved.job, each))
            said += (said.empty() ? "" : "\n") + sentence;
    result.remarks.push_back(said);
    return work;
}

/// Of the operation that --operation chooses, or of the only one.
std::optional<OperationWork> load_operation(const SolvedJob& solved, const Options& options, Inputs& inputs,
                                            Result& result) {
    const auto operation = chosen_operation(solved.job, options);
    if (!take(operation, result)) return std::nullopt;
    if (!*operation) {
        result.messages.push_back(wants_operation(solved.job, "--correct", ""));
        return std::nullopt;
    }
    const auto works = load_works(solved, options, inputs);
    if (!take(works, result)) return std::nullopt;
    return (*works)[**operation];
}

/// The job with its work; nothing where something of it is wrong, which the result then says.
std::optional<std::pair<CorrectedWork, Dialect>> load_correction(const Options& options, Inputs& inputs,
                                                                 Result& result) {
    const Outcome<SolvedJob> solved = load_solved_job(options.job, inputs, Purpose::cut);
    if (!take(solved, result)) return std::nullopt;
    const std::optional<OperationWork> operation = load_operation(*solved, options, inputs, result);
    if (!operation) return std::nullopt;
    const auto& [job, lobes, left_out, dialect] = *operation;
    Outcome<CorrectedWork> work = correction_work({job, lobes}, dialect, options, inputs, result);
    if (!take(work, result)) return std::nullopt;
    return std::pair(std::move(work).value(), dialect);
}

}  // namespace

Result cut_correction(const Options& options, Inputs& inputs) {
    Result result;
    const auto loaded = load_correction(options, inputs, result);
    if (!loaded) return result;
    const auto& [work, dialect] = *loaded;
    if (options.plan) {
        const auto path =
            plan_toolpath(work.job, work.lobes, word_grid(dialect, work.job.units, work.job.cut->blend));
        if (!take(path, result)) return result;
        result.text = options.json ? toolpath_json(work.job, work.lobes, *path)
                                   : toolpath_text(work.job, work.lobes, *path);
        return result;
    }
    if (const auto complaint =
            find_other_file(inputs.files, options.output, options, dialect, work.job.units)) {
        result.messages.push_back(*complaint);
        return result;
    }
    const Outcome<ProvenProgram> program = proven_correction(work, dialect);
    if (!take(program, result)) return result;
    result.text = program->text;
    result.remarks.push_back(toolpath_totals_text(work.lobes, program->path) +
                             proof_remark(work.job, program->proof, "the corrected contour"));
    return result;
}

Result prove_correction(const Options& options, Inputs& inputs) {
    Result result;
    const auto loaded = load_correction(options, inputs, result);
    auto program = open_argument(options.program, inputs);
    if (!take(program, result) || !loaded) return result;
    const auto& [work, dialect] = *loaded;
    const std::string name = name_of_argument(options.program);
    TextSource& text = **program;
    const auto pieces = [&] { return text.next(); };
    const Outcome<ProofReport> report = prove(work.job, work.lobes, dialect, pieces, name);
    if (!take(report, result)) return result;
    text.rewind();
    const Outcome<ProgramLines> lines = lines_with_findings(*report, pieces);
    if (!take(lines, result)) return result;
    result.text = options.json
                      ? proof_json(work.job, *report)
                      : "In the place of the design: the contour corrected by " +
                            name_of_argument(options.readings) + "\n" + proof_text(work.job, *report, *lines);
    append(result.messages, fitness(work.job, *report, name, "mend the program there, or cut it anew"));
    return result;
}

}  // namespace lobewright::cli
