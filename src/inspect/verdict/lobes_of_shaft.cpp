#include <lobewright/inspect_fit.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

Estimate mean_of(const std::vector<LobeInspection>& inspections) {
    Estimate mean;
    double variances = 0.0;
    for (const LobeInspection& each : inspections) {
        mean.value += each.phase.value;
        variances += each.phase.error * each.phase.error;
    }
    const double count = static_cast<double>(inspections.size());
    return {mean.value / count, std::sqrt(variances) / count};
}

/// The mean holds a share of the lobe's own error, which so counts less.
Estimate off_mean(const Estimate& phase, const Estimate& mean, double count) {
    const double own = phase.error * (1.0 - 1.0 / count);
    const double own_share = phase.error / count;
    const double others = std::max(0.0, mean.error * mean.error - own_share * own_share);
    return {phase.value - mean.value, std::sqrt(own * own + others)};
}

const LobeInspection* valve_of(const Job& job, const std::vector<SolvedLobe>& lobes,
                               const std::vector<LobeInspection>& inspections, int cylinder, Valve valve) {
    for (const LobeInspection& each : inspections) {
        const LobeEntry& entry = job.lobes[lobes[each.lobe].entry];
        if (each.events && entry.cylinder == cylinder && entry.valve == valve) return &each;
    }
    return nullptr;
}

std::vector<OverlapFound> overlaps_of(const Job& job, const std::vector<SolvedLobe>& lobes,
                                      const std::vector<LobeInspection>& inspections) {
    std::vector<OverlapFound> overlaps;
    const int cylinders = job.engine ? static_cast<int>(job.engine->firing_angles.size()) : 0;
    for (int k = 1; k <= cylinders; ++k) {
        const LobeInspection* inlet = valve_of(job, lobes, inspections, k, Valve::inlet);
        const LobeInspection* exhaust = valve_of(job, lobes, inspections, k, Valve::exhaust);
        if (inlet == nullptr || exhaust == nullptr) continue;
        const Estimate &opens = inlet->events->opens_late, &closes = exhaust->events->closes_late;
        const CrankAngle design = inlet->events->design.opens + exhaust->events->design.closes;
        overlaps.push_back({k,
                            design,
                            {design.radians() - opens.value + closes.value,
                             std::sqrt(opens.error * opens.error + closes.error * closes.error)}});
    }
    return overlaps;
}

}  // namespace

std::optional<ShaftInspection> shaft_inspection(const Job& job, const std::vector<SolvedLobe>& lobes,
                                                const std::vector<LobeInspection>& inspections) {
    if (inspections.size() < 2) return std::nullopt;
    ShaftInspection shaft;
    shaft.phase = mean_of(inspections);
    for (const LobeInspection& each : inspections)
        shaft.lobes.push_back(
            {each.lobe, off_mean(each.phase, shaft.phase, static_cast<double>(inspections.size()))});
    shaft.overlaps = overlaps_of(job, lobes, inspections);
    return shaft;
}

}  // namespace lobewright
