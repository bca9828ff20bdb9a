#include "plausibility/doubts.h"

#include <lobewright/number_text.h>
#include <lobewright/operations.h>
#include <lobewright/valve_train.h>

#include <algorithm>
#include <numbers>
#include <set>
#include <tuple>

namespace lobewright::plausibility {
namespace {

// All limits of this file: common practice, no source.

/// How far outside the blank rapids stay, mm: more than bars are out of round, less than machines are long.
constexpr Usual usual_rapids{0.2, 50.0};

/// mm; a finish pass that may err more is none.
constexpr double coarsest_tolerance = 0.1;

/// mm of a roughing pass, and by the cutter's diameter.
constexpr double deepest_pass = 3.0;
constexpr double deepest_share = 1.0 / 3.0;
/// Roughing passes one over the other (a wheel takes as many as it likes).
constexpr double most_passes = 60.0;

constexpr double smallest_cutter = 1.0;  // mm
constexpr double largest_mill = 200.0;
constexpr double largest_disc = 700.0;

/// Of teeth, m/min: high speed steel in hard steel to carbide in soft; of a wheel's rim, m/s.
constexpr Usual usual_speed{1.5, 400.0};
constexpr Usual usual_rim{5.0, 80.0};
/// What a remedy recommends: high speed steel in case-hardening steel, and a vitrified wheel.
constexpr double good_speed = 25.0, good_rim = 25.0;

/// mm of feed for each tooth.
constexpr Usual usual_chip{0.001, 0.5};
constexpr double good_chip = 0.03;

/// Degrees a minute: slower, a turn takes more than six minutes. mm a minute likewise.
constexpr double slowest_rotary = 60.0;
constexpr double slowest_axis = 10.0;

const Cutter* cutter_in_use(const Job& job) {
    if (!job.cut) return nullptr;
    const auto found = job.cutters.find(job.cut->cutter);
    return found == job.cutters.end() ? nullptr : &found->second;
}

bool runs_as_wheel(const Cutter& cutter) {
    return cutter.kind == CutterKind::disc && cutter.teeth == 0;
}

Usual usual_diameter(const Cutter& cutter) {
    return {smallest_cutter, cutter.kind == CutterKind::disc ? largest_disc : largest_mill};
}

void doubt_cutter(Doubts& doubts, const std::string& name, const Cutter& cutter) {
    const std::string path = "cutter." + name;
    if (const Usual usual = usual_diameter(cutter); !usual.holds(cutter.diameter)) {
        doubts.ask(
            path + ".diameter", "cutter-size",
            "cutter " + name + " is " + doubts.length(cutter.diameter) + " across",
            doubts.other_unit(cutter.diameter, usual).value_or("look for a slip of the decimal point"));
    }
    if (cutter.reach && cutter.flute_length && *cutter.reach < *cutter.flute_length) {
        doubts.ask(path + ".reach", "cutter-reach",
                   "cutter " + name + " stands out of its holder by " + doubts.length(*cutter.reach) +
                       ", less than its flutes of " + doubts.length(*cutter.flute_length),
                   "reach counts from the holder to the tip");
    }
    if (cutter.holder_diameter && cutter.shank_diameter && *cutter.holder_diameter < *cutter.shank_diameter) {
        doubts.ask(path + ".holder_diameter", "cutter-holder",
                   "the holder of cutter " + name + ", " + doubts.length(*cutter.holder_diameter) +
                       ", is slimmer than its shank of " + doubts.length(*cutter.shank_diameter),
                   "give the outside of the chuck or collet nut that holds it");
    }
}

void doubt_rapids(Doubts& doubts) {
    const double clearance = doubts.job.cut->clearance;
    if (usual_rapids.holds(clearance)) return;
    doubts.ask("cut.clearance", "rapid-clearance", "rapids pass the blank at " + doubts.length(clearance),
               doubts.other_unit(clearance, usual_rapids)
                   .value_or("a bar is seldom so round and so true: give " + doubts.length(3.0) + " or so"));
}

/// The least clearance of a card, as the follower sees it; nothing where no valve has one.
std::optional<double> least_clearance(const Doubts& doubts) {
    std::optional<double> least;
    for (const SolvedLobe& lobe : doubts.lobes) {
        const LobeEntry& entry = doubts.job.lobes[lobe.entry];
        if (entry.cylinder == 0 || !doubts.job.engine) continue;
        const auto& card =
            entry.valve == Valve::inlet ? doubts.job.engine->inlet : doubts.job.engine->exhaust;
        if (!card || card->clearance < least_valve_clearance) continue;
        const double here = lift_for_valve(lobe.follower, card->clearance);
        least = least ? std::min(*least, here) : here;
    }
    return least;
}

/// A heel that may stand proud by a good part of the clearance; a surface that may be anything.
void doubt_tolerance(Doubts& doubts) {
    const Cut& cut = *doubts.job.cut;
    const auto clearance = least_clearance(doubts);
    constexpr double share = 0.5;
    const bool of_clearance = cut.allowance == 0.0 && clearance && cut.tolerance >= share * *clearance;
    const bool coarse = cut.tolerance > coarsest_tolerance && cut.allowance < cut.tolerance;
    if (!of_clearance && !coarse) return;
    const double most = std::min(coarsest_tolerance, clearance ? 0.1 * *clearance : coarsest_tolerance);
    doubts.ask("cut.tolerance", "tolerance",
               "the surface may be " + doubts.length(cut.tolerance) + " off, the heel too" +
                   (of_clearance ? ", where the clearance leaves the follower " + doubts.length(*clearance)
                                 : std::string()),
               doubts.other_unit(cut.tolerance, {least_fine_length, most})
                   .value_or("give a tolerance of " + doubts.length(most) + " or less"));
}

void doubt_depth(Doubts& doubts, const Cutter& cutter) {
    const Cut& cut = *doubts.job.cut;
    if (!cut.rough_depth) return;
    double stock = 0.0;
    for (const SolvedLobe& lobe : doubts.lobes) {
        const double bar = 0.5 * doubts.job.shaft.blank().value_or(0.0) - lobe.base_radius;
        const auto standing = doubts.job.stock.of(lobe.name);
        stock = std::max(stock, standing ? std::min(bar, standing->most()) : bar);
    }
    const bool any_number = cutter.teeth == 0 || !has_usual_blank(doubts);
    const Usual usual{any_number ? 0.0 : stock / most_passes,
                      std::min(deepest_pass, deepest_share * cutter.diameter)};
    if (usual.holds(*cut.rough_depth)) return;
    const bool deep = *cut.rough_depth > usual.most;
    doubts.ask("cut.rough_depth", "rough-depth",
               deep ? "a roughing pass may be " + doubts.length(*cut.rough_depth) + " deep"
                    : "at " + doubts.length(*cut.rough_depth) + " a pass, " + doubts.length(stock) +
                          " of stock take " + shortest_fixed(stock / *cut.rough_depth, 0) + " passes",
               doubts.other_unit(*cut.rough_depth, usual)
                   .value_or("half a millimetre to one suits most cutters of this size"));
}

/// The spindle's speed by the cutter's diameter; whether that was asked.
bool doubt_spindle(Doubts& doubts, const Cutter& cutter) {
    const bool wheel = runs_as_wheel(cutter);
    const double rim = std::numbers::pi * cutter.diameter * doubts.job.cut->spindle_speed / 1000.0;  // m/min
    const double speed = wheel ? rim / 60.0 : rim;
    const char* unit = wheel ? " m/s" : " m/min";
    const double good = wheel ? good_rim : good_speed;
    if ((wheel ? usual_rim : usual_speed).holds(speed)) return false;
    doubts.ask("cut.spindle_speed", "spindle-speed",
               "at " + shortest_fixed(doubts.job.cut->spindle_speed, 1) + " rev/min the rim of cutter " +
                   doubts.job.cut->cutter + ", " + doubts.length(cutter.diameter) + " across, runs at " +
                   shortest_fixed(speed, 2) + unit,
               (wheel ? "a wheel (teeth = 0) at " : "at ") + shortest_fixed(good, 0) + unit +
                   " it would be " + shortest_fixed(doubts.job.cut->spindle_speed * good / speed, 0) +
                   " rev/min");
    return true;
}

/// A wheel bursts: what its maker allows stands on its label, and counts.
void doubt_marking(Doubts& doubts, const Cutter& cutter) {
    if (!runs_as_wheel(cutter) || cutter.fastest) return;
    const double rim = std::numbers::pi * cutter.diameter * doubts.job.cut->spindle_speed / 60000.0;
    doubts.ask(
        "cutter." + doubts.job.cut->cutter, "wheel-marking",
        "wheel " + doubts.job.cut->cutter + " has no fastest, and its rim runs at " + shortest_fixed(rim, 1) +
            " m/s",
        "the marking on the wheel is what counts: write it as fastest, in m/s, and the spindle is held "
        "to it");
}

void doubt_feed(Doubts& doubts, const Cutter& cutter) {
    const Cut& cut = *doubts.job.cut;
    if (cutter.teeth == 0) return;
    const double chips_per_minute = cut.spindle_speed * cutter.teeth;
    const double chip = cut.surface_feed / chips_per_minute;
    if (usual_chip.holds(chip)) return;
    const Usual usual{usual_chip.least * chips_per_minute, usual_chip.most * chips_per_minute};
    doubts.ask("cut.surface_feed", "feed-per-tooth",
               "a surface_feed of " + doubts.length(cut.surface_feed) + " a minute is " +
                   doubts.length(chip) + " for each of the cutter's " + std::to_string(cutter.teeth) +
                   " teeth",
               doubts.other_unit(cut.surface_feed, usual)
                   .value_or(doubts.length(good_chip) + " a tooth would be " +
                             doubts.figure(good_chip * chips_per_minute)));
}

void doubt_limits(Doubts& doubts, const AxisLimits& limits) {
    if (limits.rotary_speed && *limits.rotary_speed < slowest_rotary) {
        doubts.ask("machine.limits.rotary_speed", "axis-limit",
                   "at " + shortest_fixed(*limits.rotary_speed, 3) + " degrees a minute a turn takes " +
                       shortest_fixed(360.0 / *limits.rotary_speed, 1) + " minutes",
                   "if it is in rev/min, write " + shortest_fixed(360.0 * *limits.rotary_speed, 1));
    }
    for (const auto& [key, speed] :
         {std::pair{"radial_speed", limits.radial_speed}, {"axial_speed", limits.axial_speed}}) {
        if (!speed || *speed >= slowest_axis) continue;
        const double metre = doubts.job.units == Units::mm ? 1000.0 : 60.0;
        doubts.ask(std::string("machine.limits.") + key, "axis-limit",
                   "the axis runs at " + doubts.length(*speed) + " a minute at most",
                   std::string("if it is in ") +
                       (doubts.job.units == Units::mm ? "m a minute" : "inches a second") + ", write " +
                       doubts.figure(*speed * metre));
    }
}

/// Of one cut.
void doubt_cut(Doubts& doubts) {
    const Job& job = doubts.job;
    if (!job.cut) return;
    doubt_rapids(doubts);
    doubt_tolerance(doubts);
    const Cutter* cutter = cutter_in_use(job);
    if (cutter == nullptr || !usual_diameter(*cutter).holds(cutter->diameter)) return;
    doubt_depth(doubts, *cutter);
    doubt_marking(doubts, *cutter);
    if (!doubt_spindle(doubts, *cutter)) doubt_feed(doubts, *cutter);
}

/// Lobes that no operation names.
void doubt_lobes_left_out(Doubts& doubts) {
    const Job& job = doubts.job;
    std::set<std::string> cut;
    for (const Operation& operation : job.operations) {
        for (const std::string& name : lobes_of_operation(job, operation))
            cut.insert(name);
    }
    for (std::size_t i = 0; i < job.lobes.size() && !cut.empty(); ++i) {
        if (cut.contains(job.lobes[i].name)) continue;
        doubts.ask("lobe[" + std::to_string(i) + "].name", "uncut-lobe",
                   "no operation cuts lobe '" + job.lobes[i].name + "'",
                   "add it to the lobes of one, unless it is to stay as it is");
    }
}

}  // namespace

void doubt_cutting(Doubts& doubts) {
    for (const auto& [name, cutter] : doubts.job.cutters)
        doubt_cutter(doubts, name, cutter);
    std::set<std::string> machines;
    for (const Job& one : jobs_of_operations(doubts.job)) {
        Doubts own(one, doubts.lobes);
        const auto operation = find_operation(one, one.operation);
        const std::string& machine = operation ? one.operations[*operation].machine : one.operation;
        if (one.machine && machines.insert(machine).second) doubt_limits(own, one.machine->limits);
        doubt_cut(own);
        doubts.take(own);
    }
    doubt_lobes_left_out(doubts);
}

}  // namespace lobewright::plausibility
