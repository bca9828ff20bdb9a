#include "cli/commands.h"
#include "cli/load.h"

#include <lobewright/lift_table.h>

#include <algorithm>

namespace lobewright::cli {
namespace {

TableFormat table_format(TextFormat format) {
    switch (format) {
        case TextFormat::csv:
            return TableFormat::csv;
        case TextFormat::json:
            return TableFormat::json;
        case TextFormat::markdown:
            return TableFormat::markdown;
    }
    return TableFormat::csv;
}

/// The lobe called `name`; without a name, the only one.
Outcome<std::size_t> find_lobe(const std::vector<SolvedLobe>& lobes, const std::string& name) {
    std::vector<std::string> names;
    for (const SolvedLobe& lobe : lobes)
        names.push_back(lobe.name);
    const Place place{"lobewright --lobe"};
    if (name.empty() && lobes.size() == 1) return std::size_t{0};
    if (name.empty()) {
        Diagnostic complaint = unknown_name("lobe", "", names, {"lobewright"});
        complaint.code = "missing-argument";
        complaint.what = "the job has several lobes: table wants --lobe NAME";
        return complaint;
    }
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) return unknown_name("lobe", name, names, place);
    return static_cast<std::size_t>(found - names.begin());
}

}  // namespace

Result table_command(const Options& options) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, result.inputs);
    if (!take(solved, result)) return result;
    const Outcome<std::size_t> index = find_lobe(solved->lobes, options.lobe);
    if (!take(index, result)) return result;
    const SolvedLobe& lobe = solved->lobes[*index];
    result.text = lift_table_text(lift_table(lobe, options.every), lobe, solved->job.units,
                                  table_format(options.format));
    return result;
}

}  // namespace lobewright::cli
