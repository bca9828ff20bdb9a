/// How the surface that a program leaves runs round each lobe: more than a verdict tells, for one who goes on
/// from there.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/lobe.h>

#include <cstddef>
#include <string>
#include <vector>

namespace lobewright {

/// mm along the design's outward normal (with job.cut->allowance), in the plane in the lobe's middle, on rays
/// evenly round from -pi of the lobe's own frame (its nose at 0).
using SurfaceLeft = std::vector<double>;

/// By lobe, as the program's text says it, cut from the bar. A text that can't be read is a list of
/// diagnostics. Required: the job meets the needs of Purpose::prove; rays > 0.
Outcome<std::vector<SurfaceLeft>> surface_left(const Job& job, const std::vector<SolvedLobe>& lobes,
                                               const Dialect& dialect, const std::string& text,
                                               const std::string& file, std::size_t rays);

}  // namespace lobewright
