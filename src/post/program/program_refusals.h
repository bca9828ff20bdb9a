/// The writer's sentences: why a dialect can't express a program, at the place of machine.post.
#pragma once

#include "post/program/dialect_fit.h"

#include <lobewright/job.h>

namespace lobewright::post {

/// Everything about the dialect that no path can cure.
Diagnostics dialect_refusals(const Job& job, const Dialect& dialect);

/// What of the program the dialect can't take, and a warning where F's decimals make a block slower than
/// planned.
Diagnostics fit_complaints(const Job& job, const Dialect& dialect, const WordGrid& grid,
                           const DialectFit& fit);

/// The job's place for tools, where rapids would not run; `radial`: mm that it needs.
Diagnostic place_too_near(const Job& job, double radial);
/// Warns that neither the job nor the dialect says where the cutter is put in.
Diagnostic no_resting_place(const Job& job, const Dialect& dialect);

}  // namespace lobewright::post
