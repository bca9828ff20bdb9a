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

}  // namespace lobewright::post
