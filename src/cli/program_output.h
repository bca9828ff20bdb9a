/// What cut says of a program that it writes, and where it doesn't write one.
#pragma once

#include "cli/options.h"

#include <lobewright/dialect.h>
#include <lobewright/job.h>
#include <lobewright/proof.h>

#include <optional>
#include <string>

namespace lobewright::cli {

/// "Proven from its own text: 8 lobes, from 0.0012 below the design to 0.0009 mm above it."
std::string proof_remark(const Job& job, const ProofReport& report,
                         const std::string& against = "the design");

/// The complaint where -o names something else than a program of ours.
std::optional<Diagnostic> find_other_file(const Options& options, const Dialect& dialect, Units units);

}  // namespace lobewright::cli
