#include "toolpath/lobe_plans.h"

#include "toolpath/neighbours/neighbours.h"
#include "toolpath/path/helix.h"
#include "toolpath/path/pass.h"
#include "toolpath/roughing/roughing.h"
#include "toolpath/section/axial_steps.h"
#include "toolpath/section/dished_end.h"
#include "toolpath/section/reach.h"

#include <algorithm>
#include <limits>
#include <variant>

namespace lobewright::toolpath {
namespace {

/// Shares of the tolerance that axial steps may use. Where one place covers the lobe but for next to nothing
/// the path gets the rest. Steps cost whole passes and are mostly worth more blocks in each: of these shares
/// the one is taken that makes all passes together the quickest.
constexpr double one_place_share = 0.25;
constexpr double steps_shares[] = {0.4, 0.6, 0.75, 0.85};
/// What a hollow end's crown, and the ridges that roughing leaves at least, may use.
constexpr double steps_share = 0.6;

/// The tunnel's own loss by its nodes' spacing, of the margin.
constexpr double sag_share = 0.01;

/// What all plans for a lobe have in common.
struct Finishing {
    Setup setup;                       // with the section that touches this lobe
    std::vector<CutterContact> nodes;  // of the finish pass, frame of the lobe
    AxialSteps steps;
};

std::vector<CutterContact> finish_contacts(const Setup& setup, const SolvedLobe& lobe) {
    return contacts(lobe.contour, setup.section, setup.cut.allowance, {sag_share * setup.cut.tolerance});
}

/// From over the lobe's middle, with the slope of the hollow end.
Possible<Finishing> plan_with_dish(const Setup& setup, const SolvedLobe& lobe) {
    const Possible<DishedEnd> found = dished_end(setup, lobe, steps_share * setup.cut.tolerance);
    if (const CannotCut* why = why_not(found)) return *why;
    const auto& end = std::get<DishedEnd>(found);
    Setup inclined = with_section(setup, end.section);
    const std::vector<CutterContact> nodes = finish_contacts(inclined, lobe);
    if (const auto hindered = unreached(inclined, lobe, nodes)) return *hindered;
    return Finishing{std::move(inclined), nodes, {{lobe.z}, end.proud}};
}

/// Of the finish passes over all places, if there is a path at all.
double seconds_of(const Setup& setup, const SolvedLobe& lobe, const std::vector<CutterContact>& nodes,
                  const AxialSteps& steps) {
    constexpr double never = std::numeric_limits<double>::infinity();
    const Cut& cut = setup.cut;
    Pass pass;
    pass.axial = steps.places.front();
    const PassOrder order{
        pass, {cut.tolerance - steps.proud, cut.tolerance}, cut.surface_feed, 0.0, cut.spring_passes};
    PathBuilder path(setup);
    const RadialFunction function(along_travel(nodes, lobe.at, setup.facing_sign));
    if (!cut_round(path, setup, function, order)) return never;
    return static_cast<double>(steps.places.size()) * path.finish().seconds;
}

/// The steps with the share of the tolerance that makes the finish passes the quickest.
Possible<AxialSteps> quickest_steps(const Setup& setup, const SolvedLobe& lobe,
                                    const std::vector<CutterContact>& nodes) {
    Possible<AxialSteps> best = axial_steps(setup, lobe, nodes, one_place_share * setup.cut.tolerance);
    const auto* first = std::get_if<AxialSteps>(&best);
    if (first != nullptr && (first->places.size() == 1 || first->proud == 0.0)) return best;
    double least =
        first != nullptr ? seconds_of(setup, lobe, nodes, *first) : std::numeric_limits<double>::infinity();
    std::size_t last = first != nullptr ? first->places.size() : 0;
    for (const double share : steps_shares) {
        Possible<AxialSteps> found = axial_steps(setup, lobe, nodes, share * setup.cut.tolerance);
        const auto* steps = std::get_if<AxialSteps>(&found);
        if (steps != nullptr && steps->places.size() == last) continue;
        if (steps != nullptr) last = steps->places.size();
        const double seconds = steps != nullptr ? seconds_of(setup, lobe, nodes, *steps) : least;
        if (why_not(best) != nullptr || seconds < least) best = std::move(found), least = seconds;
    }
    return best;
}

Possible<Finishing> plan_square(const Setup& setup, const SolvedLobe& lobe,
                                std::vector<CutterContact> nodes) {
    Possible<AxialSteps> found = quickest_steps(setup, lobe, nodes);
    if (const CannotCut* why = why_not(found)) return *why;
    return Finishing{setup, std::move(nodes), std::get<AxialSteps>(std::move(found))};
}

Possible<Finishing> plan_finishing(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                   std::size_t index) {
    const SolvedLobe& lobe = lobes[index];
    if (const auto too_large = shift_too_large(setup, lobe)) return *too_large;
    std::vector<CutterContact> nodes = finish_contacts(setup, lobe);
    if (const auto hindered = unreached(setup, lobe, nodes)) return *hindered;
    Possible<Finishing> found =
        has_dished_end(setup) ? plan_with_dish(setup, lobe) : plan_square(setup, lobe, std::move(nodes));
    if (why_not(found) != nullptr) return found;
    const auto& finishing = std::get<Finishing>(found);
    if (const auto slow = helix_too_slow(finishing.setup, finishing.nodes, finishing.steps)) return *slow;
    const auto hit =
        neighbour_in_the_way(finishing.setup, lobes, {index, finishing.steps.places, finishing.nodes});
    if (hit) return *hit;
    return found;
}

class LobePlanner {
  public:
    LobePlanner(const SolvedLobe& lobe, std::size_t index, const Finishing& finishing)
        : setup_(finishing.setup),
          cut_(finishing.setup.cut),
          lobe_(lobe),
          index_(index),
          finishing_(finishing),
          total_(finishing.setup.blank_radius - lobe.base_radius - cut_.allowance),
          finish_(travelled(finishing.nodes)) {}

