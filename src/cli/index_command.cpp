#include "cli/commands.h"
#include "cli/load.h"

#include <lobewright/ways.h>

namespace lobewright::cli {
namespace {

HandFormat hand_format(const Options& options) {
    if (!options.format_given) return HandFormat::markdown;
    switch (options.format) {
        case TextFormat::csv:
            return HandFormat::csv;
        case TextFormat::json:
            return HandFormat::json;
        case TextFormat::markdown:
        case TextFormat::text:
            return HandFormat::markdown;
    }
    return HandFormat::markdown;
}

}  // namespace

Result index_command(const Options& options, Inputs& inputs) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, inputs);
    if (!take(solved, result)) return result;
    const auto& [job, lobes] = *solved;
    const Outcome<std::string> method = find_method(job, options.method, "index");
    if (!take(method, result)) return result;
    const Outcome<HandPlan> plan = plan_hand(job, lobes, *method);
    append(result.messages, way_by_hand(job, lobes, *method, plan).complaints);
    if (plan) result.text = hand_text(job, lobes, *plan, hand_format(options));
    return result;
}

}  // namespace lobewright::cli
