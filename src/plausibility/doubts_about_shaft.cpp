#include "plausibility/doubts.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace lobewright::plausibility {
namespace {

/// mm: what shares a face may overlap by rounding, which is 1e-13 mm where figures are of a metre.
constexpr double touching = 1e-9;
/// Directions that are one, typed alike: far below the last digit that anybody types.
constexpr SpaceAngle same_direction = SpaceAngle::from_radians(1e-6);

/// What lies before the drive end, where no length says that it can't.
void doubt_start(Doubts& doubts) {
    const Job& job = doubts.job;
    if (job.shaft.length) return;
    const auto look = [&](const std::string& name, const std::string& path, double z, double width) {
        const double from = z - width / 2.0;
        if (from >= -touching) return;
        doubts.ask(
            path, "before-drive-end",
            name + " would begin at z = " + doubts.length(from) + ", before the shaft's drive end at z = 0",
            "z is the middle, counted from the drive end: move it by " + doubts.length(-from) + " or more");
    };
    for (std::size_t i = 0; i < job.lobes.size(); ++i) {
        const LobeEntry& lobe = job.lobes[i];
        look("lobe '" + lobe.name + "'", "lobe[" + std::to_string(i) + "].z", lobe.z, lobe.width);
    }
    for (std::size_t i = 0; i < job.shaft.journals.size(); ++i) {
        const Journal& journal = job.shaft.journals[i];
        look("the journal at " + doubts.length(journal.z), "shaft.journal[" + std::to_string(i) + "].z",
             journal.z, journal.width);
    }
}

/// Right where the lobes' places are turned down first, impossible where the blank is the bar.
void doubt_journals(Doubts& doubts) {
    const Shaft& shaft = doubts.job.shaft;
    if (!shaft.blank()) return;
    for (std::size_t i = 0; i < shaft.journals.size(); ++i) {
        const Journal& journal = shaft.journals[i];
        if (journal.diameter <= *shaft.blank() + touching) continue;
        doubts.ask("shaft.journal[" + std::to_string(i) + "].diameter", "journal-over-blank",
                   "the journal at " + doubts.length(journal.z) + " is " + doubts.length(journal.diameter) +
                       " across, and the blank over the lobes " + doubts.length(*shaft.blank()),
                   "right, if the lobes' places are turned down to that first; if the whole bar is so thick, "
                   "no such journal comes out of it",
                   Severity::note);
    }
}

/// A flat tappet over its lobe.
struct Tappet {
    const LobeEntry* lobe;
    std::size_t entry;
    double middle;  ///< along the shaft, mm
    double face;    ///< its diameter, mm
    SpaceAngle direction;
};

std::vector<Tappet> tappets_of(const Job& job) {
    std::vector<Tappet> tappets;
    for (std::size_t i = 0; i < job.lobes.size(); ++i) {
        const LobeEntry& lobe = job.lobes[i];
        const Follower& follower = job.followers.find(lobe.follower)->second;
        if (follower.kind != FollowerKind::flat || !follower.face_diameter) continue;
        tappets.push_back(
            {&lobe, i, lobe.z + follower.face_offset, *follower.face_diameter, follower.direction});
    }
    std::stable_sort(tappets.begin(), tappets.end(),
                     [](const Tappet& a, const Tappet& b) { return a.middle < b.middle; });
    return tappets;
}

bool in_one_row(SpaceAngle a, SpaceAngle b) {
    return a - b <= same_direction && b - a <= same_direction;
}

/// Tappets side by side in one row that overlap.
bool doubt_row_of_tappets(Doubts& doubts, const std::vector<Tappet>& tappets) {
    bool asked = false;
    for (std::size_t i = 0; i + 1 < tappets.size(); ++i) {
        const Tappet &a = tappets[i], &b = tappets[i + 1];
        const double apart = b.middle - a.middle, needed = 0.5 * (a.face + b.face);
        if (apart >= needed - touching || !in_one_row(a.direction, b.direction)) continue;
        asked = true;
        doubts.ask("follower." + b.lobe->follower + ".face_diameter", "tappets-meet",
                   "the tappets of lobes '" + a.lobe->name + "' and '" + b.lobe->name + "' stand " +
                       doubts.length(apart) + " apart, and half of each makes " + doubts.length(needed),
                   "give faces of " + doubts.length(apart) + " or less, or set the lobes at least " +
                       doubts.length(needed) + " apart");
    }
    return asked;
}

/// The lobes' entries, along the shaft.
std::vector<std::size_t> in_shaft_order(const Job& job) {
    std::vector<std::size_t> order(job.lobes.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return job.lobes[a].z < job.lobes[b].z; });
    return order;
}

