/// What a tool meets along the shaft: the lobes and journals beside the one that it cuts.
#pragma once

#include "hand/facts.h"

#include <optional>
#include <vector>

namespace lobewright::hand {

/// What stands nearer to a lobe or to the axis than this is taken to touch it, mm: over the rounding of a
/// metre (1e-13), under anything that can be set.
inline constexpr double touching = 1e-9;

/// Neighbouring places of a tool share this part of its width, or its rounded corners leave a fin between
/// them: common practice.
inline constexpr double shared_width = 0.1;

/// Where a tool of that width (nothing: not known) plunges on each lobe: places that overlap, the first and
/// the last flush with the lobe's sides; and from where to where it feeds along, beginning on the side with
/// more room.
std::vector<HandPlunge> plan_plunges(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     std::optional<double> tool_width);
/// Every lobe that a tool fed along with the slide locked can't begin beside: no room on either side.
void check_strokes_along(const Job& job, const std::vector<SolvedLobe>& lobes,
                         std::optional<double> tool_width, Obstacles& obstacles);
/// Every neighbour that such a tool would cut into.
void check_plunges(const Job& job, const std::vector<SolvedLobe>& lobes, std::optional<double> tool_width,
                   Obstacles& obstacles);

/// A cutter that lies along the shaft: every lobe where its body or neck would foul what stands on either
/// side, so that neither end of it can be held.
void check_body(const Job& job, const std::vector<SolvedLobe>& lobes, const Cutter& cutter,
                Obstacles& obstacles);

}  // namespace lobewright::hand
