#include "cli/commands.h"
#include "cli/load.h"
#include "cli/option_words.h"

#include <lobewright/lift_table.h>

namespace lobewright::cli {

Result table_command(const Options& options, Inputs& inputs) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, inputs);
    if (!take(solved, result)) return result;
    const Outcome<std::size_t> index = find_lobe(solved->lobes, options.lobe, "table");
    if (!take(index, result)) return result;
    const SolvedLobe& lobe = solved->lobes[*index];
    result.text = lift_table_text(lift_table(lobe, options.every), lobe, solved->job.units,
                                  table_format(options.format));
    return result;
}

}  // namespace lobewright::cli
