/// Shafts and programs as long as one likes: one lobe and its moves, again and again.
#pragma once

#include "proof_case.h"

#include <ostream>
#include <string>
#include <vector>

/// A job file with so many equal lobes.
std::string row_job_text(int lobes);
/// It, read and its lobes solved; without a program.
ProofCase row_of_lobes(int lobes);

/// The program of a row of one lobe, each of its feeds in `parts` blocks, for lobes at those places of a row,
/// one after the other; the shaft turns on. Gives the number of blocks.
int write_long_program(const ProofCase& one, const std::vector<int>& places, int parts, std::ostream& out);
