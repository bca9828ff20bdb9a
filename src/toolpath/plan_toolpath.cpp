#include "base/append_diagnostics.h"
#include "profile/blank.h"
#include "toolpath/refusals.h"
#include "toolpath/whole_path.h"

#include <lobewright/cutting_data.h>
#include <lobewright/needs.h>
#include <lobewright/toolpath.h>

#include <algorithm>
#include <deque>
#include <variant>

namespace lobewright {
namespace toolpath {
namespace {

/// Of the lobe that takes the most: what all take is one cause. Lobes that stand already take as many passes
/// as they need.
Diagnostics faults_of_finish_alone(const Job& job, const std::vector<SolvedLobe>& lobes) {
    const double most = finish_depth_of(*job.cut);
    const SolvedLobe* smallest = nullptr;
    for (const SolvedLobe& lobe : lobes) {
        if (job.stock.of(lobe.name)) continue;
        if (smallest == nullptr || lobe.base_radius < smallest->base_radius) smallest = &lobe;
    }
    if (smallest == nullptr) return {};
    const double takes = stock_on_heel(job, *smallest) - job.cut->allowance;
    constexpr double rounding = 1e-9;
    if (takes <= most + rounding) return {};
    return {refusal_of(job, *smallest, FinishTooDeep{takes, most})};
}

Diagnostics faults_of_roughing(const Job& job, const std::vector<SolvedLobe>& lobes) {
    Diagnostics found;
    if (!job.cut->rough_depth) return faults_of_finish_alone(job, lobes);
    for (const SolvedLobe& lobe : lobes) {
        if (const auto slip = too_many_passes(stock_on_heel(job, lobe), *job.cut->rough_depth))
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
    append(found, profile::faults_of_stock(job, lobes));
    append(found, faults_of_roughing(job, lobes));
    if (auto too_fast = rim_too_fast(job)) found.push_back(std::move(*too_fast));
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
    if (const auto away = runs_away(path)) {
        return Diagnostics{refusal_of(job, lobes[away->lobe], path.grid, *away)};
    }
    const auto reach = rotary_reach(setup);
    Diagnostics remarks;
    if (const auto middle = dead_middle(setup, lobes)) remarks.push_back(remark_on(job, *middle));
    if (!reach) return {std::move(path), std::move(remarks)};
    auto kept = unwound(setup, std::move(path), reach->degrees);
    if (const auto* why = std::get_if<ReachTooShort>(&kept))
        return Diagnostics{refusal_of(job, lobes[why->lobe], *reach, *why)};
    return {std::get<Toolpath>(std::move(kept)), std::move(remarks)};
}

/// A wheel's path, with its stops for dressing; warnings about its wear.
Outcome<Toolpath> ground_path(const Job& job, const std::vector<SolvedLobe>& lobes, const Setup& setup,
                              const std::vector<PlannedLobe>& planned) {
    double lean = 0.0;
    for (const PlannedLobe& lobe : planned)
        lean = std::max(lean, lobe.planner.steepest_lean());
    Diagnostics warnings = wear_warnings(job, lean, static_cast<int>(planned.size()));
    const Outcome<Toolpath> reached = within_reach(job, lobes, setup, path_by_lobe(setup, planned));
    append(warnings, reached.diagnostics());
    if (!reached) return warnings;
    Toolpath path = *reached;
    add_dressings(path, setup);
    return {std::move(path), std::move(warnings)};
}

}  // namespace
}  // namespace toolpath

Outcome<Toolpath> plan_toolpath(const Job& job, const std::vector<SolvedLobe>& lobes, const WordGrid& grid) {
    using namespace toolpath;
    Diagnostics found = faults_of(job, lobes);
    if (!found.empty()) return found;
    const Setup setup = set_up(job, grid);
    std::deque<Setup> setups;
    std::vector<LobePlanner> planners;
    double passes = 0.0;
    const std::vector<std::size_t> order = in_shaft_order(lobes);
    for (const std::size_t index : order) {
        setups.push_back(with_worn_wheel(setup, static_cast<int>(setups.size())));
        auto planner = lobe_planner(setups.back(), lobes, index);
        if (const CannotCut* why = why_not(planner)) {
            found.push_back(refusal_of(job, lobes, index, *why));
            continue;
        }
        planners.push_back(std::get<LobePlanner>(std::move(planner)));
        passes += planners.back().passes();
        if (passes > most_passes) return refusal_of_passes(job);
    }
    if (!found.empty()) return found;
    std::vector<PlannedLobe> planned;
    for (LobePlanner& planner : planners) {
        auto plans = planner.plans();
        if (const CannotCut* why = why_not(plans))
            return Diagnostics{refusal_of(job, lobes, order[planned.size()], *why)};
        auto& possible = std::get<std::vector<LobePlan>>(plans);
        if (possible.empty()) return refusal_of_grid(job, grid);
        planned.push_back({std::move(planner), std::move(possible)});
    }
    if (is_wheel(setup.cutter)) return ground_path(job, lobes, setup, planned);
    if (setup.cut.order == CutOrder::by_lobe)
        return within_reach(job, lobes, setup, path_by_lobe(setup, planned));
    auto path = path_by_stage(setup, planned);
    if (!path) return refusal_of_grid(job, grid);
    return within_reach(job, lobes, setup, std::move(*path));
}

}  // namespace lobewright
