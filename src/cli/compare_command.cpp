#include "cli/commands.h"
#include "cli/load.h"
#include "cli/option_words.h"

#include <lobewright/compare.h>

#include <algorithm>

namespace lobewright::cli {
namespace {

/// The lobe that --lobe names; nothing without it.
Outcome<std::optional<std::size_t>> wanted_lobe(const Job& job, const std::string& name) {
    if (name.empty()) return std::optional<std::size_t>{};
    std::vector<std::string> names;
    for (const LobeEntry& lobe : job.lobes)
        names.push_back(lobe.name);
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) return unknown_name("lobe", name, names, Place{"lobewright --lobe"});
    return std::optional(static_cast<std::size_t>(found - names.begin()));
}

Outcome<std::vector<ComparedLobe>> compared(const Job& job, const Options& options, KnownShapes& known) {
    const auto lobe = wanted_lobe(job, options.lobe);
    if (!lobe) return lobe.diagnostics();
    if (options.laws.empty()) return compare_profiles(job, *lobe, known);
    if (job.profiles.contains(options.laws)) return compare_laws(job, options.laws, *lobe, known);
    std::vector<std::string> names;
    for (const auto& [name, profile] : job.profiles)
        names.push_back(name);
    return unknown_name("profile", options.laws, names, Place{"lobewright --laws"});
}

}  // namespace

Result compare_command(const Options& options, Inputs& inputs) {
    Result result;
    const Outcome<Job> job = load_job(options.job, inputs);
    if (!take(job, result)) return result;
    const auto rows = compared(*job, options, inputs.shapes);
    if (!take(rows, result)) return result;
    append(result.messages, questions_about(*job, solve_lobes(*job, inputs.shapes)));
    result.text = options.format_given ? comparison_text(*job, *rows, table_format(options.format))
                                       : comparison_columns(*job, *rows);
    const bool any = std::any_of(rows->begin(), rows->end(),
                                 [](const ComparedLobe& row) { return row.report.has_value(); });
    if (any) return result;
    for (const ComparedLobe& row : *rows)
        append(result.messages, row.complaints);
    return result;
}

}  // namespace lobewright::cli
