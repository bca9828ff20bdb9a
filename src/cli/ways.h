/// For each cutter and each hand method of a job: whether it can cut the shaft, why not, and what it would
/// leave.
#pragma once

#include <lobewright/lobe.h>
#include <lobewright/soundness.h>
#include <lobewright/word_grid.h>

#include <optional>
#include <vector>

namespace lobewright::cli {

/// One way of cutting the shaft.
struct Way {
    CutLine line;          ///< what it would leave, or why it can't be and what to do
    Diagnostics refusals;  ///< the complaints behind a refusal, with their places
    bool wanted = false;   ///< it is the cutter that [cut] names
};

/// Every cutter on the job's machine, then every hand method. `grid` is that of the machine's post; without
/// it, or without a [machine] and a [cut], the cutters are left out.
std::vector<Way> ways_to_cut(const Job& job, const std::vector<SolvedLobe>& lobes,
                             const std::optional<WordGrid>& grid);

/// The complaints that make `check` fail: those of the cutter that the job wants to use, and, where not one
/// of the ways is possible, those of all.
Diagnostics failures(const std::vector<Way>& ways);

}  // namespace lobewright::cli
