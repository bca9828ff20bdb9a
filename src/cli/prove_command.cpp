#include "cli/commands.h"
#include "cli/works.h"

#include <lobewright/proven_program.h>

namespace lobewright::cli {

Result prove_command(const Options& options, Inputs& inputs) {
    if (!options.readings.empty()) return prove_correction(options, inputs);
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, inputs, Purpose::prove);
    if (!take(solved, result)) return result;
    const auto operation = chosen_operation(solved->job, options);
    if (!take(operation, result)) return result;
    if (!*operation) {
        result.messages.push_back(wants_operation(solved->job, "prove", ""));
        return result;
    }
    const auto works = load_works(*solved, options, inputs);
    auto program = open_argument(options.program, inputs);
    const std::string name = name_of_argument(options.program);
    take(works, result);
    if (!take(program, result) || !works.ok()) return result;
    const auto earlier = programs_before(*works, **operation);
    const auto work = chosen_of_work((*works)[**operation], options, result.remarks);
    if (!take(earlier, result) || !take(work, result)) return result;
    const auto& [job, lobes, left_out, dialect] = *work;
    TextSource& text = **program;
    const auto pieces = [&] { return text.next(); };
    const Outcome<ProofReport> report = prove(job, lobes, dialect, pieces, name, *earlier);
    if (!take(report, result)) return result;
    text.rewind();
    const Outcome<ProgramLines> lines = lines_with_findings(*report, pieces);
    if (!take(lines, result)) return result;
    result.text = options.json ? proof_json(job, *report) : proof_text(job, *report, *lines);
    append(result.messages, fitness(job, *report, name, "mend the program there, or cut it anew"));
    return result;
}

}  // namespace lobewright::cli
