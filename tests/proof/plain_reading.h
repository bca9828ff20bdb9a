/// A reading of programs written for the tests of mutations alone: it shares no code with the proof's reader.
/// It knows the words that our own programs hold, in the ways a slip may change them, and refuses everything
/// else.
#pragma once

#include <lobewright/dialect.h>

#include <optional>
#include <string>
#include <vector>

namespace plain {

struct Move {
    double radial = 0.0, axial = 0.0, rotary = 0.0;  // mm and degrees, running on
    bool rapid = false;
    double seconds = 0.0;
    int line = 0;
    bool spindle = false;
};

struct Reading {
    std::vector<Move> moves;     // from the first place at which all axes are known
    double highest_speed = 0.0;  // of the spindle, while feeding
    bool reversed = false;       // fed with the spindle counter-clockwise
    bool ended = false;
};

/// Nothing where a controller would stop, or would do what can't be known: the program is unsafe as it
/// stands.
std::optional<Reading> read(const std::string& text, const lobewright::Dialect& dialect);

}  // namespace plain
