/// The program under strace, which can make one call of the system fail, or kill the program at it.
#pragma once

#include "job_folder.h"

#include <string>
#include <vector>

/// The `count`-th call of that name in a run.
struct SystemCall {
    std::string name;
    int count = 0;
    bool after_start = false;  ///< made after the job was opened
};

/// Whether strace is there and may do its work.
bool can_trace();

/// The calls of a run in their order, as far as they can fail or be a last one.
std::vector<SystemCall> calls_of(const JobFolder& folder, const std::vector<std::string>& arguments);

/// A run in which something happens at one call: "error=EIO", "signal=SIGKILL".
Run traced_run(const JobFolder& folder, const std::vector<std::string>& arguments, const SystemCall& call,
               const std::string& what_happens);
