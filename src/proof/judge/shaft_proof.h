/// Judges a whole program by what it leaves of the shaft. This room holds the design that the shaft is
/// compared with, the planes and rays of the comparison, every check of the cutting, and the findings.
#pragma once

#include "proof/judge/limit_checks.h"
#include "proof/judge/setup_checks.h"
#include "proof/sweep/earlier_cuts.h"

#include <lobewright/proof.h>

namespace lobewright::proof {

/// What the proof keeps of one run through a program, move by move as they are read.
class ProgramTally {
  public:
    /// `first`: no other operation comes before it in the program. Required: the job meets the needs of
    /// Purpose::prove.
    ProgramTally(const Job& job, const Dialect& dialect, const CutterBody& body, bool first = true);

    void take(const ReadMove& move);

    ShaftMoveBuilder builder;
    LimitChecks limits;
    SetupChecks setup;
    SpindleChecks spindle;
    CycleTime cycle;
};

/// How much the proof had to look at.
struct ProofWork {
    long long moves = 0;  ///< looked at for planes across the shaft, each as often as it was
    long long planes = 0;
};

/// After the run's last move, on what `earlier` have left.
ProofReport judge_shaft(const Job& job, const std::vector<SolvedLobe>& lobes, const CutterBody& body,
                        const ProgramFacts& facts, ProgramTally& tally, ProofWork* work = nullptr,
                        const EarlierCuts& earlier = {});

}  // namespace lobewright::proof
