/// The operations that a command works on: which of them the options choose, and the dialects of their
/// machines.
#pragma once

#include "cli/load.h"

#include <lobewright/operation_work.h>
#include <lobewright/ways.h>

namespace lobewright::cli {

/// Every operation of the job, each with its lobes and its machine's dialect; --post stands for the dialect
/// of the one that --operation chooses, or of all. Required: the job meets the needs of Purpose::cut.
Outcome<std::vector<OperationWork>> load_works(const SolvedJob& solved, const Options& options,
                                               Inputs& inputs);

/// The index of the operation that --operation names, of the only one, or nothing where several are meant;
/// an unknown name is a complaint.
Outcome<std::optional<std::size_t>> chosen_operation(const Job& job, const Options& options);

/// A line over what is said of one operation of several.
std::string operation_heading(const Job& job);

/// That `command` works on one operation and the job has several.
Diagnostic wants_operation(const Job& job, const std::string& command, const std::string& remedy);

/// Each way to cut the job: its operations, or its cutters, as far as it has machine and cut, and its hand
/// methods. A post that can't be read is a complaint, for `cut` would stop at it.
std::vector<Way> ways_of(const SolvedJob& solved, const Options& options, Inputs& inputs, Result& result);

/// The lobes of the work that --lobe and --from choose (see chosen_work).
Outcome<OperationWork> chosen_of_work(OperationWork work, const Options& options,
                                      std::vector<std::string>& remarks);

}  // namespace lobewright::cli
