#include "base/whole_steps.h"
#include "plausibility/doubts.h"

#include <lobewright/number_text.h>
#include <lobewright/timing.h>
#include <lobewright/valve_train.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace lobewright::plausibility {
namespace {

// All limits of this file: common practice, no source.

/// Crank degrees for which a valve is open: mild stationary engines to dragsters.
constexpr Usual usual_duration{150.0, 350.0};
/// Crank degrees for which both valves are open round TDC.
constexpr Usual usual_overlap{-60.0, 120.0};
/// An inlet closes further from its dead centre than it opens, an exhaust opens further than it closes;
/// crank degrees by which a card may have it the other way round.
constexpr double other_way_round = 10.0;

/// A clearance's largest share of the valve's lift.
constexpr double largest_share = 0.25;

/// Crank degrees that a lobe may be off the card.
constexpr double off_the_card = 5.0;

/// Turns of the cam for a turn of the crank that are one figure, typed with six digits (0.166667).
constexpr double same_speed = 1e-6;

std::string degrees(double value) {
    return shortest_fixed(value, 2);
}

/// One valve's card.
struct Card {
    Valve valve;
    const ValveTiming& timing;

    [[nodiscard]] std::string name() const { return valve == Valve::inlet ? "inlet" : "exhaust"; }
    [[nodiscard]] std::string path(const std::string& key) const { return "engine." + name() + '.' + key; }
    [[nodiscard]] const char* opens_key() const {
        return valve == Valve::inlet ? "opens_before_tdc" : "opens_before_bdc";
    }
    [[nodiscard]] const char* closes_key() const {
        return valve == Valve::inlet ? "closes_after_bdc" : "closes_after_tdc";
    }
    [[nodiscard]] double opens() const { return timing.opens.degrees(); }
    [[nodiscard]] double closes() const { return timing.closes.degrees(); }
    [[nodiscard]] double duration() const { return 180.0 + opens() + closes(); }
    /// Crank degrees by which the card has the two the other way round than usual.
    [[nodiscard]] double turned_round() const {
        return valve == Valve::inlet ? opens() - closes() : closes() - opens();
    }
    /// The angle that counts for the overlap round TDC.
    [[nodiscard]] double at_tdc() const { return valve == Valve::inlet ? opens() : closes(); }
    [[nodiscard]] double at_bdc() const { return valve == Valve::inlet ? closes() : opens(); }
    /// "opens 50 degrees before TDC and closes 10 after BDC"
    [[nodiscard]] std::string words() const {
        const bool inlet = valve == Valve::inlet;
        return "opens " + degrees(opens()) + " degrees before " + (inlet ? "TDC" : "BDC") + " and closes " +
               degrees(closes()) + " after " + (inlet ? "BDC" : "TDC");
    }
};

std::vector<Card> cards_of(const Job& job) {
    std::vector<Card> cards;
    if (!job.engine) return cards;
    if (job.engine->inlet) cards.push_back({Valve::inlet, *job.engine->inlet});
    if (job.engine->exhaust) cards.push_back({Valve::exhaust, *job.engine->exhaust});
    return cards;
}

/// Whether its duration is one that valves have.
bool doubt_duration(Doubts& doubts, const Card& card) {
    if (usual_duration.holds(card.duration())) return false;
    doubts.ask(card.path(card.opens_key()), "valve-duration",
               "the " + card.name() + " " + card.words() + ": it is open for " + degrees(card.duration()) +
                   " crank degrees",
               "a card's angles are degrees of the crank, and negative on the other side of their dead "
               "centre: read it again");
    return true;
}

/// "; both valves are open for 65 degrees round TDC"; empty without the other valve's card.
std::string overlap_words(const std::vector<Card>& cards, double overlap, const char* before) {
    return cards.size() < 2 ? "" : before + degrees(overlap) + " degrees round TDC";
}

bool doubt_ends(Doubts& doubts, const Card& card, const std::vector<Card>& cards) {
    if (card.timing.form != CardForm::events || card.turned_round() <= other_way_round) return false;
    double overlap = 0.0;
    for (const Card& each : cards)
        overlap += each.at_tdc();
    const bool inlet = card.valve == Valve::inlet;
    doubts.ask(card.path(card.opens_key()), "card-turned-round",
               "the " + card.name() + " " + card.words() +
                   overlap_words(cards, overlap, ", so that both valves are open for "),
               std::string(inlet ? "an inlet closes further after BDC than it opens before TDC"
                                 : "an exhaust opens further before BDC than it closes after TDC") +
                   ": if the card says " + degrees(card.closes()) + "/" + degrees(card.opens()) + ", write " +
                   card.opens_key() + " = " + degrees(card.closes()) + " and " + card.closes_key() + " = " +
                   degrees(card.opens()) +
                   overlap_words(cards, overlap - card.at_tdc() + card.at_bdc(), ", and they are for "));
    return true;
}

void doubt_overlap(Doubts& doubts, const std::vector<Card>& cards) {
    if (cards.size() < 2) return;
    const double overlap = cards[0].at_tdc() + cards[1].at_tdc();
    if (usual_overlap.holds(overlap)) return;
    doubts.ask("engine.inlet.opens_before_tdc", "valve-overlap",
               "the inlet opens " + degrees(cards[0].opens()) +
                   " degrees before TDC and the exhaust closes " + degrees(cards[1].closes()) +
                   " after it: both are " + (overlap > 0.0 ? "open" : "shut") + " for " +
                   degrees(std::abs(overlap)) + " degrees round TDC",
               "read the card again; angles on the other side of their dead centre are negative");
}

/// The valve's lift on the lobes that the card is for, the least of them; nothing where there is none.
std::optional<double> least_valve_lift(const Doubts& doubts, Valve valve) {
    std::optional<double> least;
    for (const SolvedLobe& lobe : doubts.lobes) {
        const LobeEntry& entry = doubts.job.lobes[lobe.entry];
        if (entry.cylinder == 0 || entry.valve != valve) continue;
        const double lift = valve_lift_of(lobe.follower, lobe.lift);
        least = least ? std::min(*least, lift) : lift;
    }
    return least;
}

/// Whether its clearance is one that valves have; none at all is that of a gear that takes it up by itself.
bool doubt_clearance(Doubts& doubts, const Card& card) {
    const double clearance = card.timing.clearance;
    const auto lift = least_valve_lift(doubts, card.valve);
    if (!lift || clearance == 0.0) return false;
    const Usual usual{least_valve_clearance, largest_share * *lift};
    if (usual.holds(clearance)) return false;
    const bool small = clearance < usual.least;
    doubts.ask(card.path("clearance"), "valve-clearance",
               "the " + card.name() + "'s clearance is " + doubts.length(clearance) +
                   (small ? ", which closes up as the engine warms"
                          : ", and its valve lifts " + doubts.length(*lift)),
               doubts.other_unit(clearance, usual)
                   .value_or("give what a feeler is to measure at the valve, " + doubts.length(usual.least) +
                             " to " + doubts.length(usual.most)));
    return true;
}

/// A four-stroke's cam turns half as fast as its crank, a two-stroke's as fast; a ring of n lobes an n-th of
/// that.
bool doubt_cam_speed(Doubts& doubts) {
    const double per_crank = doubts.job.engine->cam_per_crank;
    const auto usual = [&](const LobeEntry& lobe) {
        const double lobes_per_turn = per_crank * lobe.repeat;

        return std::abs(lobes_per_turn - 0.5) < same_speed || std::abs(lobes_per_turn - 1.0) < same_speed;
    };
    const auto& lobes = doubts.job.lobes;
    const auto odd = std::find_if_not(lobes.begin(), lobes.end(), usual);
    if (odd == lobes.end()) return false;
    doubts.ask("engine.cam_per_crank", "cam-speed",
               "the cam turns " + shortest_fixed(per_crank, 6) +
                   " times for a turn of the crank, and lobe '" + odd->name + "' stands " +
                   (odd->repeat == 1 ? "once" : std::to_string(odd->repeat) + " times") + " round it",
               "a four-stroke's cam turns half as fast as its crank: write " +
                   shortest_fixed(0.5 / odd->repeat, 6) + " (a two-stroke's " +
                   shortest_fixed(1.0 / odd->repeat, 6) + ")");
    return true;
}

/// The angles taken for ways from one firing to the next: "[0, 180, 360, 540]"; nothing where that is no
/// cycle.
std::optional<std::string> added_up(const std::vector<CrankAngle>& angles) {
    double sum = 0.0;
    std::string list;
    for (const CrankAngle& each : angles) {
        sum += each.degrees();
        list += (list.empty() ? "[" : ", ") + degrees(sum);
    }
    constexpr double cycle = 720.0;
    return sum < cycle ? std::optional(list + "]") : std::nullopt;
}

void doubt_firing(Doubts& doubts) {
    const auto& angles = doubts.job.engine->firing_angles;
    for (std::size_t i = 0; i < angles.size(); ++i) {
        std::string together;
        for (std::size_t k = i + 1; k < angles.size(); ++k) {
            if (angles[k] == angles[i]) together += " and " + std::to_string(k + 1);
        }
        if (together.empty()) continue;
        const auto sums = added_up(angles);
        doubts.ask("engine.firing_angles", "firing-angles",
                   "cylinders " + std::to_string(i + 1) + together + " fire together, at " +
                       degrees(angles[i].degrees()) + " degrees",
                   std::string("every angle counts from cylinder 1's firing") +
                       (sums ? ": if these are the ways from one to the next, write " + *sums : ""));
        return;
    }
}

/// A lobe's own card; nothing where it has none.
std::optional<Card> card_of(const Job& job, const LobeEntry& entry) {
    if (entry.cylinder == 0) return std::nullopt;
    for (const Card& card : cards_of(job)) {
        if (card.valve == entry.valve) return card;
    }
    return std::nullopt;
}

/// How long a motion's valve is open with both its angles changed by that factor; nothing where that lobe
/// doesn't come out.
std::optional<double> duration_with(const Job& job, std::size_t entry, double opening, double closing) {
    Job changed = job;
    changed.lobes = {job.lobes[entry]};
    auto& motion = std::get<MotionProfile>(changed.profiles.find(job.lobes[entry].profile)->second);
    motion.opening_angle = CamAngle::from_degrees(opening);
    motion.closing_angle = CamAngle::from_degrees(closing);
    const auto lobes = solve_lobes(changed);
    if (!lobes) return std::nullopt;
    const auto events = card_events(changed, lobes->front());
    return events ? std::optional(events->duration.degrees()) : std::nullopt;
}

/// "opening_angle = 62 and closing_angle = 64.5 keep it": both by one factor, found by halving, to a tenth of
/// a degree; nothing where no factor does.
std::optional<std::string> angles_for_card(const Job& job, std::size_t entry, double wanted) {
    const auto& motion = std::get<MotionProfile>(job.profiles.find(job.lobes[entry].profile)->second);
    const double opening = motion.opening_angle.degrees(), closing = motion.closing_angle.degrees();
    double low = 0.2, high = 3.0;
    constexpr int halvings = 14;  // of 2.8: within 2e-4, a fiftieth of a degree
    for (int i = 0; i < halvings; ++i) {
        const double factor = 0.5 * (low + high);
        const auto open = duration_with(job, entry, factor * opening, factor * closing);
        const bool too_short = open ? *open < wanted : factor < 1.0;  // an undercut lobe is too short, too
        (too_short ? low : high) = factor;
    }
    const auto tenth = [](double value) { return static_cast<double>(nearest_step(10.0 * value)) / 10.0; };
    const double new_opening = tenth(high * opening), new_closing = tenth(high * closing);
    const auto open = duration_with(job, entry, new_opening, new_closing);
    constexpr double close_enough = 1.0;
    if (!open || std::abs(*open - wanted) > close_enough) return std::nullopt;
    return "opening_angle = " + degrees(new_opening) + " and closing_angle = " + degrees(new_closing) +
           " keep it";
}

struct CardCure {
    std::string key;
    std::string remedy;
};

CardCure cure_for_card(const Job& job, const SolvedLobe& lobe, double wanted) {
    const LobeEntry& entry = job.lobes[lobe.entry];
    const std::string profile = "profile." + entry.profile;
    if (lobe.opening_arcs) {
        const auto& arcs = std::get<ArcsProfile>(job.profiles.find(entry.profile)->second);
        return {profile + ".action_angle",
                arcs.action_angle ? "leave action_angle out, and it is solved from the card"
                                  : "leave nose_radius or flank_radius out, and the action angle is solved "
                                    "from the card"};
    }
    if (std::holds_alternative<SegmentsProfile>(job.profiles.find(entry.profile)->second))
        return {profile + ".segments", "make the segments and the card agree, the clearance too"};
    if (std::holds_alternative<FullestProfile>(job.profiles.find(entry.profile)->second))
        return {profile + ".opening_angle",
                "leave opening_angle and closing_angle out, and they are solved from the card"};
    if (std::holds_alternative<MotionProfile>(job.profiles.find(entry.profile)->second)) {
        return {profile + ".opening_angle", angles_for_card(job, lobe.entry, wanted)
                                                .value_or("make the profile's angles and the card agree")};
    }
    return {profile + ".file", "make the readings and the card agree, the clearance too"};
}

/// A lobe that keeps its valve open for another time than its card says.
void doubt_lobe(Doubts& doubts, const SolvedLobe& lobe) {
    const LobeEntry& entry = doubts.job.lobes[lobe.entry];
    const auto card = card_of(doubts.job, entry);
    const auto events = card ? card_events(doubts.job, lobe) : std::nullopt;
    if (!events) return;
    if (std::abs(events->duration.degrees() - card->duration()) <= off_the_card) return;
    const CardCure cure = cure_for_card(doubts.job, lobe, card->duration());
    doubts.ask(cure.key, "card-not-kept",
               "with profile '" + entry.profile + "' the " + card->name() + " is open for " +
                   shortest_fixed(events->duration.degrees(), 1) + " crank degrees, and the card says " +
                   degrees(card->duration()),
               cure.remedy);
}

/// The ramps of a profile, by their keys.
std::vector<std::pair<std::string, std::optional<Ramp>>> ramps_of(const Profile& profile) {
    if (const auto* motion = std::get_if<MotionProfile>(&profile))
        return {{"opening_ramp", motion->opening_ramp}, {"closing_ramp", motion->closing_ramp}};
    if (const auto* fullest = std::get_if<FullestProfile>(&profile))
        return {{"opening_ramp", fullest->opening_ramp}, {"closing_ramp", fullest->closing_ramp}};
    return {};
}

/// A ramp takes up the clearance, or it isn't worth its angle.
bool doubt_ramps(Doubts& doubts, const SolvedLobe& lobe) {
    const LobeEntry& entry = doubts.job.lobes[lobe.entry];
    const auto card = card_of(doubts.job, entry);
    if (!card) return false;
    const double needed = lift_for_valve(lobe.follower, card->timing.clearance);
    for (const auto& [key, ramp] : ramps_of(doubts.job.profiles.find(entry.profile)->second)) {
        if (!ramp || ramp->lift >= needed) continue;
        doubts.ask("profile." + entry.profile + '.' + key, "ramp-low",
                   "the " + key + " lifts the follower by " + doubts.length(ramp->lift) +
                       ", and the clearance takes " + doubts.length(needed) +
                       " of that: the valve meets its seat at the law's speed",
                   "give it a lift of " + doubts.length(1.25 * needed) + " or so, or take less clearance");
        return true;
    }
    return false;
}

void doubt_lobes(Doubts& doubts, const Card& card) {
    std::set<std::pair<std::string, std::string>> alike;
    for (const SolvedLobe& lobe : doubts.lobes) {
        const LobeEntry& entry = doubts.job.lobes[lobe.entry];
        if (entry.cylinder == 0 || entry.valve != card.valve) continue;
        if (!alike.emplace(entry.profile, entry.follower).second) continue;
        if (!has_usual_lift(doubts, lobe) || !has_usual_ratio(lobe)) continue;
        if (!doubt_ramps(doubts, lobe)) doubt_lobe(doubts, lobe);
    }
}

/// Cam degrees of an action angle that are probably degrees of the crank.
constexpr double longest_action = 190.0;

void doubt_action(Doubts& doubts, const SolvedLobe& lobe) {
    const LobeEntry& entry = doubts.job.lobes[lobe.entry];
    const double action = lobe.action_angle.degrees();
    if (!lobe.opening_arcs || card_of(doubts.job, entry) || action <= longest_action) return;
    doubts.ask("profile." + entry.profile + ".action_angle", "action-angle",
               "an action angle of " + degrees(action) + " degrees of the cam is " + degrees(2.0 * action) +
                   " of a four-stroke's crank",
               "if it is in degrees of the crank, write " + degrees(0.5 * action));
}

}  // namespace

void doubt_cards(Doubts& doubts) {
    for (const SolvedLobe& lobe : doubts.lobes)
        doubt_action(doubts, lobe);
    if (!doubts.job.engine) return;
    const std::vector<Card> cards = cards_of(doubts.job);
    const bool speed_asked = doubt_cam_speed(doubts);
    bool angles_asked = false;
    for (const Card& card : cards) {
        const bool duration_asked = doubt_duration(doubts, card);
        angles_asked = duration_asked || doubt_ends(doubts, card, cards) || angles_asked;
        if (!doubt_clearance(doubts, card) && !duration_asked && !speed_asked) doubt_lobes(doubts, card);
    }
    if (!angles_asked) doubt_overlap(doubts, cards);
    doubt_firing(doubts);
}

}  // namespace lobewright::plausibility
