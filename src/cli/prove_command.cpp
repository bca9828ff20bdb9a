#include "cli/commands.h"
#include "cli/load.h"
#include "cli/post_files.h"

#include <lobewright/proven_program.h>

namespace lobewright::cli {

Result prove_command(const Options& options) {
    if (!options.readings.empty()) return prove_correction(options);
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, result.inputs, Purpose::prove);
    if (!take(solved, result)) return result;
    const Outcome<SolvedJob> chosen = chosen_work(*solved, options, result.remarks);
    if (!take(chosen, result)) return result;
    const auto& [job, lobes] = *chosen;
    const Outcome<Dialect> dialect = load_post_of(job, options.post, result.inputs);
    Outcome<TextInPieces> program = open_argument(options.program, result.inputs);
    const std::string name = name_of_argument(options.program);
    take(dialect, result);
    if (!take(program, result) || !dialect.ok()) return result;
    TextInPieces text = std::move(program).value();
    const auto pieces = [&] { return text.next(); };
    const Outcome<ProofReport> report = prove(job, lobes, *dialect, pieces, name);
    if (!take(report, result)) return result;
    text.rewind();
    const Outcome<ProgramLines> lines = lines_with_findings(*report, pieces);
    if (!take(lines, result)) return result;
    result.text = options.json ? proof_json(job, *report) : proof_text(job, *report, *lines);
    append(result.messages, fitness(job, *report, name, "mend the program there, or cut it anew"));
    return result;
}

}  // namespace lobewright::cli
