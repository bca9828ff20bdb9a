/// A lobe's phase, level and runout from readings of it.
#pragma once

#include "inspect/fit/robust_fit.h"
#include "inspect/probe/contour_probe.h"

#include <lobewright/inspect_fit.h>

namespace lobewright::inspection {

/// A reading in the lobe's frame.
struct RayReading {
    double beta = 0.0;  ///< direction that faced the probe, radians
    double reading = 0.0;
};

/// The design's own figure at one reading, with the fitted unknowns.
struct FittedReading {
    double expected = 0.0;
    double ray = 0.0;       ///< direction on the design that stood where the lobe's did, radians
    double growth = 1.0;    ///< as ProbeTouch has it
    double residual = 0.0;  ///< reading less expected
};

struct PhaseFound {
    Estimate phase;  ///< radians of cam angle, positive where the lobe comes late
    Estimate level;  ///< mm: of the base circle, or of the zero where that is unknown
    std::optional<RunoutFound> runout;
    std::vector<FittedReading> readings;
};

/// Required: readings by ascending beta. Nothing where they can't tell the unknowns apart.
std::optional<PhaseFound> find_phase(const SolvedLobe& lobe, const Probe& probe,
                                     const std::vector<RayReading>& readings, const InspectRequest& request,
                                     double least_scale);

/// Amplitude and direction of a cosine and a sine over the shaft angle, unknowns k and k + 1, with their
/// errors to first order.
RunoutFound runout_of(const FitFound& found, std::size_t k);

}  // namespace lobewright::inspection
