/// Times and speeds that the text asks for, against the machine's limits.
#pragma once

#include "proof/findings.h"
#include "proof/shaft_moves.h"

#include <lobewright/program_reader.h>

namespace lobewright::proof {

/// A feed's share of a limit may be exceeded by this: what the last decimal of F makes of it.
inline constexpr double limit_slack = 1e-3;
/// The same for accelerations, which are differences of speeds.
inline constexpr double acceleration_slack = 0.02;

/// Axis speeds, the block rate, and between the middles of neighbouring feeds the accelerations and jumps, by
/// the blocks' mean speeds: |v₂ - v₁| <= a (t₁ + t₂) / 2, from rest and to rest at the ends of a chain of
/// feeds.
void check_limits(const ReadProgram& program, const AxisLimits& limits, Findings& findings);

/// Spindle speed and sense against the job's. `teeth`: of the cutter, 0 for a wheel.
void check_spindle_words(const ReadProgram& program, double spindle_speed, int teeth, Findings& findings);

/// Feeds, arcs and dwells, and rapids by the axis speeds where those are given.
double cycle_seconds(const ReadProgram& program, const AxisLimits& limits);

}  // namespace lobewright::proof
