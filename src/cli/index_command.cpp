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
            return HandFormat::markdown;
    }
    return HandFormat::markdown;
}

/// The method called `name`; without a name, the only one.
Outcome<std::string> find_method(const Job& job, const std::string& name) {
    std::vector<std::string> names;
    for (const auto& [each, method] : job.hand)
        names.push_back(each);
    if (names.empty()) return unmet_needs(job, Purpose::index, name);
    if (name.empty() && names.size() == 1) return names.front();
    if (job.hand.contains(name)) return name;
    Diagnostic complaint = unknown_name("method", name, names, {"lobewright --method"});
    if (!name.empty()) return complaint;
    complaint.code = "missing-argument";
    complaint.what = "the job has several hand methods: index wants --method NAME";
    complaint.place = {"lobewright"};
    return complaint;
}

}  // namespace

Result index_command(const Options& options) {
    Result result;
    const Outcome<SolvedJob> solved = load_solved_job(options.job, result.inputs);
    if (!take(solved, result)) return result;
    const auto& [job, lobes] = *solved;
    const Outcome<std::string> method = find_method(job, options.method);
    if (!take(method, result)) return result;
    const Outcome<HandPlan> plan = plan_hand(job, lobes, *method);
    append(result.messages, way_by_hand(job, lobes, *method, plan).complaints);
    if (plan) result.text = hand_text(job, lobes, *plan, hand_format(options));
    return result;
}

}  // namespace lobewright::cli
