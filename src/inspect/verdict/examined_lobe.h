/// An inspection with the lobe's own error, which other rooms go on with.
#pragma once

#include "inspect/verdict/lobe_error.h"

namespace lobewright::inspection {

struct ExaminedLobe {
    LobeInspection found;
    LobeError error;
};

/// As inspect_lobe.
Outcome<ExaminedLobe> examine_lobe(const Job& job, const std::vector<SolvedLobe>& lobes,
                                   const MeasuredLobe& measured, const InspectRequest& request);

}  // namespace lobewright::inspection
