/// The tunnel round the radial function in which a pass may run, and the path through it on the machine's
/// grid.
#pragma once

#include "toolpath/fewest_blocks.h"
#include "toolpath/radial_function.h"

#include <lobewright/word_grid.h>

#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// How far the surface may lie off the pass's own, along the normal, mm.
struct Margins {
    double proud = 0.0;
    double deep = 0.0;
};

/// By how much the section may stand off its radial function where the surface may lie `margin` off: where
/// the normal leans by ψ and the surface has the radius ρ, the error e in the radial direction puts the
/// section's contact at sqrt((ρ + e cos ψ)² + (e sin ψ)²) - ρ from the surface. Solved for e: margin / cos ψ
/// where the surface is flat, margin itself at a corner. `contact.give` is ρ; in a hollow the difference of
/// the two radii.
double radial_margin(const Contact& contact, double margin);

/// The walls X - radial_margin(deep) and X + radial_margin(proud), narrowed by `narrow` (mm of radius) on
/// both sides, as gates at the contacts. Between contacts a wall bows from its chord by less than a quarter
/// of the spacing times the difference of slopes; where it bows inwards, that is taken off the gates on both
/// sides, so that a path between the gates is between the walls. Contacts at one place (a kink) make one
/// gate.
std::vector<Gate> tunnel(const std::vector<Contact>& contacts, Margins margins, double narrow);

/// A place on the grid: whole steps of travel from the pass's own zero, and of the radial word.
struct GridKnot {
    long long rotary = 0;
    long long radial = 0;
};

/// Steps of the grid in the units of the path: radians, mm.
struct Steps {
    double rotary = 0.0;
    double radial = 0.0;
};

/// The path with the fewest blocks through the tunnel whose knots lie on the grid; no block turns more than
/// `longest_block` radians (0: no limit). The tunnel given to the search is narrowed by what rounding can
/// spoil (half a radial step, and the knot's shift by half a rotary step along the difference of slopes of
/// its two blocks), and the result is held against the tunnel as it was; nothing, if the grid is too coarse
/// for this tunnel. Required: the first and the last gate stand on whole rotary steps; gates' values are
/// those of the radial word.
std::optional<std::vector<GridKnot>> path_on_grid(const std::vector<Gate>& gates, Steps steps,
                                                  double longest_block);

/// The gates, `by` mm narrower on both sides; nothing where that closes one.
std::optional<std::vector<Gate>> narrowed(const std::vector<Gate>& gates, double by);

}  // namespace lobewright::toolpath
