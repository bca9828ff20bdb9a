#include "toolpath/whole_path.h"

#include "toolpath/path/unwinding.h"

#include <algorithm>
#include <set>

namespace lobewright::toolpath {

namespace {

/// Of all plans, the deepest first.
std::set<double, std::greater<>> depths_of(const std::vector<PlannedLobe>& lobes) {
    std::set<double, std::greater<>> depths;
    for (const PlannedLobe& lobe : lobes) {
        for (const LobePlan& plan : lobe.plans)
            depths.insert(plan.choice.depth);
    }
    return depths;
}

/// The parts of the plans that go no deeper.
std::vector<std::vector<PathPart>> parts_no_deeper(const std::vector<PlannedLobe>& lobes, double depth) {
    std::vector<std::vector<PathPart>> parts;
    for (const PlannedLobe& lobe : lobes) {
        parts.emplace_back();
        for (const LobePlan& plan : lobe.plans) {
            if (plan.choice.depth <= depth) parts.back().push_back(plan.part);
        }
    }
    return parts;
}

}  // namespace

Toolpath path_by_lobe(const Setup& setup, const std::vector<PlannedLobe>& lobes) {
    std::optional<Toolpath> best;
    double least = 0.0;
    for (const double depth : depths_of(lobes)) {
        const auto parts = parts_no_deeper(lobes, depth);
        if (std::any_of(parts.begin(), parts.end(), [](const auto& each) { return each.empty(); })) break;
        Toolpath path = fastest_path(setup, parts);
        if (!rotary_reach(setup)) return path;
        const double seconds = seconds_within_reach(setup, path);
        if (!best || seconds < least) best = std::move(path), least = seconds;
    }
    return std::move(*best);
}

void add_dressings(Toolpath& path, const Setup& setup) {
    if (!setup.cutter.dress_every) return;
    int ground = -1;
    std::optional<std::size_t> lobe;
    for (const Pass& pass : path.passes) {
        if (pass.lobe == lobe) continue;
        lobe = pass.lobe;
        if (++ground > 0 && ground % *setup.cutter.dress_every == 0) path.dressings.push_back(pass.first);
    }
    if (!setup.machine.tool_change) return;
    for (const std::size_t move : path.dressings) {
        const Words& at = path.moves[move - 1].to;
        const double radial =
            setup.machine.tool_change->radial - static_cast<double>(at.radial) * setup.grid.radial_step;
        const double axial =
            setup.machine.tool_change->axial - static_cast<double>(at.axial) * setup.grid.axial_step;
        path.cycle_seconds += 2.0 * (rapid_seconds(radial, 0.0, 0.0, setup.machine.limits) +
                                     rapid_seconds(0.0, axial, 0.0, setup.machine.limits));
    }
}

namespace {

/// One plan of each lobe.
using Choice = std::vector<const LobePlan*>;

double seconds_of(const Choice& choice) {
    double seconds = 0.0;
    for (const LobePlan* plan : choice)
        seconds += plan->seconds();
    return seconds;
}

/// The fastest plan of each lobe that goes no deeper; nothing where a lobe has none.
std::optional<Choice> no_deeper(const std::vector<PlannedLobe>& lobes, double depth) {
    Choice choice;
    for (const PlannedLobe& lobe : lobes) {
        const LobePlan* best = nullptr;
        for (const LobePlan& plan : lobe.plans) {
            if (plan.choice.depth <= depth && (best == nullptr || plan.seconds() < best->seconds()))
                best = &plan;
        }
        if (best == nullptr) return std::nullopt;
        choice.push_back(best);
    }
    return choice;
}

/// Choices that differ, the deepest first, as long as one may still make the fastest path: from lobe to lobe
/// and from stage to stage the shaft turns by less than once at rapid.
std::vector<Choice> choices_of(const Setup& setup, const std::vector<PlannedLobe>& lobes) {
    const double turns =
        2.0 * static_cast<double>(lobes.size()) * rapid_seconds(0.0, 0.0, 360.0, setup.machine.limits);
    std::vector<Choice> found;
    for (const double depth : depths_of(lobes)) {
        auto choice = no_deeper(lobes, depth);
        if (!choice) break;
        if (!found.empty() &&
            (*choice == found.back() || seconds_of(*choice) > seconds_of(found.front()) + turns))
            continue;
        found.push_back(std::move(*choice));
    }
    return found;
}

std::optional<Toolpath> path_of(const Setup& setup, const std::vector<PlannedLobe>& lobes,
                                const Choice& choice) {
    std::optional<PathJoiner> joiner;
    const auto add = [&](const PathPart& part) {
        if (part.moves.empty()) return;
        if (!joiner) joiner.emplace(setup, start_of(part));
        joiner->add(part);
    };
    for (const LobePlan* plan : choice)
        add(plan->part);
    for (std::size_t i = 0; i < lobes.size(); ++i) {
        PathBuilder path(setup, joiner ? joiner->now() : MachinePosition{});
        if (!lobes[i].planner.finish(path, choice[i]->choice)) return std::nullopt;
        add(path.finish());
    }
    return joiner->path();
}

}  // namespace

std::optional<Toolpath> path_by_stage(const Setup& setup, const std::vector<PlannedLobe>& lobes) {
    std::optional<Toolpath> fastest;
    double least = 0.0;
    for (const Choice& choice : choices_of(setup, lobes)) {
        auto path = path_of(setup, lobes, choice);
        if (!path) return std::nullopt;
        const double seconds = seconds_within_reach(setup, *path);
        if (!fastest || seconds < least) fastest = std::move(path), least = seconds;
    }
    return fastest;
}

}  // namespace lobewright::toolpath
