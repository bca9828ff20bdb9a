/// What a command needs of a job beyond what every job has: one need, one sentence, one exit code.
///
/// [machine], [cut], [cutter] and [hand] may all be absent from a job file; so may keys of theirs that only
/// some uses ask for. Whoever uses them asks here first, and may then rely on them.
#pragma once

#include <lobewright/job.h>

#include <optional>
#include <string_view>

namespace lobewright {

enum class Purpose {
    cut,        ///< plan and write a program
    prove,      ///< read a program and cut the shaft with it
    index,      ///< the settings for one hand method
    installed,  ///< lift at the valve by crank degree
};

/// Every need of that purpose which the job doesn't meet, all in one go; empty: the purpose can be served.
/// `method` is the hand method's key under [hand] (index alone). What is absent is Fault::bad_input with code
/// "missing-key", at the place where it should stand: the table that lacks the key, the file where the table
/// itself is absent. A cutter that can't cut as the machine holds it is Fault::check_failed.
///
/// cut, prove: [machine], [cut] and the cutter that it names, shaft.blank_diameter, and what unfit_cutter
/// asks. index: the method; its cutter, where one is named; a step or a highest ridge for facets; for an
/// offset fixture shaft.blank_diameter, from which its settings count. installed: [engine].
Diagnostics unmet_needs(const Job& job, Purpose purpose, std::string_view method = {});

/// Why `cutter`, in the place of the one that [cut] names, can't cut as the machine holds it; nothing where
/// it can: a disc by its end, a mill's side of unknown length, or flutes that are all rounded end where they
/// lie across the shaft. Required: job.machine and job.cut are there.
std::optional<Diagnostic> unfit_cutter(const Job& job, const Cutter& cutter);

/// Whether a machine that holds its cutters so can cut with `cutter`: the same rule, without a word.
bool can_cut(CutterAxis axis, const Cutter& cutter);

}  // namespace lobewright