    std::vector<PathPart> plans() const {
        std::vector<PathPart> plans;
        if (!cut_.rough_depth) {
            if (auto plan = cut({}, finishing_.steps, total_)) plans.push_back(std::move(*plan));
            return plans;
        }
        const double turn = rapid_seconds(0.0, 0.0, 360.0, setup_.machine.limits);
        double fastest = std::numeric_limits<double>::infinity();
        std::vector<std::pair<double, std::size_t>> seen;  // depths, and how many places they took
        bool slower[2] = {false, false};  // without and with a semi-finish pass: more rings are slower still
        for (const Roughing& roughing : allowed_roughings(total_, cut_.tolerance, *cut_.rough_depth)) {
            if (slower[roughing.semi_finish ? 1 : 0]) continue;
            const std::vector<Ring> over = rings(roughing, cut_.allowance, cut_.tolerance);
            std::size_t places = 1;
            for (const auto& [depth, took] : seen) {
                if (depth >= roughing.depth) places = std::max(places, took);
            }
            const double limit = fastest + 2.0 * turn;  // wherever it begins and ends
            slower[roughing.semi_finish ? 1 : 0] = at_least(over, places) > limit;
            if (slower[roughing.semi_finish ? 1 : 0]) continue;
            const AxialSteps steps = rough_steps(roughing);
            seen.emplace_back(roughing.depth, steps.places.size());
            if (at_least(over, steps.places.size()) > limit) continue;
            const double proud = over.empty() ? 0.0 : over.back().margins.proud + steps.proud;
            if (auto plan = cut(over, steps, roughing.left + proud)) {
                fastest = std::min(fastest, plan->seconds);
                plans.push_back(std::move(*plan));
            }
        }
        return plans;
    }

  private:
    [[nodiscard]] RadialFunction travelled(const std::vector<CutterContact>& nodes) const {
        return RadialFunction(along_travel(nodes, lobe_.at, setup_.facing_sign));
    }

    /// Roughing goes in coarse steps: between its places along the shaft it leaves ridges as high as half of
    /// what the finish pass finds elsewhere, as far as that with it takes no more than a ring's depth.
    [[nodiscard]] AxialSteps rough_steps(const Roughing& roughing) const {
        if (finishing_.steps.places.size() == 1) return finishing_.steps;
        const double ridge = 0.5 * std::min(roughing.left, roughing.depth - roughing.left);
        const double share = std::max(steps_share * cut_.tolerance, ridge);
        const Possible<AxialSteps> wider = axial_steps(setup_, lobe_, finishing_.nodes, share);
        return why_not(wider) == nullptr ? std::get<AxialSteps>(wider) : finishing_.steps;
    }

