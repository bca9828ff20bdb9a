/// What a proof's report means for the exit code.
#pragma once

#include <lobewright/proof.h>

#include <string>

namespace lobewright::cli {

/// One complaint (Fault::check_failed) for each finding that makes the program unfit, at its line of `file`,
/// and, where it is out of tolerance without such a finding, one that says so: none for a program that
/// passes. Then the findings that warn. `remedy` is what to do about each complaint.
Diagnostics verdict(const Job& job, const ProofReport& report, const std::string& file,
                    const std::string& remedy);

}  // namespace lobewright::cli
