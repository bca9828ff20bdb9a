/// Whether the planner had a reason to refuse a job, found out by other means.
#pragma once

#include "random_job.h"
#include "sweep.h"

namespace refusal_check {

using namespace lobewright;

/// Whether a pass's cutter, neck, shank or holder cuts into anything beside its own lobe: a journal, the
/// blank of a lobe that is not cut yet, the contour of one that is; and what stands behind the cutting edges,
/// into the lobe's own blank. `margin`: mm by which it need only come near.
bool touches_neighbours(const random_job::Drawn& drawn, const Pass& pass,
                        const std::vector<sweep::Position>& positions, random_job::Source& random,
                        double margin = -1e-5);

bool has_its_reason(const random_job::Drawn& drawn, const Diagnostic& refusal, random_job::Source& random);

}  // namespace refusal_check
