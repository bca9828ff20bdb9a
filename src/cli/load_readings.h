/// Reading what was measured.
#pragma once

#include "cli/load.h"

#include <lobewright/inspect_fit.h>

namespace lobewright::cli {

/// The hand method whose wheel's marks are asked for.
Outcome<HandMethod> wheel_method(const Job& job, const std::string& name);

/// The file of readings that the options name, read as they say; of the lobe called `lobe`, or, where that is
/// empty, of the only one, or of those that the file names.
Outcome<std::vector<MeasuredLobe>> load_readings(const SolvedJob& solved, const std::string& lobe,
                                                 const Options& options, Inputs& inputs);

/// What the options say is not known.
InspectRequest request_of(const Options& options, Units units);

/// Each lobe's inspection by the readings that the options name, judged by the tolerance of [cut] where there
/// is one; none without --readings. What is wrong with them is among the result's messages.
std::vector<LobeInspection> load_inspections(const SolvedJob& solved, const Options& options, Inputs& inputs,
                                             Result& result);

}  // namespace lobewright::cli
