#include "toolpath/lobe_planner.h"

#include "toolpath/neighbours/neighbours.h"
#include "toolpath/path/helix.h"
#include "toolpath/path/pass.h"
#include "toolpath/path/pass_contour.h"
#include "toolpath/roughing/stock_sectors.h"
#include "toolpath/section/dished_end.h"
#include "toolpath/section/reach.h"

#include <lobewright/cutting_data.h>

#include <algorithm>
#include <cmath>
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

/// mm: that of the nodes which say where the finish pass may start. If these were its own, whatever the
/// tolerance, a looser one might let it miss the place by a hair, and wait for a whole turn.
constexpr double heel_tolerance = 0.002;

std::vector<CutterContact> finish_contacts(const Setup& setup, const SolvedLobe& lobe, double tolerance) {
    return contacts(lobe.contour, setup.section, setup.cut.allowance, {sag_share * tolerance});
}

/// From over the lobe's middle, with the slope of the hollow end.
Possible<Finishing> plan_with_dish(const Setup& setup, const SolvedLobe& lobe) {
    const Possible<DishedEnd> found = dished_end(setup, lobe, steps_share * setup.cut.tolerance);
    if (const CannotCut* why = why_not(found)) return *why;
    const auto& end = std::get<DishedEnd>(found);
    Setup inclined = with_section(setup, end.section);
    const std::vector<CutterContact> nodes = finish_contacts(inclined, lobe, setup.cut.tolerance);
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
    std::vector<CutterContact> nodes = finish_contacts(setup, lobe, setup.cut.tolerance);
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

}  // namespace

std::size_t LobeChoice::roughing() const {
    return static_cast<std::size_t>(std::count_if(
        rings.begin(), rings.end(), [](const Ring& ring) { return ring.kind == PassKind::roughing; }));
}

LobePlanner::LobePlanner(const std::vector<SolvedLobe>& lobes, std::size_t index, Finishing finishing)
    : lobes_(&lobes),
      index_(index),
      finishing_(std::move(finishing)),
      standing_(standing_over(setup(), lobes[index])),
      total_(std::min(setup().blank_radius - lobes[index].base_radius,
                      standing_.value_or(setup().blank_radius)) -
             setup().cut.allowance),
      finish_(travelled(finishing_.nodes)),
      heels_(widest_heels(setup().cut.tolerance == heel_tolerance
                              ? finish_
                              : travelled(finish_contacts(setup(), lobes[index], heel_tolerance)))) {}

/// mm that one of its passes takes at most, where the path goes as deep as it may.
double LobePlanner::takes_at_once(const LobeChoice& choice) const {
    double most = choice.finish_stock + setup().cut.tolerance;
    for (const Ring& ring : choice.rings)
        most = std::max(most, ring.stock);
    return most;
}

