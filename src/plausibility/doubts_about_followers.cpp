#include "plausibility/doubts.h"

#include <lobewright/number_text.h>

#include <set>

namespace lobewright::plausibility {
namespace {

// All limits of this file: common practice, no source.

/// Valve movement by follower movement, rockers and fingers.
constexpr Usual usual_ratio{0.5, 3.0};

/// Of a valve gear whose lobes are no larger than this, mm across.
constexpr double small_gear = 80.0;
constexpr double most_mass = 2.0;     // kg
constexpr double most_rate = 1000.0;  // N/mm

/// MPa of contact pressure that surfaces are trusted with, bronze to hardened steel.
constexpr Usual usual_stress{100.0, 4000.0};
constexpr double mpa_per_psi = 0.00689476;  // NIST SP 811, 6.894 757 kPa

/// Crank speeds, rev/min: hit-and-miss engines to model racers.
constexpr Usual usual_speed{50.0, 30000.0};

std::string number(double value) {
    return shortest_fixed(value, 6);
}

/// What was meant by a ratio turned round, or in percent.
std::string ratio_cure(double ratio) {
    constexpr double percent = 100.0;
    if (usual_ratio.holds(ratio / percent)) return "write " + number(ratio / percent);
    return "valve_ratio is the valve's movement by the follower's" +
           (usual_ratio.holds(1.0 / ratio)
                ? ": if " + number(ratio) + " is the other way round, write " + shortest_fixed(1.0 / ratio, 3)
                : std::string(", 1 to 2 for most rockers"));
}

/// Over the whole of a rocker's curve, where it was measured.
double mean_ratio(const Follower& follower) {
    if (follower.valve_lift.empty()) return follower.valve_ratio;
    return follower.valve_lift.back().valve / follower.valve_lift.back().follower;
}

void doubt_ratio(Doubts& doubts, const std::string& name) {
    const Follower& follower = doubts.job.followers.find(name)->second;
    const double ratio = mean_ratio(follower);
    if (usual_ratio.holds(ratio)) return;
    const bool curve = !follower.valve_lift.empty();
    doubts.ask("follower." + name + (curve ? ".valve_lift" : ".valve_ratio"), "valve-ratio",
               "the valve moves " + number(ratio) + " times as far as the follower",
               curve ? "a point of valve_lift is [follower's lift, valve's lift], in this order"
                     : ratio_cure(ratio));
}

void doubt_gear(Doubts& doubts, const ContactLoad& load) {
    if (doubts.largest_lobe() > small_gear) return;
    const std::string gear = ", for lobes of " + doubts.length(doubts.largest_lobe());
    if (load.moving_mass > most_mass) {
        doubts.ask("contact.moving_mass", "moving-mass",
                   "what moves weighs " + number(load.moving_mass) + " kg" + gear,
                   "if it is in grams, write " + number(load.moving_mass / 1000.0));
    }
    if (load.spring_rate > most_rate) {
        doubts.ask("contact.spring_rate", "spring-rate",
                   "the spring's rate is " + number(load.spring_rate) + " N/mm" + gear,
                   "if it is in N/m, write " + number(load.spring_rate / 1000.0));
    }
}

std::string stress_cure(double stress) {
    if (usual_stress.holds(stress * mpa_per_psi))
        return "if it is in psi, write " + shortest_fixed(stress * mpa_per_psi, 0);
    if (usual_stress.holds(stress * 1000.0)) return "if it is in GPa, write " + number(stress * 1000.0);
    return "it is the contact pressure that the surfaces bear: 600 to 1500 for most";
}

void doubt_load(Doubts& doubts, const ContactLoad& load) {
    doubt_gear(doubts, load);
    if (load.allowable_stress && !usual_stress.holds(*load.allowable_stress)) {
        doubts.ask("contact.allowable_stress", "allowable-stress",
                   "the surfaces are trusted with " + number(*load.allowable_stress) + " MPa",
                   stress_cure(*load.allowable_stress));
    }
    if (!usual_speed.holds(load.crank_speed)) {
        doubts.ask("contact.crank_speed", "crank-speed",
                   "the crank turns at " + number(load.crank_speed) + " rev/min",
                   "give the engine's highest speed, in rev/min of the crank");
    }
}

}  // namespace

namespace {

/// Limits of radius and stress are kept under the follower that they are meant for, and under no other.
void doubt_limits(Doubts& doubts, const LobeEntry& lobe) {
    const auto* fullest = std::get_if<FullestProfile>(&doubts.job.profiles.find(lobe.profile)->second);
    if (fullest == nullptr || fullest->follower.empty() || fullest->follower == lobe.follower) return;
    doubts.ask("profile." + lobe.profile + ".follower", "other-follower",
               "the limits of profile '" + lobe.profile + "' are meant for follower '" + fullest->follower +
                   "', and lobe '" + lobe.name + "' has '" + lobe.follower + "'",
               "write follower = \"" + lobe.follower + "\" there, or give that lobe a profile of its own");
}

}  // namespace

bool has_usual_ratio(const SolvedLobe& lobe) {
    return usual_ratio.holds(mean_ratio(lobe.follower));
}

void doubt_followers(Doubts& doubts) {
    std::set<std::string> used;
    for (const LobeEntry& lobe : doubts.job.lobes)
        used.insert(lobe.follower);
    for (const std::string& name : used)
        doubt_ratio(doubts, name);
    if (doubts.job.contact) doubt_load(doubts, *doubts.job.contact);
    std::set<std::string> asked;
    for (const LobeEntry& lobe : doubts.job.lobes)
        if (asked.insert(lobe.profile + '\n' + lobe.follower).second) doubt_limits(doubts, lobe);
}

}  // namespace lobewright::plausibility
