/// Reads RS-274 as a controller would, into the moves that it would make. Knows nothing of how programs are written.
#pragma once

#include <lobewright/dialect.h>

#include <string_view>
#include <vector>

namespace lobewright {

enum class ReadMoveKind { rapid, feed, arc, dwell };

/// Where the machine's words stand after a move (machine words by the job's frame: mm, unwrapped degrees, radius even
/// where the text is in diameters) and the time that the text asks for.
struct ReadMove {
    ReadMoveKind kind = ReadMoveKind::rapid;
    int line = 0;          ///< of the text, from 1
    double radial = 0.0;   ///< mm of radius
    double axial = 0.0;    ///< mm
    double rotary = 0.0;   ///< degrees, as the word (running on)
    double seconds = 0.0;  ///< feed, arc and dwell; 0 for a rapid
    bool spindle_on = false;
    /// Arcs (in the plane of radial and axial): centre and way; +1 ccw in the (axial, radial) plane as G3 has it.
    double centre_radial = 0.0, centre_axial = 0.0;
    int arc_sense = 0;
};

struct ReadProgram {
    std::vector<ReadMove> moves;
    int blocks = 0;              ///< lines that hold words
    double spindle_speed = 0.0;  ///< the last S, rev/min
    bool ended = false;          ///< by M2 or M30 (or a dialect's own end)
};

/// Every error with line and column and a stable code. The first error of a line ends that line; all lines are read.
Outcome<ReadProgram> read_program(std::string_view text, const std::string& file, const Dialect& dialect, Units units);

}  // namespace lobewright
