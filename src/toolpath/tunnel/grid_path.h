/// The path through a tunnel whose knots lie on the machine's grid.
#pragma once

#include "toolpath/tunnel/fewest_blocks.h"

#include <limits>
#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// A place on the grid: whole steps of travel from the pass's own zero, and of the radial word.
struct GridKnot {
    long long rotary = 0;
    long long radial = 0;
    bool operator==(const GridKnot&) const = default;
};

/// Steps of the grid in the units of the path: radians, mm.
struct Steps {
    double rotary = 0.0;
    double radial = 0.0;
};

struct GridRules {
    Steps steps;
    double longest_block = 0.0;                               ///< radians that a block may turn; 0: any
    long long least = std::numeric_limits<long long>::min();  ///< radial word that no knot goes below
};

/// A path through the tunnel whose knots lie on the grid, in blocks as few as can be found. Every block is as
/// long as the tunnel lets it be from its own knot, in the tunnel's full width; its end is the grid's point,
/// of those that it can reach, from which the next block gets furthest, looked for round the place where the
/// best next line, were there no grid, crosses the frontier (see Sight). On a flank the grid's points lie so
/// densely along the walls that hardly anything is lost by them. Nothing, if there is not a word at every
/// place of the tunnel, or no such path is found: the grid is too coarse for it. Required: the first and the
/// last gate stand on whole rotary steps; gates' values are those of the radial word.
std::optional<std::vector<GridKnot>> path_on_grid(const std::vector<Gate>& gates, const GridRules& rules);

}  // namespace lobewright::toolpath
