/// The rotary word kept within what its axis and the controller can do: the shaft winds back by whole turns,
/// the cutter clear of it.
#pragma once

#include "toolpath/setup.h"

#include <lobewright/toolpath.h>

#include <optional>
#include <variant>

namespace lobewright::toolpath {

/// How far the rotary word may go, either side of zero.
struct RotaryReach {
    double degrees = 0.0;
    bool of_axis = true;  ///< machine.limits.rotary_travel says so; else the dialect
};
/// The lesser of both; nothing where neither says anything.
std::optional<RotaryReach> rotary_reach(const Setup& setup);

/// The shaft turns further in one go, in the metal, than its reach holds.
struct ReachTooShort {
    std::size_t lobe = 0;  ///< index in the solved lobes
    double turn = 0.0;     ///< degrees in one go
    double least = 0.0;    ///< degrees of reach, either side of zero, with which the path could be run
};

/// The same path, its rotary words within `reach` (degrees). Between two strokes, where the cutter stands
/// retracted, whole turns are taken off: as rarely as will do (strokes that have a count of turns in common
/// keep it), and each time as few turns as will do. Where the shaft would turn on at rapid to the next stroke
/// anyway, that rapid winds it back; elsewhere one is put in. Its time is counted.
std::variant<Toolpath, ReachTooShort> unwound(const Setup& setup, Toolpath path, double reach);

/// What a path takes once it is wound back where it must be; where it can't be, more than any path takes, and
/// the more the further it would have to reach.
double seconds_within_reach(const Setup& setup, const Toolpath& path);

}  // namespace lobewright::toolpath
