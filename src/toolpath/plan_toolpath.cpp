#include "toolpath/lobe_plans.h"
#include "toolpath/refusal.h"

#include <lobewright/toolpath.h>

#include <algorithm>
#include <iterator>

namespace lobewright {
namespace toolpath {
namespace {

Diagnostic grid_too_coarse(const Setup& setup) {
    const Job& job = setup.job;
    return refusal(job, "cut.tolerance", "tolerance-too-fine",
                   "a tolerance of " + own_figure(job.cut->tolerance, job.units) +
                       " is too fine for the words of this post, which step by " +
                       own_figure(setup.grid.radial_step, job.units) + " of radius",
                   "use a coarser tolerance, or a post with more decimals");
}

std::vector<std::size_t> in_shaft_order(const std::vector<SolvedLobe>& lobes) {
    std::vector<std::size_t> order(lobes.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return lobes[a].z < lobes[b].z; });
    return order;
}

}  // namespace
}  // namespace toolpath

Outcome<Toolpath> plan_toolpath(const Job& job, const std::vector<SolvedLobe>& lobes, const WordGrid& grid) {
    using namespace toolpath;
    const Outcome<Setup> checked = set_up(job, lobes, grid);
    if (!checked) return checked.diagnostics();
    const Setup& setup = *checked;
    Diagnostics found;
    std::vector<std::vector<PathPart>> parts;
    for (const std::size_t index : in_shaft_order(lobes)) {
        Outcome<std::vector<PathPart>> plans = lobe_plans(setup, lobes, index);
        std::copy(plans.diagnostics().begin(), plans.diagnostics().end(), std::back_inserter(found));
        if (!found.empty()) continue;
        if (plans->empty()) return grid_too_coarse(setup);
        parts.push_back(std::move(*plans));
    }
    if (has_errors(found)) return found;
    return fastest_path(setup, parts);
}

}  // namespace lobewright
