/// Reads RS-274 as a controller would, into the moves that it would make. Knows nothing of how programs are
/// written.
///
/// Source: NIST IR 6556 (words and numbers 3.3, modal groups 3.4, order of execution 3.8), with what the
/// dialect says in its place. What can't be simulated (expressions, subprograms, cutter compensation, offsets
/// that the text doesn't hold, cycles) is refused by its place, never guessed. A mode that the dialect has
/// words for must be set by the program itself before it counts: the state that the machine was left in is
/// unknown. Numbers carry no exponent; a word that nothing uses is an error.
#pragma once

#include <lobewright/dialect.h>

#include <string_view>
#include <vector>

namespace lobewright {

enum class ReadMoveKind {
    rapid,
    feed,
    arc,
    dwell,
    home  ///< a line of the dialect's own way home, whose places the text doesn't hold
};

/// Where the machine's words stand after a move (machine words by the job's frame: mm, unwrapped degrees,
/// radius even where the text is in diameters) and the time that the text asks for.
struct ReadMove {
    ReadMoveKind kind = ReadMoveKind::rapid;
    int line = 0;  ///< of the text, from 1
    double radial =
        0.0;  ///< mm of radius; this and the next two are NaN until the program first moves that axis
    double axial = 0.0;          ///< mm
    double rotary = 0.0;         ///< degrees, running on also where the dialect's words are folded
    double seconds = 0.0;        ///< feed, arc and dwell; 0 for a rapid
    bool spindle_on = false;     ///< turning, at a speed above 0
    double spindle_speed = 0.0;  ///< rev/min, positive clockwise (M3), negative counter-clockwise; 0: off
    double side = 0.0;     ///< mm, towards φ + 90°; NaN until the program first moves a side axis that the
                           ///< dialect has, 0 where it has none
    bool at_home = false;  ///< no axis but the rotary one moved since the dialect's own way home: `radial`
                           ///< and the others are NaN, and the cutter stands clear of everything
    int tool = 0;          ///< 0: the program has chosen none
    int length = 0;        ///< number of the length that counts; 0: none does
    bool length_unset = true;  ///< the program has not said which does
    int operation = 0;         ///< of a program that makes several, from 0: tool changes after cuts so far
    double runs_in = 0.0;  ///< seconds that a feed takes where the controller won't run its linear axes so
                           ///< slow; 0: those that were asked for
    /// Arcs (in the plane of radial and axial): centre and way; +1 ccw in the (axial, radial) plane as G3 has
    /// it.
    double centre_radial = 0.0, centre_axial = 0.0;
    int arc_sense = 0;
};

/// A tool change, and where the machine stands then, by the words of the tool before.
struct ToolChanged {
    int line = 0;
    int tool = 0;                      ///< 0: the program has chosen none
    int length = 0;                    ///< that its word brings with it; 0: none
    double radial = 0.0, axial = 0.0;  ///< mm, NaN: unknown
    bool at_home = false;
};

/// What a program says beside its moves.
struct ProgramFacts {
    int blocks = 0;                ///< lines that hold words
    double spindle_speed = 0.0;    ///< the last S, rev/min
    bool ended = false;            ///< by M2 or M30 (or a dialect's own end)
    bool deletable = false;        ///< has lines that begin with "/": what they do depends on a switch
    double blend_tolerance = 0.0;  ///< mm: the most by which path blending may cut corners in a feed
    int unbounded_blend_line = 0;  ///< first feed under blending without a tolerance; 0: none
    std::vector<ToolChanged> tool_changes;
};

struct ReadProgram : ProgramFacts {
    std::vector<ReadMove> moves;
};

/// The switch for lines that begin with "/".
enum class BlockDelete { off, on };

/// Every error with line and column and a stable code. The first error of a line ends that line and the line
/// changes nothing; all lines are read, up to a hundred errors. Arcs: the two radii may differ by 0.002 mm.
/// Speed: more than a million blocks a second (tests/bench/proof_bench.cpp).
Outcome<ReadProgram> read_program(std::string_view text, const std::string& file, const Dialect& dialect,
                                  Units units, BlockDelete block_delete = BlockDelete::off);

}  // namespace lobewright
