/// Why readings can't be judged, and what is doubtful about them.
#pragma once

#include <lobewright/inspect_fit.h>

namespace lobewright::inspection {

Diagnostic too_few_readings(const SolvedLobe& lobe, std::size_t readings, std::size_t least,
                            const Place& place);
/// Too far apart to be put together along the surface.
Diagnostic too_sparse_to_cut(const SolvedLobe& lobe, const Place& place);
Diagnostic readings_tell_nothing(const SolvedLobe& lobe, const InspectRequest& request, const Place& place);

/// Readings that look like another lobe's, or were taken in another unit or sense; a surface out of
/// tolerance.
Diagnostics doubts_about(const SolvedLobe& lobe, const LobeInspection& found, Units units,
                         const Place& place);

}  // namespace lobewright::inspection
