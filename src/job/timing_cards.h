/// The timing cards of [engine], in each of their forms.
#pragma once

#include "job/job_table.h"

namespace lobewright {

/// inlet, exhaust, lobe_separation and advance of [engine]. Required: engine.cam_per_crank is read.
void read_timing_cards(JobTable& table, Engine& engine);

}  // namespace lobewright
