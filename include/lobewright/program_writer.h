/// Writes a toolpath as a program in a dialect.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/lobe.h>
#include <lobewright/toolpath.h>

namespace lobewright {

/// The program's whole text. Refuses what the dialect can't express (no inverse time and no rule for per-minute feed,
/// a feed beyond its range, a line too long, a character its comments can't hold is replaced), naming the remedy.
/// Required: the path was planned on word_grid(dialect, job.units).
Outcome<std::string> write_program(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path,
                                   const Dialect& dialect);

}  // namespace lobewright
