/// Cuts the shaft with a program's text and compares what is left with the design.
///
/// Shares with the toolpath only the job, the solved lobes and the dialect.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/lobe.h>
#include <lobewright/program_reader.h>

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lobewright {

/// A place on a lobe's finished surface and how far it lies off the design along the outward normal.
struct Deviation {
    double along_normal = 0.0;  ///< mm; negative: below the design (a gouge), positive: proud
    ShaftAngle at;              ///< shaft direction of that ray
    double z = 0.0;
    int line = 0;  ///< of the program, of the move that cut there; 0 where nothing cut
};

/// What is left within half a degree of shaft angle, over all planes of a lobe, off the design along the
/// outward normal: the extremes of the rays that were compared there.
struct SurfacePlace {
    int index = 0;          ///< of the half degrees from shaft angle 0, [0, surface_places)
    double deepest = 0.0;   ///< mm
    double proudest = 0.0;  ///< mm
    int line = 0;           ///< of the program, of the move that cut deepest there; 0 where nothing cut
};
inline constexpr int surface_places = 720;

struct LobeVerdict {
    std::string name;
    Deviation deepest;
    Deviation proudest;
    std::optional<double> heel_runout;  ///< mm: between the greatest and the least radius that the base
                                        ///< circle is cut to in one plane, of the worst plane; nothing where
                                        ///< the lobe has no base circle
    bool cut = false;                   ///< whether any move took stock off it, over its whole width
    bool within = false;                ///< deepest and proudest lie within the tolerance, blending included
    int planes = 0;                     ///< planes across the shaft that were compared
    std::vector<SurfacePlace> around;   ///< by index; where no ray was compared there is none
};

struct ProofReport {
    bool within_tolerance = false;  ///< every lobe; what else may be wrong stands in the findings
    double tolerance = 0.0;         ///< mm
    double blending =
        0.0;  ///< mm: corner cutting by path blending that the text allows, taken off the tolerance
    double resolution = 0.0;  ///< mm: bound on what the comparison itself may miss
    std::vector<LobeVerdict> lobes;
    int rapids_in_stock = 0;
    bool ends_clear = false;  ///< outside the clearance or at home, and where the job says that tools change
    double largest_depth = 0.0;  ///< mm: most stock, along the design's outward normal, that one feed block
                                 ///< takes from what earlier blocks left
    int largest_depth_line = 0;  ///< 0: nothing is cut
    std::optional<double> thickest_chip;  ///< mm, of a tooth; nothing for a wheel
    int blocks = 0;
    double cycle_seconds = 0.0;
    Diagnostics findings;
};

/// A program that has cut the shaft before, with the cutter and on the machine of its own job.
struct EarlierProgram {
    Job job;
    Dialect dialect;
    std::string text;
};

/// Reads `text` in the dialect, sweeps the cutter and judges. The design is the solved contour, plus
/// job.cut->allowance. A text that can't be read is a list of diagnostics; a program that cuts badly is a
/// report. Where lines begin with "/", the program is proven with block delete off and on, and the report
/// holds the worse of both. Needs of Purpose::prove that the job doesn't meet are diagnostics. Source: none;
/// the derivations stand in src/proof/section/moving_section.h and src/proof/judge/plane_verdict.h.
///
/// The stock is what the job's stock says, and what the `earlier` programs leave of it, swept move by move;
/// without them what job.stock.after tells of the operations before.
Outcome<ProofReport> prove(const Job& job, const std::vector<SolvedLobe>& lobes, const Dialect& dialect,
                           const std::string& text, const std::string& file,
                           const std::vector<EarlierProgram>& earlier = {});

/// What one operation of a program with several is to cut: the job with its cut and its cutter, its lobes.
struct OperationCut {
    Job job;
    std::vector<SolvedLobe> lobes;
};

/// Gives the next piece of a text, of any length, which stays until the next call; empty at its end.
using TextPieces = std::function<Outcome<std::string_view>()>;
/// A whole text as its one piece.
TextPieces pieces_of(std::string_view text);

/// The same of a text that comes in pieces, none of which is kept: some 100 bytes of memory a block at most.
Outcome<ProofReport> prove(const Job& job, const std::vector<SolvedLobe>& lobes, const Dialect& dialect,
                           const TextPieces& pieces, const std::string& file,
                           const std::vector<EarlierProgram>& earlier = {});

/// A program that makes several operations one after the other, each from a tool change on: a report for
/// each, in their order, every one judged with its own cutter on what the earlier programs and the operations
/// before it leave. A program that changes tools more often than that can't be read; of one that does so less
/// often the operations that are missing cut nothing. Required: at least one operation, all on one machine.
Outcome<std::vector<ProofReport>> prove_operations(const std::vector<OperationCut>& operations,
                                                   const Dialect& dialect, const TextPieces& pieces,
                                                   const std::string& file,
                                                   const std::vector<EarlierProgram>& earlier = {});

/// Lines of a program by their numbers.
using ProgramLines = std::map<int, std::string>;
/// The lines that the report's findings are about.
Outcome<ProgramLines> lines_with_findings(const ProofReport& report, const TextPieces& pieces);

/// Readable, with the program's line beside each finding; and JSON by the contract.
std::string proof_text(const Job& job, const ProofReport& report, const ProgramLines& lines);
std::string proof_text(const Job& job, const ProofReport& report, const std::string& program_text);
std::string proof_json(const Job& job, const ProofReport& report);
/// Of several operations: `operations[]`, each with `operation` (its name), `cutter` and all that proof_json
/// says of one.
std::string proofs_json(const std::vector<OperationCut>& operations, const std::vector<ProofReport>& reports);

}  // namespace lobewright
