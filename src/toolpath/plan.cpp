#include "toolpath/pass.h"
#include "toolpath/refusal.h"
#include "toolpath/roughing.h"

#include <lobewright/toolpath.h>

#include <algorithm>

namespace lobewright {
namespace toolpath {
namespace {

/// The least distance of a contour from the axis.
double least_radius(const SolvedLobe& lobe) {
    return lobe.base_radius;
}

RadialFunction function_for(const Setup& setup, const SolvedLobe& lobe, const Ring& ring) {
    const double smallest = std::min(ring.margins.proud, ring.margins.deep > 0.0 ? ring.margins.deep : 1e9);
    const Spacing spacing{0.01 * smallest};
    const auto nodes = bridged(contacts(lobe.contour, setup.section, ring.left_on, spacing));
    return RadialFunction(along_travel(nodes, lobe.at.radians(), setup.way));
}

Diagnostic grid_too_coarse(const Setup& setup) {
    const Job& job = setup.job;
    return refusal(job, "cut.tolerance", "tolerance-too-fine",
                   "a tolerance of " + length_text(job.cut->tolerance, job.units) +
                       " is too fine for the words of this post, which step by " +
                       length_text(setup.grid.radial_step, job.units) + " of radius",
                   "use a coarser tolerance, or a post with more decimals");
}

}  // namespace
}  // namespace toolpath

Outcome<Toolpath> plan_toolpath(const Job& job, const std::vector<SolvedLobe>& lobes, const WordGrid& grid) {
    using namespace toolpath;
    const Outcome<Setup> checked = set_up(job, lobes, grid);
    if (!checked) return checked.diagnostics();
    const Setup& setup = *checked;

    std::vector<std::size_t> order(lobes.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return lobes[a].z < lobes[b].z; });

    PathBuilder path(setup, {});
    for (const std::size_t index : order) {
        const SolvedLobe& lobe = lobes[index];
        const Margins finish{job.cut->tolerance, job.cut->tolerance};
        for (const Ring& ring : rings(setup, least_radius(lobe), finish)) {
            const bool rough = ring.kind == PassKind::roughing || ring.kind == PassKind::semi_finish;
            const double feed =
                rough ? job.cut->rough_surface_feed.value_or(job.cut->surface_feed) : job.cut->surface_feed;
            Pass pass;
            pass.lobe = index;
            pass.kind = ring.kind;
            pass.ring = ring.number;
            pass.axial = lobe.z;
            pass.left_on = ring.left_on;
            const PassOrder work{pass, ring.margins, feed, ring.stock};
            const RadialFunction function = function_for(setup, lobe, ring);
            const bool done = ring.kind == PassKind::roughing ? cut_sectors(path, setup, function, work)
                                                              : cut_round(path, setup, function, work);
            if (!done) return grid_too_coarse(setup);
        }
    }
    return path.finish();
}

}  // namespace lobewright