/// Whether the tappet reaches over that lobe, and rides on it too.
bool doubt_tappet_over(Doubts& doubts, const Tappet& tappet, const LobeEntry& other) {
    const double room = std::abs(other.z - tappet.middle) - 0.5 * other.width;
    if (0.5 * tappet.face <= room + touching) return false;
    doubts.ask("follower." + tappet.lobe->follower + ".face_diameter", "tappet-over-lobe",
               "the tappet of lobe '" + tappet.lobe->name + "', " + doubts.length(tappet.face) +
                   " across, reaches over lobe '" + other.name + "' and rides on it too",
               "give it a face of " + doubts.length(2.0 * room) + " or less, or set the lobes further apart");
    return true;
}

/// Each tappet against the lobes on either side of its own.
void doubt_tappets_over_lobes(Doubts& doubts, const std::vector<Tappet>& tappets) {
    const std::vector<std::size_t> order = in_shaft_order(doubts.job);
    std::vector<std::size_t> rank(order.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        rank[order[i]] = i;
    for (const Tappet& tappet : tappets) {
        const std::size_t own = rank[tappet.entry];
        if (own > 0 && doubt_tappet_over(doubts, tappet, doubts.job.lobes[order[own - 1]])) continue;
        if (own + 1 < order.size()) doubt_tappet_over(doubts, tappet, doubts.job.lobes[order[own + 1]]);
    }
}

/// Noses that all point one way: an angle copied from lobe to lobe. Two lobes of one profile may be those of
/// two valves that open together.
void doubt_angles(Doubts& doubts) {
    const auto& lobes = doubts.job.lobes;
    constexpr std::size_t enough = 3;
    const bool alike = std::all_of(lobes.begin(), lobes.end(), [&](const LobeEntry& lobe) {
        return lobe.at == lobes.front().at && lobe.profile == lobes.front().profile &&
               lobe.follower == lobes.front().follower;
    });
    const bool one_way = std::all_of(lobes.begin(), lobes.end(), [&](const LobeEntry& lobe) {
        return lobe.at && lobe.at == lobes.front().at;
    });
    if (!one_way || lobes.size() < 2 || (alike && lobes.size() < enough)) return;
    doubts.ask("lobe[1].at", "one-angle",
               "the noses of all " + std::to_string(lobes.size()) + " lobes point at " +
                   shortest_fixed(lobes.front().at->degrees(), 3) + " degrees",
               "give each lobe its own `at`, or cylinder and valve for the engine's timing to place it");
}

/// How many lobes each cylinder has for one valve.
std::map<int, int> lobes_by_cylinder(const Job& job, Valve valve) {
    std::map<int, int> counts;
    for (int cylinder = 1; cylinder <= job.engine->cylinders; ++cylinder)
        counts[cylinder] = 0;
    for (const LobeEntry& lobe : job.lobes) {
        if (lobe.cylinder > 0 && lobe.valve == valve) ++counts[lobe.cylinder];
    }
    return counts;
}

/// A cylinder's number copied from lobe to lobe: one cylinder has a lobe too many, another one too few. (A
/// shaft for some of the cylinders alone has none for the others.)
void doubt_cylinders(Doubts& doubts, Valve valve) {
    std::map<int, int> cylinders_with;  // so many lobes
    const std::map<int, int> counts = lobes_by_cylinder(doubts.job, valve);
    for (const auto& [cylinder, count] : counts)
        ++cylinders_with[count];
    const auto more = std::find_if(counts.begin(), counts.end(), [&](const auto& each) {
        return cylinders_with[each.second] == 1 && cylinders_with[each.second - 1] > 1;
    });
    if (more == counts.end()) return;
    const auto less = std::find_if(counts.begin(), counts.end(),
                                   [&](const auto& each) { return each.second == more->second - 2; });
    if (less == counts.end()) return;
    const std::string name = valve == Valve::inlet ? "inlet" : "exhaust";
    std::size_t last = 0;
    for (std::size_t i = 0; i < doubts.job.lobes.size(); ++i) {
        const LobeEntry& lobe = doubts.job.lobes[i];
        if (lobe.cylinder == more->first && lobe.valve == valve) last = i;
    }
    doubts.ask("lobe[" + std::to_string(last) + "].cylinder", "cylinder-twice",
               "cylinder " + std::to_string(more->first) + " has " + std::to_string(more->second) + " " +
                   name + " lobes, and cylinder " + std::to_string(less->first) + " has " +
                   (less->second == 0 ? "none" : std::to_string(less->second)),
               "is lobe '" + doubts.job.lobes[last].name + "' meant for cylinder " +
                   std::to_string(less->first) + "?");
}

}  // namespace

void doubt_shaft(Doubts& doubts) {
    doubt_start(doubts);
    doubt_journals(doubts);
    const std::vector<Tappet> tappets = tappets_of(doubts.job);
    if (!doubt_row_of_tappets(doubts, tappets)) doubt_tappets_over_lobes(doubts, tappets);
    doubt_angles(doubts);
    if (!doubts.job.engine) return;
    doubt_cylinders(doubts, Valve::inlet);
    doubt_cylinders(doubts, Valve::exhaust);
}

}  // namespace lobewright::plausibility