Possible<std::vector<LobePlan>> LobePlanner::plans() const {
    const Cut& cut = setup().cut;
    std::vector<LobePlan> plans;
    if (!cut.rough_depth) {
        LobeChoice alone = finish_alone();
        const double depth = finish_depth_of(cut);
        if (takes_at_once(alone) > most_by_finish_depth * depth)
            return CannotCut{DepthTooFine{false, depth, least_finish_depth_by_tolerance * cut.tolerance}};
        if (auto only = plan(std::move(alone))) plans.push_back(std::move(*only));
        return plans;
    }
    if (ground()) return ground_plans();
    // Wherever it begins and ends, and each stage of it.
    const double turns = (by_stage() ? 4.0 : 2.0) * rapid_seconds(0.0, 0.0, 360.0, setup().machine.limits);
    double fastest = std::numeric_limits<double>::infinity();
    std::vector<std::pair<double, std::size_t>> seen;  // depths, and how many places they took
    bool slower[2] = {false, false};  // without and with a semi-finish pass: more rings are slower still
    std::optional<Clash> clash;
    bool too_fine = false;
    const double laid_out_by = std::min(cut.tolerance, loosest_of_rings);
    for (const Roughing& roughing : allowed_roughings(total_, laid_out_by, *cut.rough_depth)) {
        bool& slow = slower[roughing.semi_finish ? 1 : 0];
        if (slow) continue;
        LobeChoice choice{rings(roughing, cut.allowance, laid_out_by), {}, roughing.depth, 0.0};
        std::size_t places = 1;
        for (const auto& [depth, took] : seen) {
            if (depth >= roughing.depth) places = std::max(places, took);
        }
        slow = at_least(choice.rings, places) > fastest + turns;
        if (slow) continue;
        choice.rough_steps = rough_steps(roughing);
        seen.emplace_back(roughing.depth, choice.rough_steps.places.size());
        if (at_least(choice.rings, choice.rough_steps.places.size()) > fastest + turns) continue;
        const double proud =
            choice.rings.empty() ? 0.0 : choice.rings.back().margins.proud + choice.rough_steps.proud;
        choice.finish_stock = roughing.left + proud;
        if (takes_at_once(choice) > most_by_depth * *cut.rough_depth) {
            too_fine = true;
        } else if (const auto hit = clash_with_roughed(choice)) {
            clash = hit;
        } else if (auto possible = plan(std::move(choice))) {
            fastest = std::min(fastest, possible->seconds());
            plans.push_back(std::move(*possible));
        }
    }
    if (plans.empty() && clash) return CannotCut{RoughedNeighbour{*clash}};
    if (plans.empty() && too_fine)
        return CannotCut{DepthTooFine{true, *cut.rough_depth, least_depth_by_tolerance * cut.tolerance}};
    return plans;
}

/// A lobe that stands already takes as many passes as its depth needs.
LobeChoice LobePlanner::finish_alone() const {
    const Cut& cut = setup().cut;
    if (!standing_) return {{}, finishing_.steps, 0.0, total_};
    std::vector<Ring> over = even_passes(total_, finish_depth_of(cut), cut.allowance, cut.tolerance);
    const double finds =
        over.empty() ? total_ : over.back().left_on + over.back().margins.proud - cut.allowance;
    return {std::move(over), finishing_.steps, 0.0, finds};
}

double LobePlanner::passes() const {
    const Cut& cut = setup().cut;
    const double roughing = cut.rough_depth ? std::ceil(total_ / *cut.rough_depth) : 0.0;
    return static_cast<double>(finishing_.steps.places.size()) * (1.0 + cut.spring_passes + roughing);
}

double LobePlanner::steepest_lean() const {
    double most = 0.0;
    for (const CutterContact& contact : finishing_.nodes)
        most = std::max(most, std::abs(contact.lean.radians()));
    return most;
}

/// A wheel goes down to size in one.
bool LobePlanner::by_stage() const {
    return setup().cut.order == CutOrder::by_stage && !is_wheel(setup().cutter);
}

bool LobePlanner::ground() const {
    return is_wheel(setup().cutter) && setup().cut.rough_depth.has_value();
}

Possible<std::vector<LobePlan>> LobePlanner::ground_plans() const {
    const double step = setup().grid.radial_step, tolerance = setup().cut.tolerance;
    const double depth = *setup().cut.rough_depth;
    const auto way = infeed_of(total_, depth, tolerance, step);
    if (!way) return CannotCut{DepthTooFine{true, depth, least_infeed_depth(tolerance, step), step}};
    PathBuilder path(setup());
    if (!infeed(path, *way)) return std::vector<LobePlan>{};
    return std::vector<LobePlan>{LobePlan{{}, path.finish(), 0.0}};
}

