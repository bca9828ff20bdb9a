/// A job's operations with their lobes and their machines' dialects, each on the stock that those before it
/// leave.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/lobe.h>
#include <lobewright/proof.h>

#include <string>
#include <vector>

namespace lobewright {

/// One operation, ready for planner, writer and proof.
struct OperationWork {
    Job job;                            ///< see job_of_operation; of its lobes alone
    std::vector<SolvedLobe> lobes;      ///< that it cuts
    std::vector<std::string> left_out;  ///< names of the others, which stand in the way as they are
    Dialect dialect;                    ///< of its machine
};

/// All of a job's, in their order; a job without [[operation]] is the only one. `dialects`: one for each of
/// them. Required: the job meets the needs of Purpose::cut.
std::vector<OperationWork> works_of(const Job& job, const std::vector<SolvedLobe>& lobes,
                                    const std::vector<Dialect>& dialects);

/// The programs of the works before `end`, as they are written: what the one at `end` is proven on. A failure
/// is that of the first that can't be written.
Outcome<std::vector<EarlierProgram>> programs_before(const std::vector<OperationWork>& works,
                                                     std::size_t end);

}  // namespace lobewright
