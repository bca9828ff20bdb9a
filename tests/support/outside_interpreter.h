/// The open stand-alone RS-274 interpreter `rs274` (Debian package linuxcnc-uspace), as a witness from
/// outside.
///
/// A test that needs it carries the tag [outside] and begins with
///     if (!outside::installed()) return outside::say_skipped();
/// Such tests run as a ctest entry of their own, "NAME_outside", which then reads "Skipped" (see
/// tests/CMakeLists.txt).
#pragma once

#include <array>
#include <limits>
#include <string>
#include <vector>

namespace outside {

bool installed();
/// Prints "SKIPPED: ..." as a Catch2 warning.
void say_skipped();

enum class Kind { rapid, feed, arc, dwell };

/// One canonical move. Positions are those printed, in the program's unit of length and in degrees, four
/// decimals.
struct Move {
    Kind kind = Kind::rapid;
    std::array<double, 6>
        at{};           ///< X Y Z A B C after the move (radii also where the program speaks in diameters)
    double rate = 0.0;  ///< as printed: units or degrees per minute, also in inverse time
    /// Length (or, where no linear axis moves, degrees) by rate. The interpreter prints four decimals, and
    /// never a rate below 0.1: `seconds_error` bounds what that spoils, infinite where the rate printed means
    /// nothing.
    double seconds = 0.0;
    double seconds_error = std::numeric_limits<double>::infinity();
    std::string line_number;  ///< the block's N word, empty if it has none
    int changes = 0;          ///< of tools, before it
    std::vector<double>
        arguments;  ///< of an arc: as printed (end, end, centre, centre, turns, axial, A, B, C)
};

struct Reading {
    int exit_code = -1;  ///< 0: accepted
    std::string error;   ///< what it says about a program that it refuses
    std::vector<Move> moves;
    bool inches = false;             ///< the unit that was in force at the end
    std::vector<std::string> calls;  ///< every canonical call, in order: "START_SPINDLE_CLOCKWISE(0)"
    [[nodiscard]] bool accepted() const { return exit_code == 0; }
};

/// Runs the interpreter on `program` with tools 1 to 9 (length 0) in a folder of its own. Required:
/// installed().
Reading interpret(const std::string& program, bool block_delete = false);

}  // namespace outside
