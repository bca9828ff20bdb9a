/// Whether the section can lie against every point of a lobe, and if not, the cutter that can.
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/section/radial_function.h"
#include "toolpath/setup.h"

#include <lobewright/lobe.h>

#include <optional>

namespace lobewright::toolpath {

/// What keeps a section off the lobe.
enum class Hindrance {
    none,
    too_narrow,  ///< the contact runs past the section's ends, where nothing cuts, or so steeply that its
                 ///< side would cut
    hollow,      ///< it can't get into a hollow
};

/// Leans beyond this can't be cut by the end of a cutter: its corner would climb the flank.
inline constexpr ShaftAngle steepest_lean = ShaftAngle::from_degrees(75.0);

/// `nodes` are the contacts of the section on the contour.
Hindrance hindrance(const std::vector<CutterContact>& nodes, const PlaneSection& section);

/// Nothing where the job's cutter reaches every point of the lobe; else what keeps it off (TooLargeForHollow,
/// EndTooNarrow, EdgesTooNarrow), with the largest (or smallest) cutter of its kind that does, found by
/// bisection with the same test.
std::optional<CannotCut> unreached(const Setup& setup, const SolvedLobe& lobe,
                                   const std::vector<CutterContact>& nodes);

/// Whether side_shift leaves no contact. Required before contacts(): that it is not too large.
std::optional<ShiftTooLarge> shift_too_large(const Setup& setup, const SolvedLobe& lobe);

}  // namespace lobewright::toolpath
