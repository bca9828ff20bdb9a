/// A program's moves as the shaft sees them: the shaft direction that faces the cutter, the height of its
/// tip, its place along the shaft.
#pragma once

#include "proof/cutter_section.h"

#include <lobewright/program_reader.h>

#include <vector>

namespace lobewright::proof {

struct ShaftPlace {
    double facing = 0.0;  ///< radians, running on
    double tip = 0.0;     ///< mm from the shaft's axis; negative past it
    double z = 0.0;       ///< mm, the axial word
};

/// One straight move from a known place to another.
struct ShaftMove {
    ShaftPlace from, to;
    bool rapid = false;
    bool spindle_on = false;
    int line = 0;          ///< of the program
    double seconds = 0.0;  ///< of the whole block (of an arc: its chord's share)

    [[nodiscard]] double least_tip() const { return from.tip < to.tip ? from.tip : to.tip; }
    [[nodiscard]] double turn() const { return to.facing - from.facing; }
    /// A rapid straight out.
    [[nodiscard]] bool retracts() const {
        return rapid && from.facing == to.facing && from.z == to.z && to.tip >= from.tip;
    }
};

/// An arc's chords fall short of it by at most this, mm.
inline constexpr double chord_error = 2e-5;

/// Dwells are left out, arcs become chords. Moves before every axis has a known place are left out too: they
/// must stand `clear` (mm from the shaft's axis to the tip) of everything; `blind` is the line of the first
/// that may not (0: none), and such a program can't be proven.
struct ShaftMoves {
    std::vector<ShaftMove> moves;
    int blind = 0;
};
ShaftMoves shaft_moves(const ReadProgram& program, const CutterBody& body, double clear);

}  // namespace lobewright::proof
