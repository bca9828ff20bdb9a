/// From the plans of all lobes to one path.
#pragma once

#include "toolpath/lobe_planner.h"

#include <optional>

namespace lobewright::toolpath {

/// A lobe's planner and its plans: at least one.
struct PlannedLobe {
    LobePlanner planner;
    std::vector<LobePlan> plans;
};

/// Lobe by lobe, in the choice that makes the whole fastest; where the shaft must be wound back, in the
/// fastest, with that, of those that go no deeper than one of the plans.
Toolpath path_by_lobe(const Setup& setup, const std::vector<PlannedLobe>& lobes);

/// The stops for dressing of a path that goes lobe by lobe, and the time of the ways to the place for it.
void add_dressings(Toolpath& path, const Setup& setup);

/// All lobes roughed, then all semi-finished and finished, each where the path comes to it: the fastest of
/// some whole paths, made one for each depth of a roughing among the plans, in which every lobe is cut in its
/// own fastest choice that goes no deeper. So with more choices the path is never slower. Nothing where the
/// grid is too coarse.
std::optional<Toolpath> path_by_stage(const Setup& setup, const std::vector<PlannedLobe>& lobes);

}  // namespace lobewright::toolpath
