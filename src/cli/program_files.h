/// Where programs go, which files there they may write over, and what is said of them.
#pragma once

#include "cli/files.h"
#include "cli/options.h"

#include <lobewright/operation_work.h>
#include <lobewright/proof.h>

#include <optional>
#include <string>

namespace lobewright::cli {

/// "Proven from its own text: 8 lobes, from 0.0012 below the design to 0.0009 mm above it."
std::string proof_remark(const Job& job, const ProofReport& report,
                         const std::string& against = "the design");

/// The value of -o, with the operation's name where it says {operation}.
std::string output_name(const std::string& output, const Job& job);

/// The name of the file of part `number` of several: shaft.ngc becomes shaft-2.ngc.
std::string numbered_name(const std::string& name, std::size_t number);

/// The complaint where a file of that name is something else than a program of ours, and --force isn't there.
std::optional<Diagnostic> find_other_file(Files& files, const std::string& path, const Options& options,
                                          const Dialect& dialect, Units units);

/// That so many programs can't go to standard output.
Diagnostic wants_output(std::size_t programs, const Dialect& dialect);

/// Whether -o says {operation}: each then has a program of its own.
bool tells_operations_apart(const std::string& output);

/// Why the program of an operation can't go where -o says: that asks for an operation's name where there is
/// none, or something else than a program of ours stands there.
std::optional<Diagnostic> output_complaint(Files& files, const Options& options, const OperationWork& work);

}  // namespace lobewright::cli
