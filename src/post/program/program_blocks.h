/// A path's moves as blocks of a program.
#pragma once

#include "post/program/dialect_fit.h"
#include "post/program/move_words.h"
#include "post/program/program_lines.h"

#include <string>

namespace lobewright::post {

/// Writes moves one after the other, knows the modes that they leave, and remembers what of them the dialect
/// can't take.
class ProgramBlocks {
  public:
    ProgramBlocks(const Dialect& dialect, Units units, const WordGrid& grid, ProgramLines& lines)
        : dialect_(dialect), units_(units), grid_(grid), lines_(lines), axes_(dialect, units) {}

    /// Out to a radial place, and then along to an axial one.
    void go_out(long long radial, long long axial, std::string_view note = {});
    /// The machine has gone home: the next words are said in full, in absolute words.
    void has_gone_home();
    /// Another tool is in: out to a radial place by its own length, before anything else moves.
    void go_out_with_new_tool(long long radial, std::string_view note);
    /// To the place where the path starts: axis by axis, the radial one last. `side`: mm, of the side axis,
    /// towards φ + 90°.
    void come_to_start(const Words& start, double side);
    /// Moves from here on say anew how they move.
    void say_motion_anew() { motion_.clear(); }
    /// Nothing where the machine is there already.
    void add(const Move& move);

    [[nodiscard]] const DialectFit& fit() const { return fit_; }

  private:
    void rapid_block(std::string word, std::string_view note = {});
    void turn_to(long long rotary);
    [[nodiscard]] long long parts_of_turn(long long steps) const;
    void rapid(const Words& to);
    void feed(const Move& move);
    void put(const std::string& motion, const Words& to, const std::string& feed);
    [[nodiscard]] double degrees_of(long long steps) const;

    const Dialect& dialect_;
    Units units_;
    const WordGrid& grid_;
    ProgramLines& lines_;
    AxisWords axes_;
    bool from_home_ = false;
    bool turned_ = false;  // the rotary axis has a known place
    std::string motion_;
    std::string printed_feed_;
    Words at_;
    DialectFit fit_;
};

}  // namespace lobewright::post
