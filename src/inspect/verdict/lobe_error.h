/// A measured lobe's own error, as its follower feels it and as its surface stands. This room makes of it
/// what the engine does with the lobe: motion, events, tolerance.
#pragma once

#include "inspect/fit/local_curve.h"
#include "inspect/fit/phase_fit.h"

namespace lobewright::inspection {

/// The follower's lift error over its cam angle (of the design: the phase error is taken out). A reading's
/// error lies along the probe's way; along the normal it is 1 / growth of it, and the follower's lift has 1 /
/// cos (pressure angle) of that where the follower touches the same point of the lobe.
struct LobeError {
    LocalCurve of_lift;     ///< by the follower's cam angle
    LocalCurve of_surface;  ///< along the normal, by the cam angle that faced the probe
};

/// `used`: which of the readings count; `deviation`: of one reading, mm.
LobeError lobe_error(const SolvedLobe& lobe, const Probe& probe, const std::vector<FittedReading>& readings,
                     const std::vector<bool>& used, double deviation);

/// Nothing where the readings lie too far apart.
std::optional<MeasuredMotion> measured_motion(const SolvedLobe& lobe, const LobeError& error);

/// Nothing where the job doesn't time the valve, or the readings lie too far apart at an event.
std::optional<MeasuredEvents> measured_events(const Job& job, const SolvedLobe& lobe, const LobeError& error,
                                              const Estimate& phase);

/// `base`: 0 where it is not known.
std::optional<SurfaceFound> surface_found(const LobeError& error, const Estimate& base,
                                          std::optional<double> tolerance);

}  // namespace lobewright::inspection
