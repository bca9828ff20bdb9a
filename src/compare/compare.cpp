#include "job/complaint.h"
#include "job/law_keys.h"
#include "profile/judge/joint_steps.h"

#include <lobewright/compare.h>
#include <lobewright/timing.h>

#include <algorithm>

namespace lobewright {
namespace {

/// The job with one lobe alone, which has that profile, and the cylinder's first lobe of the other valve.
Job with_lobe(const Job& job, std::size_t index, const std::string& profile) {
    Job changed = job;
    LobeEntry entry = job.lobes[index];
    entry.profile = profile;
    changed.lobes = {entry};
    const auto partner = std::find_if(job.lobes.begin(), job.lobes.end(), [&](const LobeEntry& other) {
        return entry.cylinder > 0 && other.cylinder == entry.cylinder && other.valve != entry.valve;
    });
    if (partner != job.lobes.end()) changed.lobes.push_back(*partner);
    return changed;
}

/// Inlet's opening before TDC and exhaust's closing after it.
std::optional<CrankAngle> overlap_of(const Job& pair, KnownShapes& known) {
    const auto lobes = solve_lobes(pair, known);
    if (!lobes || lobes->size() < 2) return std::nullopt;
    const bool inlet_first = pair.lobes.front().valve == Valve::inlet;
    const auto inlet = card_events(pair, (*lobes)[inlet_first ? 0 : 1]);
    const auto exhaust = card_events(pair, (*lobes)[inlet_first ? 1 : 0]);
    return inlet && exhaust ? std::optional(inlet->opens + exhaust->closes) : std::nullopt;
}

/// Judges the first lobe of a job of one lobe or two.
ComparedLobe compared(const Job& pair, const std::string& law, KnownShapes& known) {
    ComparedLobe row;
    row.profile = pair.lobes.front().profile, row.law = law, row.lobe = pair.lobes.front().name;
    Job alone = pair;
    alone.lobes.resize(1);
    const auto lobes = solve_lobes(alone, known);
    if (!lobes) {
        row.complaints = lobes.diagnostics();
        return row;
    }
    row.report = judge(alone, *lobes).lobes.front();
    row.acceleration_jump = profile::acceleration_steps(lobes->front().motion.pieces()).largest;
    if (const auto events = card_events(alone, lobes->front())) row.duration = events->duration;
    if (pair.lobes.size() > 1) row.overlap = overlap_of(pair, known);
    return row;
}

std::size_t lobe_for(const Job& job, const std::string& profile, std::optional<std::size_t> wanted) {
    if (wanted) return *wanted;
    const auto uses = std::find_if(job.lobes.begin(), job.lobes.end(),
                                   [&](const LobeEntry& entry) { return entry.profile == profile; });
    return uses == job.lobes.end() ? 0 : static_cast<std::size_t>(uses - job.lobes.begin());
}

/// A motion in the place of arcs: their ramps go from the deeper base circle.
MotionProfile motion_for(const ArcsProfile& arcs) {
    MotionProfile motion;
    motion.base_radius = arcs.base_radius, motion.lift = arcs.lift;
    if (arcs.action_angle)
        motion.opening_angle = motion.closing_angle = *arcs.action_angle / 2.0;
    else
        motion.opening_share = 0.5;
    if (!arcs.ramps) return motion;
    motion.base_radius -= arcs.ramps->lift, motion.lift += arcs.ramps->lift;
    motion.opening_ramp = Ramp{arcs.ramps->lift, arcs.ramps->opening};
    motion.closing_ramp = Ramp{arcs.ramps->lift, arcs.ramps->closing};
    return motion;
}

/// A motion in the place of a fullest lift whose lift is given.
std::optional<MotionProfile> motion_for(const FullestProfile& fullest) {
    if (!fullest.lift) return std::nullopt;
    MotionProfile motion;
    motion.base_radius = fullest.base_radius, motion.lift = *fullest.lift;
    motion.opening_angle = fullest.opening_angle, motion.closing_angle = fullest.closing_angle;
    motion.opening_ramp = fullest.opening_ramp, motion.closing_ramp = fullest.closing_ramp;
    motion.opening_share = fullest.opening_share;
    return motion;
}

std::optional<MotionProfile> motion_for(const Profile& profile) {
    if (const auto* motion = std::get_if<MotionProfile>(&profile)) return *motion;
    if (const auto* arcs = std::get_if<ArcsProfile>(&profile)) return motion_for(*arcs);
    if (const auto* fullest = std::get_if<FullestProfile>(&profile)) return motion_for(*fullest);
    return std::nullopt;
}

/// "power-polynomial 2-10-18-26"
std::string law_words_of(LawKind law, const std::vector<int>& powers) {
    std::string words = law_words()[static_cast<std::size_t>(law)];
    if (law != LawKind::power_polynomial) return words;
    for (std::size_t i = 0; i < powers.size(); ++i)
        words += (i == 0 ? ' ' : '-') + std::to_string(powers[i]);
    return words;
}

}  // namespace

std::vector<ComparedLobe> compare_profiles(const Job& job, std::optional<std::size_t> lobe,
                                           KnownShapes& known) {
    std::vector<ComparedLobe> rows;
    for (const auto& [name, profile] : job.profiles)
        rows.push_back(compared(with_lobe(job, lobe_for(job, name, lobe), name), "", known));
    return rows;
}

std::vector<ComparedLobe> compare_profiles(const Job& job, std::optional<std::size_t> lobe) {
    KnownShapes known;
    return compare_profiles(job, lobe, known);
}

Outcome<std::vector<ComparedLobe>> compare_laws(const Job& job, const std::string& profile,
                                                std::optional<std::size_t> lobe, KnownShapes& known) {
    const auto motion = motion_for(job.profiles.at(profile));
    if (!motion) {
        return bad_key(job, "profile." + profile + ".shape", "no-laws",
                       "no law can stand in for the profile '" + profile + "'",
                       "name one of shape \"motion\" or \"arcs\", or \"fullest\" with a lift");
    }
    std::vector<ComparedLobe> rows;
    Job changed = with_lobe(job, lobe_for(job, profile, lobe), profile);
    for (std::size_t i = 0; i < law_words().size(); ++i) {
        MotionProfile with = *motion;
        with.law = static_cast<LawKind>(i);
        with.closing_law.reset();
        if (with.powers.empty()) with.powers = {2, 10, 18, 26};
        changed.profiles.insert_or_assign(profile, with);
        rows.push_back(compared(changed, law_words_of(with.law, with.powers), known));
    }
    return rows;
}

Outcome<std::vector<ComparedLobe>> compare_laws(const Job& job, const std::string& profile,
                                                std::optional<std::size_t> lobe) {
    KnownShapes known;
    return compare_laws(job, profile, lobe, known);
}

}  // namespace lobewright
