#include "toolpath/axial_steps.h"
#include "toolpath/neighbours.h"
#include "toolpath/pass.h"
#include "toolpath/reach.h"
#include "toolpath/refusal.h"
#include "toolpath/roughing.h"

#include <lobewright/toolpath.h>

#include <algorithm>
#include <iterator>

namespace lobewright {
namespace toolpath {
namespace {

/// Shares of the tolerance that axial steps may use: where one place covers the lobe but for next to nothing,
/// the path gets the rest; steps cost whole passes, and are worth more blocks in each.
constexpr double one_place_share = 0.25;
constexpr double steps_share = 0.6;

/// The tunnel's own loss by its nodes' spacing, of the margin.
constexpr double sag_share = 0.01;

std::vector<Contact> finish_contacts(const Setup& setup, const SolvedLobe& lobe) {
    return contacts(lobe.contour, setup.section, setup.job.cut->allowance,
                    {sag_share * setup.job.cut->tolerance});
}

RadialFunction travelled(const Setup& setup, const SolvedLobe& lobe, const std::vector<Contact>& nodes) {
    return RadialFunction(along_travel(nodes, lobe.at.radians(), setup.way));
}

/// A lobe's passes: what each ring leaves, its radial function, and where along the shaft it is cut.
struct Work {
    Ring ring;
    RadialFunction function;
};
struct LobePlan {
    std::vector<Work> works;
    std::vector<double> rough_places;
    std::vector<double> finish_places;
};

bool is_rough(PassKind kind) {
    return kind == PassKind::roughing || kind == PassKind::semi_finish;
}

Outcome<LobePlan> plan_lobe(const Setup& setup, const std::vector<SolvedLobe>& lobes, std::size_t index) {
    const SolvedLobe& lobe = lobes[index];
    const Cut& cut = *setup.job.cut;
    if (const auto refused = refuse_shift(setup, lobe)) return *refused;
    const std::vector<Contact> nodes = finish_contacts(setup, lobe);
    if (const auto refused = refuse_reach(setup, lobe, nodes)) return *refused;
    Outcome<AxialSteps> fine = axial_steps(setup, lobe, nodes, one_place_share * cut.tolerance);
    if (!fine || fine->places.size() > 1) fine = axial_steps(setup, lobe, nodes, steps_share * cut.tolerance);
    if (!fine) return fine.diagnostics();
    if (const auto refused = refuse_neighbours(setup, lobes, {index, fine->places, nodes})) return *refused;
    AxialSteps rough = *fine;
    if (cut.rough_depth && fine->places.size() > 1) {
        const double share = std::max(steps_share * cut.tolerance, 0.5 * setup.rough_margin);
        const Outcome<AxialSteps> wider = axial_steps(setup, lobe, nodes, share);
        if (!wider) return wider.diagnostics();
        rough = *wider;
    }
    LobePlan plan{{}, rough.places, fine->places};
    for (Ring& ring : rings(setup, lobe.base_radius, {cut.tolerance - fine->proud, cut.tolerance})) {
        if (is_rough(ring.kind)) {
            const Spacing spacing{sag_share * ring.margins.proud};
            const auto curve = bridged(contacts(lobe.contour, setup.section, ring.left_on, spacing));
            plan.works.push_back({ring, travelled(setup, lobe, curve)});
        } else {
            if (!plan.works.empty()) ring.stock += rough.proud;
            plan.works.push_back({ring, travelled(setup, lobe, nodes)});
        }
    }
    return plan;
}

bool cut_work(PathBuilder& path, const Setup& setup, const Work& work, std::size_t lobe, double place) {
    const Cut& cut = *setup.job.cut;
    Pass pass;
    pass.lobe = lobe;
    pass.kind = work.ring.kind;
    pass.ring = work.ring.number;
    pass.axial = place;
    pass.left_on = work.ring.left_on;
    const double feed =
        is_rough(pass.kind) ? cut.rough_surface_feed.value_or(cut.surface_feed) : cut.surface_feed;
    const PassOrder order{pass, work.ring.margins, feed, work.ring.stock};
    return pass.kind == PassKind::roughing ? cut_sectors(path, setup, work.function, order)
                                           : cut_round(path, setup, work.function, order);
}

/// Roughs every place along the shaft to its last ring before the next; then semi-finishes, finishes and
/// repeats, each over the whole width.
bool cut_lobe(PathBuilder& path, const Setup& setup, const LobePlan& plan, std::size_t lobe) {
    for (const double place : plan.rough_places) {
        for (const Work& work : plan.works) {
            if (work.ring.kind == PassKind::roughing && !cut_work(path, setup, work, lobe, place))
                return false;
        }
    }
    for (const Work& work : plan.works) {
        if (work.ring.kind == PassKind::roughing) continue;
        for (const double place : is_rough(work.ring.kind) ? plan.rough_places : plan.finish_places) {
            if (!cut_work(path, setup, work, lobe, place)) return false;
        }
    }
    return true;
}

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
    PathBuilder path(setup);
    for (const std::size_t index : in_shaft_order(lobes)) {
        const Outcome<LobePlan> plan = plan_lobe(setup, lobes, index);
        std::copy(plan.diagnostics().begin(), plan.diagnostics().end(), std::back_inserter(found));
        if (!found.empty()) continue;
        if (!cut_lobe(path, setup, *plan, index)) return grid_too_coarse(setup);
    }
    if (has_errors(found)) return found;
    return path.finish();
}

}  // namespace lobewright
