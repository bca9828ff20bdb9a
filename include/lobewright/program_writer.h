/// Writes a toolpath as a program in a dialect.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/lobe.h>
#include <lobewright/toolpath.h>

#include <string>
#include <vector>

namespace lobewright {

/// One of several programs that cut the lobes of one cut, some each, in their order.
struct ProgramPart {
    int number = 1;  ///< from 1
    int of = 1;
    std::vector<std::string> first_notes = {};  ///< stand before all others in the header
    std::string aim = "the design";             ///< what the lobes are, within the tolerance, afterwards
};

/// The program's whole text: notes in words, every mode, the moves, the end. The same input gives the same
/// bytes.
///
/// Refuses what the dialect can't express, at the place of machine.post: no inverse time and no rule by which
/// feed per minute counts; a feed outside its range; a block that turns too far; a rotary word too large; a
/// line too long; the wrong units. Warns where F's decimals make a block more than 1 % slower than planned (F
/// is rounded so that no block is faster). Blocks without motion are left out; a character that its comments
/// can't hold is replaced. Required: job.machine, job.cut and the cutter are there; the path was planned on
/// word_grid(dialect, job.units, job.cut->blend). `part`: which of several programs for one cut it is; the
/// header says so, and a program number that ends in digits is counted on.
Outcome<std::string> write_program(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path,
                                   const Dialect& dialect, const ProgramPart& part = {});

/// The same of several operations of one job on one machine, one after the other: the program begins and ends
/// as any, and between two of them it goes to where tools change, calls the next one's cutter and puts its
/// length on. Required beside: at least one operation; with several, the job or the dialect says where tools
/// change, and the dialect calls them by their numbers.
Outcome<std::string> write_program(const std::vector<PlannedOperation>& operations, const Dialect& dialect,
                                   const ProgramPart& part = {});

/// Whether a text bears the mark that write_program puts into the comments at its beginning. Dialects without
/// comments leave none.
bool bears_our_mark(std::string_view text);

}  // namespace lobewright
