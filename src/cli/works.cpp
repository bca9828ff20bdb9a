#include "cli/works.h"

#include "base/document.h"
#include "cli/post_files.h"

#include <lobewright/operations.h>

#include <algorithm>

namespace lobewright::cli {
namespace {

std::vector<std::string> operation_names(const Job& job) {
    std::vector<std::string> names;
    for (const Operation& operation : job.operations)
        names.push_back(operation.name);
    return names;
}

/// As far as the operations have machines and cuts.
std::vector<Dialect> dialects_of(const Job& job, const Options& options, Inputs& inputs, Result& result) {
    std::vector<Dialect> dialects;
    for (const Job& one : jobs_of_operations(job)) {
        if (!one.machine || !one.cut) continue;
        const Outcome<Dialect> dialect = load_post_of(one, options.post, inputs);
        if (take(dialect, result)) dialects.push_back(*dialect);
    }
    return dialects;
}

}  // namespace

std::vector<Way> ways_of(const SolvedJob& solved, const Options& options, Inputs& inputs, Result& result) {
    const auto& [job, lobes] = solved;
    const std::vector<Dialect> dialects = dialects_of(job, options, inputs, result);
    if (job.operations.empty())
        return ways_to_cut(job, lobes, dialects.empty() ? std::nullopt : std::optional(dialects.front()));
    const Diagnostics unmet = unmet_needs(job, Purpose::cut);
    append(result.messages, unmet);
    const bool can = unmet.empty() && dialects.size() == job.operations.size();
    return can ? ways_by_operations(job, lobes, dialects) : ways_to_cut(job, lobes, std::nullopt);
}

Outcome<std::vector<OperationWork>> load_works(const SolvedJob& solved, const Options& options,
                                               Inputs& inputs) {
    std::vector<Dialect> dialects;
    Diagnostics complaints;
    for (const Job& one : jobs_of_operations(solved.job)) {
        const bool chosen = options.operation.empty() || options.operation == one.operation;
        Outcome<Dialect> dialect = load_post_of(one, chosen ? options.post : std::string(), inputs);
        append(complaints, dialect.diagnostics());
        if (dialect) dialects.push_back(std::move(dialect).value());
    }
    if (has_errors(complaints)) return told_once(complaints);
    return {works_of(solved.job, solved.lobes, dialects), std::move(complaints)};
}

Outcome<std::optional<std::size_t>> chosen_operation(const Job& job, const Options& options) {
    using Chosen = std::optional<std::size_t>;
    if (options.operation.empty()) return job.operations.size() > 1 ? Chosen() : Chosen(0);
    if (const auto found = find_operation(job, options.operation)) return Chosen(*found);
    if (job.operations.empty())
        return Diagnostic{Fault::bad_input,
                          Severity::error,
                          "unknown-operation",
                          "the job has one cut, in [cut], and no operation \"" + options.operation + '"',
                          "leave --operation out",
                          {"lobewright --operation"}};
    return unknown_name("operation", options.operation, operation_names(job), {"lobewright --operation"});
}

std::string operation_heading(const Job& job) {
    return "Operation " + job.operation + " (" + job.cut->cutter + ")\n";
}

Diagnostic wants_operation(const Job& job, const std::string& command, const std::string& remedy) {
    return {Fault::bad_input,
            Severity::error,
            "missing-argument",
            "the job has several operations: " + command + " wants --operation NAME" + remedy,
            "there are " + listed(operation_names(job)),
            {"lobewright"}};
}

Outcome<OperationWork> chosen_of_work(OperationWork work, const Options& options,
                                      std::vector<std::string>& remarks) {
    Outcome<SolvedJob> chosen =
        chosen_work(SolvedJob{std::move(work.job), std::move(work.lobes)}, options, remarks);
    if (!chosen) return chosen.diagnostics();
    SolvedJob solved = std::move(chosen).value();
    return OperationWork{std::move(solved.job), std::move(solved.lobes), std::move(work.left_out),
                         std::move(work.dialect)};
}

}  // namespace lobewright::cli