    [[nodiscard]] double at_least(const std::vector<Ring>& over, std::size_t places) const {
        const Ring finish{PassKind::finish, 0, cut_.allowance, {}, 0.0};
        const double once = least_seconds(setup_, finishing_.nodes, {finish});
        return static_cast<double>(places) * least_seconds(setup_, finishing_.nodes, over) +
               static_cast<double>(finishing_.steps.places.size()) * (1 + cut_.spring_passes) * once;
    }

    /// Roughs every place along the shaft to its last ring before the next; then semi-finishes and finishes,
    /// each over the whole width. Nothing where the grid is too coarse.
    [[nodiscard]] std::optional<PathPart> cut(const std::vector<Ring>& over, const AxialSteps& steps,
                                              double finish_stock) const {
        PathBuilder path(setup_);
        std::vector<RadialFunction> functions;
        for (const Ring& ring : over) {
            const Spacing spacing{sag_share * ring.margins.proud};
            functions.push_back(
                travelled(bridged(contacts(lobe_.contour, setup_.section, ring.left_on, spacing))));
        }
        const std::size_t rough = over.size() - (!over.empty() && over.back().number == 0 ? 1 : 0);
        for (const double place : steps.places) {
            for (std::size_t i = 0; i < rough; ++i) {
                if (!cut_sectors(path, setup_, functions[i], order(over[i], place))) return std::nullopt;
            }
        }
        for (const double place : steps.places) {
            for (std::size_t i = rough; i < over.size(); ++i) {
                if (!cut_round(path, setup_, functions[i], order(over[i], place))) return std::nullopt;
            }
        }
        const Margins margins{cut_.tolerance - finishing_.steps.proud, cut_.tolerance};
        const Ring finish{PassKind::finish, 0, cut_.allowance, margins, finish_stock};
        if (goes_in_helix()) {
            if (!cut_helix(path, finish)) return std::nullopt;
            return path.finish();
        }
        for (const double place : finishing_.steps.places) {
            PassOrder last = order(finish, place);
            last.repeats = cut_.spring_passes;
            if (!cut_round(path, setup_, finish_, last)) return std::nullopt;
        }
        return path.finish();
    }

    [[nodiscard]] bool goes_in_helix() const {
        return cut_.along == CutAlong::helix && finishing_.steps.places.size() > 1;
    }

    /// Along the lobe, and once more for each spring pass.
    bool cut_helix(PathBuilder& path, const Ring& finish) const {
        PassOrder along = order(finish, finishing_.steps.places.front());
        along.helix = helix_over(setup_, finishing_.steps);
        along.pass.slides_to = along.helix->to;
        for (int i = 0; i <= cut_.spring_passes; ++i) {
            if (!cut_round(path, setup_, finish_, along)) return false;
            along.pass.kind = PassKind::spring;
        }
        return true;
    }

    [[nodiscard]] PassOrder order(const Ring& ring, double place) const {
        Pass pass;
        pass.lobe = index_;
        pass.kind = ring.kind;
        pass.ring = ring.number;
        pass.axial = place;
        pass.left_on = ring.left_on;
        return {pass, ring.margins, feed_of(cut_, ring.kind), ring.stock};
    }

    const Setup& setup_;
    const Cut& cut_;
    const SolvedLobe& lobe_;
    std::size_t index_;
    const Finishing& finishing_;
    double total_;  // mm to take off on the heel
    RadialFunction finish_;
};

}  // namespace

Possible<std::vector<PathPart>> lobe_plans(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                           std::size_t index) {
    const Possible<Finishing> finishing = plan_finishing(setup, lobes, index);
    if (const CannotCut* why = why_not(finishing)) return *why;
    return LobePlanner(lobes[index], index, std::get<Finishing>(finishing)).plans();
}

}  // namespace lobewright::toolpath
