#include "toolpath/lobe_plans.h"

#include "toolpath/neighbours/neighbours.h"
#include "toolpath/path/pass.h"
#include "toolpath/roughing/roughing.h"
#include "toolpath/roughing/stock_sectors.h"
#include "toolpath/section/axial_steps.h"
#include "toolpath/section/reach.h"

#include <algorithm>
#include <limits>
#include <variant>

namespace lobewright::toolpath {
namespace {

/// Shares of the tolerance that axial steps may use: where one place covers the lobe but for next to nothing,
/// the path gets the rest; steps cost whole passes, and are worth more blocks in each.
constexpr double one_place_share = 0.25;
constexpr double steps_share = 0.6;

/// The tunnel's own loss by its nodes' spacing, of the margin.
constexpr double sag_share = 0.01;

/// What all plans for a lobe have in common.
struct Finishing {
    std::vector<CutterContact> nodes;  // of the finish pass, frame of the lobe
    AxialSteps steps;
};

Possible<Finishing> plan_finishing(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                   std::size_t index) {
    const SolvedLobe& lobe = lobes[index];
    const Cut& cut = setup.cut;
    if (const auto too_large = shift_too_large(setup, lobe)) return *too_large;
    const std::vector<CutterContact> nodes =
        contacts(lobe.contour, setup.section, cut.allowance, {sag_share * cut.tolerance});
    if (const auto hindered = unreached(setup, lobe, nodes)) return *hindered;
    Possible<AxialSteps> found = axial_steps(setup, lobe, nodes, one_place_share * cut.tolerance);
    if (why_not(found) != nullptr || std::get<AxialSteps>(found).places.size() > 1)
        found = axial_steps(setup, lobe, nodes, steps_share * cut.tolerance);
    if (const CannotCut* why = why_not(found)) return *why;
    const auto& steps = std::get<AxialSteps>(found);
    if (const auto hit = neighbour_in_the_way(setup, lobes, {index, steps.places, nodes})) return *hit;
    return Finishing{nodes, steps};
}

class LobePlanner {
  public:
    LobePlanner(const Setup& setup, const SolvedLobe& lobe, std::size_t index, const Finishing& finishing)
        : setup_(setup),
          cut_(setup.cut),
          lobe_(lobe),
          index_(index),
          finishing_(finishing),
          standing_(standing_over(setup, lobe)),
          total_(std::min(setup.blank_radius - lobe.base_radius, standing_.value_or(setup.blank_radius)) -
                 cut_.allowance),
          finish_(travelled(finishing.nodes)) {}

    std::vector<PathPart> plans() const {
        std::vector<PathPart> plans;
        if (!cut_.rough_depth) {
            const std::vector<Ring> over =
                standing_ ? even_passes(total_, finish_depth_of(cut_), cut_.allowance, cut_.tolerance)
                          : std::vector<Ring>{};
            const double finds =
                over.empty() ? total_ : over.back().left_on + over.back().margins.proud - cut_.allowance;
            if (auto plan = cut(over, finishing_.steps, finds)) plans.push_back(std::move(*plan));
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

    /// Roughing leaves ridges between its places along the shaft as high as half of what a ring may leave.
    [[nodiscard]] AxialSteps rough_steps(const Roughing& roughing) const {
        if (finishing_.steps.places.size() == 1) return finishing_.steps;
        const double share = std::max(steps_share * cut_.tolerance, 0.5 * roughing.margin);
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
        const auto roughs = [](const Ring& ring) { return ring.kind == PassKind::roughing; };
        const auto rough = static_cast<std::size_t>(std::count_if(over.begin(), over.end(), roughs));
        for (const double place : steps.places) {
            for (std::size_t i = 0; i < rough; ++i) {
                if (!rough_over(path, functions[i], order(over[i], place))) return std::nullopt;
            }
        }
        for (const double place : steps.places) {
            for (std::size_t i = rough; i < over.size(); ++i) {
                if (!cut_round(path, setup_, functions[i], order(over[i], place))) return std::nullopt;
            }
        }
        const Margins margins{cut_.tolerance - finishing_.steps.proud, cut_.tolerance};
        const Ring finish{PassKind::finish, 0, cut_.allowance, margins, finish_stock};
        for (const double place : finishing_.steps.places) {
            PassOrder last = order(finish, place);
            last.repeats = cut_.spring_passes;
            if (!cut_round(path, setup_, finish_, last)) return std::nullopt;
        }
        return path.finish();
    }

    /// A lobe that stands has the same stock all round: a ring of it is come to on the heel, as a finish pass
    /// is. Where the bar ends below the ring it goes by sectors, as on the bar.
    bool rough_over(PathBuilder& path, const RadialFunction& function, const PassOrder& order) const {
        const std::vector<StockSector> sectors = sectors_in_stock(setup_, function);
        const bool round = standing_ && sectors.size() == 1 && sectors.front().whole;
        return round ? cut_round(path, setup_, function, order) : cut_sectors(path, setup_, function, order);
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
    std::optional<double> standing_;  // mm along the normal over the design, where the lobe stands already
    double total_;                    // mm to take off on the heel
    RadialFunction finish_;
};

}  // namespace

Possible<std::vector<PathPart>> lobe_plans(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                           std::size_t index) {
    const Possible<Finishing> finishing = plan_finishing(setup, lobes, index);
    if (const CannotCut* why = why_not(finishing)) return *why;
    return LobePlanner(setup, lobes[index], index, std::get<Finishing>(finishing)).plans();
}

}  // namespace lobewright::toolpath
