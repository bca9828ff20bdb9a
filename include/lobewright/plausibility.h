/// Figures that may be meant but seldom are: what an experienced neighbour would ask before metal is cut.
///
/// A slip of the pen (inches in a file of millimetres, a card read at the wrong end, a decimal point) leaves
/// a job that solves, cuts and proves, and scraps the shaft all the same. The limits lie well outside what
/// shops do; what lies beyond them isn't refused but asked about.
#pragma once

#include <lobewright/lobe.h>

namespace lobewright {

/// The questions, each once: warnings, or notes where either is often meant; code and place are those of the
/// key in doubt, `what` holds its figure and what is odd about it, `remedy` the figure that was probably
/// meant. Nothing to ask: empty.
///
/// Where the lobes' size says that the whole file is in the other unit, that alone is asked. `lobes` are
/// those of solve_lobes; without them (they could not be solved) what hangs on their shape is left out.
Diagnostics implausible_figures(const Job& job, const std::vector<SolvedLobe>& lobes);

}  // namespace lobewright
