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
    std::vector<Way> ways;
    std::vector<HandPlan> plans;  ///< of every hand method that can be
    std::optional<SheetProgram> program;
    std::vector<LobeInspection> inspections = {};  ///< of the lobes that were read
};

/// The model that the page's viewer works on, as JSON: `version` 1; `units`; `lobes[]` with their outlines
/// (x, y in the shaft's frame) and, sampled over the cam angle, the follower's motion and where it touches;
/// `methods[]` with the settings; `program` with its lines and moves, null where there is none;
/// `readings[]` of the lobes that were read, with their errors over the cam angle. Lengths in
/// the job's units, angles in degrees.
std::string sheet_model(const Job& job, const std::vector<SolvedLobe>& lobes, const SheetParts& parts);

/// The page: no network is asked for anything, names are text whatever they hold; it reads without a script,
/// which adds the read-outs, the steps at the bench and the plot of the program.
std::string sheet_page(const Job& job, const std::vector<SolvedLobe>& lobes, const SheetParts& parts);

}  // namespace lobewright