/// In each place along the shaft: down to size, one turn at size, and the spark-out turns.
bool LobePlanner::infeed(PathBuilder& path, const Infeed& way) const {
    const Cut& cut = setup().cut;
    std::vector<RadialFunction> turns;
    for (int k = 0; k < way.turns; ++k) {
        const double over = total_ - k * way.depth;
        turns.push_back(function_of({PassKind::infeed, 0, cut.allowance + over, {way.proud, 0.0}, 0.0}));
    }
    turns.push_back(finish_);
    const Margins margins{cut.tolerance - finishing_.steps.proud, cut.tolerance};
    for (const double place : finishing_.steps.places) {
        PassOrder down = order({PassKind::infeed, 0, cut.allowance, {way.proud, 0.0}, way.depth}, place);
        down.pass.turns = way.turns;
        PassOrder last = order({PassKind::finish, 0, cut.allowance, margins, way.depth}, place);
        last.repeats = cut.spring_passes;
        if (!cut_infeed(path, setup(), turns, down, last)) return false;
    }
    return true;
}

RadialFunction LobePlanner::travelled(const std::vector<CutterContact>& nodes) const {
    return RadialFunction(along_travel(nodes, (*lobes_)[index_].at, setup().facing_sign));
}

/// Roughing goes in coarse steps: between its places along the shaft it leaves ridges as high as half of what
/// the finish pass finds elsewhere, as far as that with it takes no more than a ring's depth.
AxialSteps LobePlanner::rough_steps(const Roughing& roughing) const {
    if (finishing_.steps.places.size() == 1) return finishing_.steps;
    const double ridge = 0.5 * std::min(roughing.left, roughing.depth - roughing.left);
    const double share = std::max(steps_share * setup().cut.tolerance, ridge);
    const Possible<AxialSteps> wider = axial_steps(setup(), (*lobes_)[index_], finishing_.nodes, share);
    return why_not(wider) == nullptr ? std::get<AxialSteps>(wider) : finishing_.steps;
}

double LobePlanner::at_least(const std::vector<Ring>& over, std::size_t places) const {
    const Ring finish{PassKind::finish, 0, setup().cut.allowance, {}, 0.0};
    const double once = least_seconds(setup(), finishing_.nodes, {finish});
    return static_cast<double>(places) * least_seconds(setup(), finishing_.nodes, over) +
           static_cast<double>(finishing_.steps.places.size()) * (1 + setup().cut.spring_passes) * once;
}

/// Stage by stage, the lobes before this one stand roughed while it is roughed: neck, shank and holder must
/// go clear of what that leaves on them. (Where the edge lies over it, it goes no deeper than the finished
/// lobe allows, which is seen to.)
std::optional<Clash> LobePlanner::clash_with_roughed(const LobeChoice& choice) const {
    if (!by_stage() || choice.roughing() == 0) return std::nullopt;
    const Ring& last = choice.rings[choice.roughing() - 1];
    Setup roughed = setup();
    roughed.cut.allowance = last.left_on + last.margins.proud + choice.rough_steps.proud;
    const auto nodes =
        contacts((*lobes_)[index_].contour, setup().section, last.left_on, {sag_share * last.margins.proud});
    return find_clash(roughed, *lobes_, {index_, choice.rough_steps.places, nodes, false});
}

RadialFunction LobePlanner::function_of(const Ring& ring) const {
    const Spacing spacing{sag_share * ring.margins.proud};
    return travelled(bridged(contacts((*lobes_)[index_].contour, setup().section, ring.left_on, spacing)));
}

/// A lobe that stands has the same stock all round: a ring of it is come to on the heel, as a finish pass is.
/// Where the bar ends below the ring it goes by sectors, as on the bar.
bool LobePlanner::rough_over(PathBuilder& path, const RadialFunction& function,
                             const PassOrder& order) const {
    if (standing_) {
        const std::vector<StockSector> sectors = sectors_in_stock(setup(), function, order.narrowest);
        if (sectors.size() == 1 && sectors.front().whole) return cut_round(path, setup(), function, order);
    }
    return cut_sectors(path, setup(), function, order);
}

