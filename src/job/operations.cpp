#include "base/text/typed_length.h"
#include "job/complaint.h"

#include <lobewright/operations.h>

#include <algorithm>

namespace lobewright {
namespace {

std::string path_of_operation(std::size_t index) {
    return "operation[" + std::to_string(index) + ']';
}

/// As `places`, with those of the table `from` and of its keys under the name `to`, whose own are gone.
void put_places(std::map<std::string, Place, std::less<>>& places, const std::string& from,
                const std::string& to) {
    const auto within = [](const std::string& path, const std::string& table) {
        return path == table || path.starts_with(table + '.') || path.starts_with(table + '[');
    };
    std::map<std::string, Place, std::less<>> moved;
    for (const auto& [path, place] : places) {
        if (within(path, from)) moved.emplace(to + path.substr(from.size()), place);
    }
    std::erase_if(places, [&](const auto& each) { return within(each.first, to); });
    places.insert(moved.begin(), moved.end());
}

/// What the operations before `index` leave, by lobe.
std::map<std::string, StandingLobe, std::less<>> left_before(const Job& job, std::size_t index) {
    std::map<std::string, StandingLobe, std::less<>> left;
    for (std::size_t i = 0; i < index; ++i) {
        const Operation& each = job.operations[i];
        for (const std::string& lobe : lobes_of_operation(job, each))
            left[lobe] = {each.cut.allowance, each.cut.tolerance, each.name};
    }
    return left;
}

/// "operation 'rough'" or "[stock]"
std::string leaver(const StandingLobe& standing) {
    return standing.left_by.empty() ? "[stock]" : "operation '" + standing.left_by + "'";
}

std::string give_or_take(const StandingLobe& standing, Units units) {
    return length_words(standing.left_on, units) +
           (standing.within > 0.0 ? " give or take " + length_words(standing.within, units) : "");
}

std::string who_cuts(const Job& job) {
    return job.operation.empty() ? "the cut" : "operation '" + job.operation + "'";
}

/// Of the one at hand, for the first lobe that it would find too low.
std::optional<Diagnostic> cut_in_air(const Job& job, const std::string& path,
                                     const std::vector<std::string>& lobes) {
    constexpr double rounding = 1e-9;  // mm
    const Cut& cut = *job.cut;
    const double highest = cut.allowance + cut.tolerance;
    for (const std::string& lobe : lobes) {
        const auto standing = job.stock.of(lobe);
        if (!standing || standing->least() >= highest - rounding) continue;
        const std::string given =
            standing->left_by.empty() ? "left_on of [stock]" : "the allowance of " + leaver(*standing);
        const bool all = standing->left_on <= cut.allowance + rounding;
        return bad_key(job, path, "cuts-air",
                       who_cuts(job) + (all ? " would cut air" : " would cut air in places") + ": on lobe '" +
                           lobe + "' " + leaver(*standing) + " leaves " + give_or_take(*standing, job.units) +
                           ", and this leaves " + length_words(cut.allowance, job.units) + " give or take " +
                           length_words(cut.tolerance, job.units),
                       "raise " + given + " to " +
                           typed_above(highest + standing->within - rounding, job.units).words +
                           " at least, or leave less on here");
    }
    return std::nullopt;
}

}  // namespace

std::vector<std::string> lobes_of_operation(const Job& job, const Operation& operation) {
    if (!operation.lobes.empty()) return operation.lobes;
    std::vector<std::string> names;
    for (const LobeEntry& lobe : job.lobes)
        names.push_back(lobe.name);
    return names;
}

Job job_of_operation(const Job& job, std::size_t index) {
    const Operation& operation = job.operations[index];
    Job one = job;
    one.operation = operation.name;
    one.cut = operation.cut;
    one.stock.after = left_before(job, index);
    put_places(one.places, path_of_operation(index), "cut");
    if (operation.machine.empty()) return one;
    const auto found = job.machines.find(operation.machine);
    one.machine = found == job.machines.end() ? std::nullopt : std::optional(found->second);
    put_places(one.places, "machine." + operation.machine, "machine");
    return one;
}

std::vector<Job> jobs_of_operations(const Job& job) {
    if (job.operations.empty()) return {job};
    std::vector<Job> jobs;
    for (std::size_t i = 0; i < job.operations.size(); ++i)
        jobs.push_back(job_of_operation(job, i));
    return jobs;
}

std::optional<std::size_t> find_operation(const Job& job, std::string_view name) {
    const auto found = std::find_if(job.operations.begin(), job.operations.end(),
                                    [&](const Operation& each) { return each.name == name; });
    if (found == job.operations.end()) return std::nullopt;
    return static_cast<std::size_t>(found - job.operations.begin());
}

std::optional<double> finished_tolerance(const Job& job) {
    if (!job.operations.empty()) return job.operations.back().cut.tolerance;
    return job.cut ? std::optional(job.cut->tolerance) : std::nullopt;
}

Diagnostics cuts_in_air(const Job& job) {
    Diagnostics found;
    const auto add = [&](const std::optional<Diagnostic>& complaint) {
        if (complaint) found.push_back(*complaint);
    };
    if (job.operations.empty() && job.cut) add(cut_in_air(job, "cut.allowance", lobes_of_operation(job, {})));
    for (std::size_t i = 0; i < job.operations.size(); ++i) {
        add(cut_in_air(job_of_operation(job, i), "cut.allowance",
                       lobes_of_operation(job, job.operations[i])));
    }
    return found;
}

}  // namespace lobewright
