/// The toolpath's sentences: why something can't be cut, with the job's keys, names and units.
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/path/linear_floor.h"
#include "toolpath/path/unwinding.h"
#include "toolpath/roughing/roughing.h"
#include "toolpath/section/dished_end.h"

#include <lobewright/lobe.h>
#include <lobewright/word_grid.h>

#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// Of one lobe. Required: the job's machine, cut and cutter are there.
Diagnostic refusal_of(const Job& job, const std::vector<SolvedLobe>& lobes, std::size_t index,
                      const CannotCut& why);

Diagnostic refusal_of(const Job& job, const SolvedLobe& lobe, const TooManyPasses& why);

/// A finish pass alone takes more at once than it may.
struct FinishTooDeep {
    double takes = 0.0;  ///< mm
    double most = 0.0;   ///< mm
};
Diagnostic refusal_of(const Job& job, const SolvedLobe& lobe, const FinishTooDeep& why);

/// The rim runs faster than the cutter's own limit; nothing where it doesn't, or has none.
std::optional<Diagnostic> rim_too_fast(const Job& job);

/// Warns where a wheel loses more on a lobe than the tolerance; and where what it loses on all of them leaves
/// the tolerance, if another shaft is ground with the same program and the radial zero set anew: a wheel
/// whose radius is less by δ then leaves δ (1 - cos ψ) at a normal that leans by ψ, `lean` at most. `lobes`:
/// how many.
Diagnostics wear_warnings(const Job& job, double lean, int lobes);

/// One pass turns the shaft further than its axis, or the controller's words, can.
Diagnostic refusal_of(const Job& job, const SolvedLobe& lobe, const RotaryReach& reach,
                      const ReachTooShort& why);

/// A warning: a square end's middle would have to cut.
Diagnostic remark_on(const Job& job, const DeadMiddle& why);

/// Blocks that the controller would run faster than they are planned, whatever their knots.
Diagnostic refusal_of(const Job& job, const SolvedLobe& lobe, const WordGrid& grid, const RunsAway& why);

/// So many passes over all lobes are the most: each takes some 50 blocks, and the program minutes to plan and
/// prove.
inline constexpr double most_passes = 10000.0;
Diagnostic refusal_of_passes(const Job& job);

/// The words of the post step too coarsely for the tolerance.
Diagnostic refusal_of_grid(const Job& job, const WordGrid& grid);

}  // namespace lobewright::toolpath
