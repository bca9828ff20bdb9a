/// From a program's text to what it cuts, by other means than the house's own reader and proof.
#pragma once

#include "sweep.h"

#include <lobewright/dialect.h>

#include <string>
#include <vector>

/// Where the words of a program go, read by a reader of a few lines: absolute G0 and G1 blocks, comments in
/// parentheses, the dialect's letters. Throws at anything else that moves.
std::vector<sweep::Position> positions_of_text(const std::string& program,
                                               const lobewright::Dialect& dialect);

/// The worst that `positions` leave on any lobe of the job, in the middle and close to both faces: > 0 proud,
/// < 0 deep, whichever is larger in size. `rapids` gets the rapids that go through stock there.
struct SweptShaft {
    double deepest = 0.0;
    double proudest = 0.0;
    int rapids_in_stock = 0;
};
SweptShaft sweep_shaft(const std::vector<sweep::Position>& positions, const lobewright::Job& job,
                       const std::vector<lobewright::SolvedLobe>& lobes);