/// Roughs every place along the shaft to its last ring before the next.
bool LobePlanner::rough(PathBuilder& path, const LobeChoice& choice) const {
    std::vector<RadialFunction> functions;
    for (std::size_t i = 0; i < choice.roughing(); ++i)
        functions.push_back(function_of(choice.rings[i]));
    std::vector<KnownContours> known(functions.size());
    const double narrowest = narrowest_flat(setup(), (*lobes_)[index_], choice.rough_steps.places);
    for (const double place : choice.rough_steps.places) {
        for (std::size_t i = 0; i < functions.size(); ++i) {
            PassOrder ring = order(choice.rings[i], place);
            ring.known = &known[i];
            ring.narrowest = narrowest;
            if (!rough_over(path, functions[i], ring)) return false;
        }
    }
    return true;
}

bool LobePlanner::finish(PathBuilder& path, const LobeChoice& choice) const {
    const Cut& cut = setup().cut;
    for (std::size_t i = choice.roughing(); i < choice.rings.size(); ++i) {
        const RadialFunction function = function_of(choice.rings[i]);
        KnownContours known;
        for (const double place : choice.rough_steps.places) {
            PassOrder ring = order(choice.rings[i], place);
            ring.known = &known;
            if (!cut_round(path, setup(), function, ring)) return false;
        }
    }
    const Margins margins{cut.tolerance - finishing_.steps.proud, cut.tolerance};
    const Ring finish{PassKind::finish, 0, cut.allowance, margins, choice.finish_stock};
    if (goes_in_helix()) return cut_helix(path, finish);
    KnownContours known;
    for (const double place : finishing_.steps.places) {
        PassOrder last = order(finish, place);
        last.repeats = cut.spring_passes;
        last.known = &known;
        if (!cut_round(path, setup(), finish_, last)) return false;
    }
    return true;
}

bool LobePlanner::goes_in_helix() const {
    return setup().cut.along == CutAlong::helix && finishing_.steps.places.size() > 1;
}

/// Along the lobe, and once more for each spring pass.
bool LobePlanner::cut_helix(PathBuilder& path, const Ring& finish) const {
    PassOrder along = order(finish, finishing_.steps.places.front());
    along.helix = helix_over(setup(), finishing_.steps);
    along.pass.slides_to = along.helix->to;
    for (int i = 0; i <= setup().cut.spring_passes; ++i) {
        if (!cut_round(path, setup(), finish_, along)) return false;
        along.pass.kind = PassKind::spring;
        along.pass.depth = 0.0;
    }
    return true;
}

std::optional<LobePlan> LobePlanner::plan(LobeChoice choice) const {
    PathBuilder path(setup());
    if (!rough(path, choice)) return std::nullopt;
    if (!by_stage()) {
        if (!finish(path, choice)) return std::nullopt;
        return LobePlan{std::move(choice), path.finish(), 0.0};
    }
    PathBuilder finished(setup());
    if (!finish(finished, choice)) return std::nullopt;
    const double finishing = finished.finish().seconds;
    return LobePlan{std::move(choice), path.finish(), finishing};
}

PassOrder LobePlanner::order(const Ring& ring, double place) const {
    Pass pass;
    pass.lobe = index_;
    pass.kind = ring.kind;
    pass.ring = ring.number;
    pass.axial = place;
    pass.left_on = ring.left_on;
    pass.depth = ring.stock;
    pass.feed = feed_of(setup().cut, ring.kind);
    pass.worn = setup().worn;
    PassOrder order{pass, ring.margins, pass.feed, ring.stock};
    if (ring.kind == PassKind::finish) order.heels = heels_;
    return order;
}

Possible<LobePlanner> lobe_planner(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                   std::size_t index) {
    Possible<Finishing> finishing = plan_finishing(setup, lobes, index);
    if (const CannotCut* why = why_not(finishing)) return *why;
    return LobePlanner(lobes, index, std::move(std::get<Finishing>(finishing)));
}

}  // namespace lobewright::toolpath
