/// The sheet: one self-contained HTML page with everything about a job that is wanted beside the machine.
#pragma once

#include <lobewright/hand.h>
#include <lobewright/inspect_fit.h>
#include <lobewright/program_reader.h>
#include <lobewright/proof.h>
#include <lobewright/soundness.h>
#include <lobewright/ways.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// A program as its own text says it: the moves that a controller would make, and the proof of what they cut.
struct SheetProgram {
    std::string name;  ///< of its file
    std::string text;
    ReadProgram read;
    ProofReport proof;
};

/// All that there is to show beside the job and its solved lobes.
struct SheetParts {
    JobReport report;
    std::vector<Way> ways;  ///< with the plans of the hand methods that can be
    std::optional<SheetProgram> program;
    std::vector<LobeInspection> inspections = {};  ///< of the lobes that were read
};

/// Of a program with more moves the model holds so many, evenly thinned out, and the lines of those; a page
/// of as many is of some 8 MB.
inline constexpr std::size_t most_moves_shown = 100000;

/// The model that the page's viewer works on, as JSON: `version` 2; `units`; `lobes[]` with their outlines
/// (x, y in the shaft's frame) and, sampled over the cam angle, the follower's motion and where it touches;
/// `methods[]` with the settings and the route (members that are empty or do not apply are left out, its part
/// where it is that of the step before); `program`, null where there is none, with its text, its moves (six
/// whole numbers each, all but the first less those of the move before: kind, with 8, 16 and 32 added where
/// the places are known; line; radial, axial, rotary in hundred-thousandths; milliseconds from the start)
/// and, by lobe, what it leaves (`around`: index, deepest, proudest in millionths and line of each
/// SurfacePlace); `readings[]` of the lobes that were read, with their errors over the cam angle. Lengths in
/// the job's units, angles in degrees.
std::string sheet_model(const Job& job, const std::vector<SolvedLobe>& lobes, const SheetParts& parts);

/// The page: no network is asked for anything, names are text whatever they hold; it reads without a script,
/// which adds the read-outs, the steps at the bench and the plot of the program.
std::string sheet_page(const Job& job, const std::vector<SolvedLobe>& lobes, const SheetParts& parts);

}  // namespace lobewright
