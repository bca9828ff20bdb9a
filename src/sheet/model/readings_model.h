/// Measured lobes as plain data.
#pragma once

#include "base/text/json_text.h"

#include <lobewright/inspect_fit.h>

#include <vector>

namespace lobewright::sheet {

/// `readings[]`, each lobe's with `lobe, phase_error, base_error` (null where it can't be told), `tolerance`
/// (null where there is none), `points` (three figures each: cam angle, reading less design, 1 where it is
/// set aside) and `course` (three figures each: cam angle, the follower's lift error, its standard error).
void put_measured_lobes(JsonText& json, const std::vector<SolvedLobe>& lobes,
                        const std::vector<LobeInspection>& inspections, Units units);

}  // namespace lobewright::sheet
