/// The operations of a job, each as a job of one cut on one machine.
///
/// Planner, writer and proof know one cut on one machine: `cut` and `machine` of a job. A job with [cut] is
/// that already; one with [[operation]] comes as many jobs, each with the stock that those before it leave.
#pragma once

#include <lobewright/job.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lobewright {

/// The job of its operation `index`: `cut` and `machine` are that operation's, `operation` is its name, and
/// stock.after tells what those before it leave. Places follow: "cut.tolerance" is where the operation's own
/// tolerance stands, "machine.post" where that of its machine does. All lobes are still there. A machine that
/// the job doesn't have is absent. Required: index < job.operations.size().
Job job_of_operation(const Job& job, std::size_t index);

/// All of them in their order; a job without [[operation]] is the only one.
std::vector<Job> jobs_of_operations(const Job& job);

/// Names of the lobes that an operation cuts: its own, or all of the job's.
std::vector<std::string> lobes_of_operation(const Job& job, const Operation& operation);

/// The index of the operation of that name; nothing where there is none.
std::optional<std::size_t> find_operation(const Job& job, std::string_view name);

/// What the finished lobes are to keep: the tolerance of [cut], or of the last operation, mm.
std::optional<double> finished_tolerance(const Job& job);

/// Operations that would cut air, wholly or in places, because less stands there than they leave on (with
/// what both may be off by): a complaint each, Fault::bad_input, at the place of the allowance.
Diagnostics cuts_in_air(const Job& job);

}  // namespace lobewright
