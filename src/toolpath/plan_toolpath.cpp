#include "profile/blank.h"
#include "toolpath/lobe_plans.h"
#include "toolpath/refusals.h"

#include <lobewright/needs.h>
#include <lobewright/toolpath.h>

#include <algorithm>
#include <variant>

namespace lobewright {
namespace toolpath {
namespace {

void append(Diagnostics& all, const Diagnostics& more) {
    all.insert(all.end(), more.begin(), more.end());
}

/// mm: what a finish pass may take of a bar that was not roughed, where the job doesn't say. Common practice,
/// no source.
constexpr double usual_finish_depth = 0.5;

/// Of the lobe that takes the most: what all take is one cause.
Diagnostics faults_of_finish_alone(const Job& job, const std::vector<SolvedLobe>& lobes) {
    const double most = job.cut->finish_depth.value_or(usual_finish_depth);
    const auto smallest = std::min_element(
        lobes.begin(), lobes.end(),
        [](const SolvedLobe& a, const SolvedLobe& b) { return a.base_radius < b.base_radius; });
    if (smallest == lobes.end()) return {};
    const double takes = *job.shaft.blank() / 2.0 - smallest->base_radius - job.cut->allowance;
    constexpr double rounding = 1e-9;
    if (takes <= most + rounding) return {};
    return {refusal_of(job, *smallest, FinishTooDeep{takes, most})};
}

Diagnostics faults_of_roughing(const Job& job, const std::vector<SolvedLobe>& lobes) {
    Diagnostics found;
    if (!job.cut->rough_depth) return faults_of_finish_alone(job, lobes);
    for (const SolvedLobe& lobe : lobes) {
        const double deepest = *job.shaft.blank() / 2.0 - lobe.base_radius;
        if (const auto slip = too_many_passes(deepest, *job.cut->rough_depth))
            found.push_back(refusal_of(job, lobe, *slip));
    }
    return found;
}

/// What the job lacks for cutting, or else what of it can't be: the blank holds every lobe, and the lobes
/// stand clear of each other along the shaft. All complaints in one go.
Diagnostics faults_of(const Job& job, const std::vector<SolvedLobe>& lobes) {
    if (Diagnostics unmet = unmet_needs(job, Purpose::cut); !unmet.empty()) return unmet;
    Diagnostics found = faults_along_shaft(job);
    append(found, profile::faults_of_blank(job, lobes, job.cut->allowance));
    append(found, faults_of_roughing(job, lobes));
    return found;
}

std::vector<std::size_t> in_shaft_order(const std::vector<SolvedLobe>& lobes) {
    std::vector<std::size_t> order(lobes.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return lobes[a].z < lobes[b].z; });
    return order;
}

/// The path as its rotary axis and the words can run it, with what is to be said of it.
Outcome<Toolpath> within_reach(const Job& job, const std::vector<SolvedLobe>& lobes, const Setup& setup,
                               Toolpath path) {
    const auto reach = rotary_reach(setup);
    Diagnostics remarks;
    if (const auto middle = dead_middle(setup, lobes)) remarks.push_back(remark_on(job, *middle));
    if (!reach) return {std::move(path), std::move(remarks)};
    auto kept = unwound(setup, std::move(path), reach->degrees);
    if (const auto* why = std::get_if<ReachTooShort>(&kept))
        return Diagnostics{refusal_of(job, lobes[why->lobe], *reach, *why)};
    return {std::get<Toolpath>(std::move(kept)), std::move(remarks)};
}

}  // namespace
}  // namespace toolpath

Outcome<Toolpath> plan_toolpath(const Job& job, const std::vector<SolvedLobe>& lobes, const WordGrid& grid) {
    using namespace toolpath;
    Diagnostics found = faults_of(job, lobes);
    if (!found.empty()) return found;
    const Setup setup = set_up(job, grid);
    std::vector<std::vector<PathPart>> parts;
    for (const std::size_t index : in_shaft_order(lobes)) {
        auto plans = lobe_plans(setup, lobes, index);
        if (const CannotCut* why = why_not(plans)) found.push_back(refusal_of(job, lobes, index, *why));
        if (!found.empty()) continue;
        auto& possible = std::get<std::vector<PathPart>>(plans);
        if (possible.empty()) return refusal_of_grid(job, grid);
        parts.push_back(std::move(possible));
    }
    if (!found.empty()) return found;
    return within_reach(job, lobes, setup, fastest_path(setup, parts));
}

}  // namespace lobewright
