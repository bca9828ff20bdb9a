/// The operations of a job as one program, on a machine that changes tools by itself.
#pragma once

#include <lobewright/operation_work.h>
#include <lobewright/toolpath.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

struct OneProgram {
    std::vector<PlannedOperation> operations;
    std::string text;
    std::vector<ProofReport> proofs;  ///< one for each operation
};

/// Why these operations can't be one program, at the key that stands in the way; nothing where they can: all
/// on one machine, whose dialect calls tools by their numbers and, where the cutters differ, puts their
/// lengths on; each cutter with numbers of its own; a place where tools change; a rotary axis that runs on or
/// has room to wind back. Required: several works.
std::optional<Diagnostic> hindrance_to_one_program(const std::vector<OperationWork>& works);

/// The program, planned, written and proven from its own text, as proven_program does for one. The shaft runs
/// on from where the operation before leaves it, to the nearest turn, where the rotary word has room for
/// that. Required: nothing hinders.
Outcome<OneProgram> proven_in_one(const std::vector<OperationWork>& works);

}  // namespace lobewright
