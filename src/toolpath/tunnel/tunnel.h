/// The tunnel round the radial function in which a pass may run. This room holds the tunnel and the paths
/// with the fewest straight blocks through it, with and without the machine's grid.
#pragma once

#include "toolpath/section/radial_function.h"
#include "toolpath/tunnel/fewest_blocks.h"

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
/// where the surface is flat, margin itself at a corner. `contact.effective_radius` is ρ; in a hollow the
/// difference of the two radii.
double radial_margin(const CutterContact& contact, double margin);

/// The walls X - radial_margin(deep) and X + radial_margin(proud), narrowed by `narrow` (mm along the normal)
/// on both sides, as gates at the contacts. Between contacts a wall bows from its chord by less than a
/// quarter of the spacing times the difference of slopes; where it bows inwards, that is taken off the gates
/// on both sides, so that a path between the gates is between the walls. Contacts at one place (a kink) make
/// one gate.
std::vector<Gate> tunnel(const std::vector<CutterContact>& contacts, Margins margins, double narrow);

/// A stretch of the tunnel's axis, radians of travel, over which the path is to stand still.
struct LevelSpan {
    double from = 0.0;
    double to = 0.0;
};

/// Holds the path level over the stretches, at the word nearest to `wanted` (mm) that the walls let pass: the
/// gates there become two, at the ends of each, that nothing but this word passes. Whole steps of the word;
/// nothing, and the gates as they were, where no word passes. Required: a gate within each stretch.
std::optional<long long> hold_level(std::vector<Gate>& gates, const std::vector<LevelSpan>& stretches,
                                    double wanted, double step);

/// `held` as hold_level left it of `free`, with a gate more beside each end of a level stretch: the walls
/// there are those of `free` again at once, and not only from the next gate on.
std::vector<Gate> opened_beside_levels(const std::vector<Gate>& held, const std::vector<Gate>& free);

/// The gates that are not fixed, `by` mm narrower on both sides; nothing where that closes one.
std::optional<std::vector<Gate>> narrowed(const std::vector<Gate>& gates, double by);

}  // namespace lobewright::toolpath
