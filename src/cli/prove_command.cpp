#include "cli/commands.h"
#include "cli/works.h"
#include "profile/blank.h"

#include <lobewright/one_program.h>
#include <lobewright/proven_program.h>

#include <memory>

namespace lobewright::cli {
namespace {

/// A program that the arguments name, read as often as it is needed.
struct ProgramArgument {
    std::string name;
    std::unique_ptr<TextSource> text;
    TextPieces pieces = [this] { return text->next(); };
};

/// The reports on one program, one for each of its operations, with what stands wrong in it.
void tell(const std::vector<OperationCut>& cuts, const std::vector<ProofReport>& reports,
          ProgramArgument& program, const Options& options, Result& result) {
    std::string text;
    for (std::size_t i = 0; i < cuts.size(); ++i) {
        const Job& job = cuts[i].job;
        program.text->rewind();
        const Outcome<ProgramLines> lines = lines_with_findings(reports[i], program.pieces);
        if (!take(lines, result)) return;
        if (cuts.size() > 1) text += (i == 0 ? "" : "\n") + operation_heading(job);
        text += proof_text(job, reports[i], *lines);
        append(result.messages,
               fitness(job, reports[i], program.name, "mend the program there, or cut it anew"));
    }
    if (options.json)
        text = cuts.size() == 1 ? proof_json(cuts[0].job, reports[0]) : proofs_json(cuts, reports);
    result.text = text;
}

/// One operation of several, on what those before it leave, or all of them in one program.
void prove_works(const std::vector<OperationWork>& works, std::size_t first, std::size_t last,
                 ProgramArgument& program, const Options& options, Result& result) {
    const auto earlier = programs_before(works, first);
    if (!take(earlier, result)) return;
    std::vector<OperationCut> cuts;
    for (std::size_t i = first; i < last; ++i) {
        auto work = chosen_of_work(works[i], options, result.remarks);
        if (!take(work, result)) return;
        OperationWork chosen = std::move(work).value();
        cuts.push_back({std::move(chosen.job), std::move(chosen.lobes)});
    }
    const auto reports = prove_operations(cuts, works[first].dialect, program.pieces, program.name, *earlier);
    if (take(reports, result)) tell(cuts, *reports, program, options, result);
}

}  // namespace

Result prove_command(const Options& options, Inputs& inputs) {
    if (!options.readings.empty()) return prove_correction(options, inputs);
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, inputs, Purpose::prove);
    if (!take(solved, result)) return result;
    const auto operation = chosen_operation(solved->job, options);
    append(result.messages, profile::faults_of_stock(solved->job, solved->lobes));
    if (!take(operation, result) || has_errors(result.messages)) return result;
    const auto works = load_works(*solved, options, inputs);
    if (!*operation && works.ok() && hindrance_to_one_program(*works)) {
        result.messages.push_back(wants_operation(solved->job, "prove", ""));
        return result;
    }
    auto opened = open_argument(options.program, inputs);
    take(works, result);
    if (!take(opened, result) || !works.ok()) return result;
    ProgramArgument program{name_of_argument(options.program), std::move(opened).value()};
    const std::size_t first = operation->value_or(0);
    const std::size_t last = *operation ? first + 1 : works->size();
    prove_works(*works, first, last, program, options, result);
    return result;
}

}  // namespace lobewright::cli
