/// A program's moves as the shaft sees them: the shaft direction that faces the cutter, the height of its
/// tip, its place along the shaft.
#pragma once

#include "proof/section/cutter_section.h"

#include <lobewright/program_reader.h>

#include <cstdint>
#include <deque>
#include <optional>
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
    [[nodiscard]] double first_z() const { return from.z < to.z ? from.z : to.z; }
    [[nodiscard]] double last_z() const { return from.z < to.z ? to.z : from.z; }
    /// A rapid straight out.
    [[nodiscard]] bool retracts() const {
        return rapid && from.facing == to.facing && from.z == to.z && to.tip >= from.tip;
    }
};

/// The chain of a program's moves, each from where the one before ended: some 40 bytes a move.
class ShaftMoves {
  public:
    /// Where the first move starts. Required before add().
    void begin(const ShaftPlace& place) { places_.push_back(place); }
    void add(const ShaftPlace& to, bool rapid, bool spindle_on, int line, double seconds);
    [[nodiscard]] bool begun() const { return !places_.empty(); }
    [[nodiscard]] const ShaftPlace& end_place() const { return places_.back(); }

    [[nodiscard]] int size() const { return static_cast<int>(marks_.size()); }
    [[nodiscard]] ShaftMove operator[](int index) const;
    [[nodiscard]] int line(int index) const {
        return static_cast<int>(marks_[static_cast<std::size_t>(index)] >> 2);
    }

  private:
    // In pieces, so that a chain that grows is never copied.
    std::deque<ShaftPlace> places_;
    std::deque<double> seconds_;
    std::deque<std::uint32_t> marks_;  // the line, and two bits for rapid and spindle
};

/// A place where the program waits.
struct ShaftDwell {
    ShaftPlace place;
    int before = 0;  ///< index of the move that comes next
    int line = 0;
    double seconds = 0.0;
};

/// An arc's chords fall short of it by at most this, mm.
inline constexpr double chord_error = 2e-5;

/// Makes the chain, move by move as they are read. Dwells stand beside it, arcs become chords. Moves before
/// every axis has a known place (at first, and after the dialect's own way home) are left out too: they must
/// stand `clear` (mm from the shaft's axis to the tip) of everything.
class ShaftMoveBuilder {
  public:
    ShaftMoveBuilder(const CutterBody& body, double clear) : body_(&body), clear_(clear) {}

    void take(const ReadMove& move);
    [[nodiscard]] const ShaftMoves& moves() const { return moves_; }
    /// Waits within `clear`, after every axis has a known place.
    [[nodiscard]] const std::vector<ShaftDwell>& dwells() const { return dwells_; }
    /// The line of the first move that may not stand clear while its place is unknown (0: none): such a
    /// program can't be proven.
    [[nodiscard]] int blind_line() const { return blind_line_; }
    /// The line of the first way home that begins where the cutter may not stand clear (0: none).
    [[nodiscard]] int home_line() const { return home_line_; }

  private:
    void wait(const ReadMove& move);
    void come_back(const ReadMove& move);
    void add(const ReadMove& move);
    void add_arc(const ReadMove& move);
    [[nodiscard]] ShaftPlace place(const ReadMove& move) const;
    [[nodiscard]] ShaftPlace place(double radial, double axial, double rotary) const;
    void put(const ShaftPlace& to, const ReadMove& move, double seconds);

    const CutterBody* body_;
    double clear_;
    ShaftMoves moves_;
    std::vector<ShaftDwell> dwells_;
    std::optional<ReadMove> last_;
    int blind_line_ = 0, home_line_ = 0;
};

/// All of a program's moves at once.
ShaftMoves shaft_moves(const ReadProgram& program, const CutterBody& body);

}  // namespace lobewright::proof
