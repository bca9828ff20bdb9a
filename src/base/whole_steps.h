/// Numbers to whole steps of a grid, where rounding noise must not decide.
///
/// What stands at a tie in decimals (30.99805 mm, on a grid of 0.0001) rarely does in its double, and how a
/// formula is rounded on its way there must not choose between two programs. So a number within `step_noise`
/// of a tie is taken for the tie, and one within it of a whole number for that number. Every word, every
/// setting and every printed figure is rounded here.
#pragma once

namespace lobewright {

/// Of a step, and beside it 2^-48 of the number itself: sixteen of its double's own steps. Well over the
/// noise of formulas and roots (1e-12 mm, 1e-8 of the finest word's step), well under anything that a machine
/// or a reader could tell.
inline constexpr double step_noise = 1e-6;

/// The nearest whole number of steps; of two equally near, the one away from zero: taught for figures, and
/// the safe side for radial words, which grow away from the shaft. All three give at most 9e18 either way.
/// Required: not NaN.
long long nearest_step(double steps);
/// The least whole number that is not below `steps`, and the greatest that is not above.
long long step_above(double steps);
long long step_below(double steps);

}  // namespace lobewright
