/// A machine's program as it leaves the house: planned, written, and proven from its own text.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/program_writer.h>
#include <lobewright/proof.h>
#include <lobewright/toolpath.h>

#include <string>
#include <vector>

namespace lobewright {

struct ProvenProgram {
    Toolpath path;
    std::string text;
    ProofReport proof;
};

/// The program for the job's machine, its [cut] and its cutter, in that dialect. Nothing passes that fails
/// its own proof: the complaints then are the proof's. With a program, the diagnostics are what the planner,
/// the writer and the proof warn of. `earlier`: the programs of the operations before, whose leavings are its
/// stock. `part`: see write_program.
Outcome<ProvenProgram> proven_program(const Job& job, const std::vector<SolvedLobe>& lobes,
                                      const Dialect& dialect, const std::vector<EarlierProgram>& earlier = {},
                                      const ProgramPart& part = {});

/// What a proof's report means: one complaint (Fault::check_failed) for each finding that makes the program
/// unfit, at its line of `file`, and, where it is out of tolerance without such a finding, one that says so:
/// none for a program that passes. Then the findings that warn. `remedy` is what to do about each complaint.
Diagnostics fitness(const Job& job, const ProofReport& report, const std::string& file,
                    const std::string& remedy);

}  // namespace lobewright
