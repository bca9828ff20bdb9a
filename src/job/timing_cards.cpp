#include "job/timing_cards.h"

#include "job/job_reading.h"

#include <lobewright/number_text.h>

namespace lobewright {
namespace {

constexpr NumberRange event_angle{-180.0, 180.0};
/// What two events make at most; their centre, after TDC for an inlet and before it for an exhaust.
constexpr NumberRange event_duration{0.0, 540.0, false};
constexpr NumberRange event_centre{-90.0, 270.0};
constexpr NumberRange any_separation{0.0, 180.0, false};  // cam degrees
constexpr NumberRange any_advance{-90.0, 90.0};
constexpr NumberRange checking_lift{1e-3, 100.0};

/// What is a valve's own of its card.
struct CardKeys {
    Valve valve;
    std::string name, opens, closes;

    [[nodiscard]] std::string events() const { return opens + " and " + closes; }
};

const CardKeys inlet_keys{Valve::inlet, "inlet", "opens_before_tdc", "closes_after_bdc"};
const CardKeys exhaust_keys{Valve::exhaust, "exhaust", "opens_before_bdc", "closes_after_tdc"};

/// What [engine] says for both lobes.
struct Separation {
    std::optional<double> between;  ///< cam degrees
    double advance = 0.0;
    double cam_per_crank = 0.5;

    /// Crank degrees after TDC for the inlet, before it for the exhaust.
    [[nodiscard]] double centre(Valve valve) const {
        const double even = *between / (2.0 * cam_per_crank);
        return valve == Valve::inlet ? even - advance : even + advance;
    }
};

/// The events of a duration about a centre, crank degrees: see ValveTiming.
void place_events(ValveTiming& timing, Valve valve, double duration, double centre) {
    const double near_tdc = 0.5 * duration - centre, near_bdc = 0.5 * duration + centre - 180.0;
    timing.opens = CrankAngle::from_degrees(valve == Valve::inlet ? near_tdc : near_bdc);
    timing.closes = CrankAngle::from_degrees(valve == Valve::inlet ? near_bdc : near_tdc);
}

void read_events(JobTable& table, const CardKeys& keys, ValveTiming& timing) {
    timing.form = CardForm::events;
    timing.opens = table.required_angle<CrankAngle>(keys.opens, event_angle);
    timing.closes = table.required_angle<CrankAngle>(keys.closes, event_angle);
    for (const char* key : {"duration", "centre"}) {
        if (table.any(key) == nullptr) continue;
        table.complain(key, "excluded-key", "the " + keys.name + "'s card has its events and a " + key,
                       "give " + keys.events() + ", or duration and centre");
    }
    if (180.0 + timing.opens.degrees() + timing.closes.degrees() > 0.0) return;
    table.complain(keys.opens, "timing", "the " + keys.name + " valve closes before it opens",
                   keys.opens + " + " + keys.closes + " must be more than -180");
}

void read_duration(JobTable& table, const CardKeys& keys, const Separation& separation, ValveTiming& timing) {
    const double duration = table.required_number("duration", event_duration);
    const auto centre = table.number("centre", event_centre);
    if (table.has("centre")) {
        timing.form = CardForm::centre;
        if (centre) place_events(timing, keys.valve, duration, *centre);
        return;
    }
    timing.form = CardForm::separation;
    if (separation.between)
        place_events(timing, keys.valve, duration, separation.centre(keys.valve));
    else
        table.missing("centre", "add it, or give [engine] a lobe_separation");
}

/// A separation places both lobes: a card that says where its own stands says it twice.
void refuse_two_places(JobTable& table, const CardKeys& keys, const Separation& separation,
                       const ValveTiming& timing) {
    if (!separation.between || timing.form == CardForm::separation) return;
    const bool by_events = timing.form == CardForm::events;
    table.complain(by_events ? keys.opens : "centre", "excluded-key",
                   "lobe_separation places both lobes, and the " + keys.name + "'s card has " +
                       (by_events ? "its events" : "a centre"),
                   "give the card its duration alone, or remove lobe_separation");
}

std::optional<ValveTiming> read_card(JobTable& engine, const CardKeys& keys, const Separation& separation) {
    const Node* node = engine.table(keys.name);
    if (node == nullptr) return std::nullopt;
    JobTable table(*node, engine.path_of(keys.name), engine.reading());
    ValveTiming timing;
    const bool by_duration =
        !table.has(keys.opens) && !table.has(keys.closes) && (table.has("duration") || table.has("centre"));
    if (by_duration)
        read_duration(table, keys, separation, timing);
    else
        read_events(table, keys, timing);
    refuse_two_places(table, keys, separation, timing);
    timing.clearance = table.length_or("clearance", 0.0, {0.0, 100.0});
    timing.at_lift = table.length("at_lift", checking_lift);
    table.finish();
    return timing;
}

Separation read_separation(JobTable& engine, double cam_per_crank) {
    Separation separation;
    separation.cam_per_crank = cam_per_crank;
    separation.between = engine.number("lobe_separation", any_separation);
    separation.advance = engine.number_or("advance", 0.0, any_advance);
    if (engine.has("advance") && !engine.has("lobe_separation")) {
        engine.complain("advance", "excluded-key", "'engine.advance' has no lobe_separation to go with",
                        "add lobe_separation, or move the centres of the cards by it");
    }
    if (separation.between && !engine.has("inlet") && !engine.has("exhaust")) {
        engine.complain("lobe_separation", "excluded-key",
                        "'engine.lobe_separation' has no card whose lobe it places",
                        "add inlet = { duration } and exhaust = { duration }, or remove it");
    }
    return separation;
}

}  // namespace

void read_timing_cards(JobTable& table, Engine& engine) {
    const Separation separation = read_separation(table, engine.cam_per_crank);
    engine.inlet = read_card(table, inlet_keys, separation);
    engine.exhaust = read_card(table, exhaust_keys, separation);
}

}  // namespace lobewright
