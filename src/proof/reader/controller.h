/// What a block does to a controller. This room reads a program as a controller would: its lines, their
/// words, the modal state that they change, and the moves that come of it.
#pragma once

#include "proof/reader/block.h"
#include "proof/reader/modal_state.h"
#include "proof/reader/tool_words.h"

#include <lobewright/program_reader.h>

#include <functional>
#include <optional>

namespace lobewright::proof {

/// Gets a program's moves, one by one.
using TakeMove = std::function<void(const ReadMove&)>;

/// Carries blocks out, one by one, in the standard's order; a block that fails changes nothing.
class Controller {
  public:
    /// `operations`: how many the program may make, each with a tool of its own.
    Controller(const Dialect& dialect, Units units, std::size_t operations = 1);

    /// True: the block was carried out, `take` has its moves and `facts` what else it says.
    bool run(const Block& block, int line, ProgramFacts& facts, const TakeMove& take);
    /// Whether the block is the next line of the dialect's way home, or its first.
    [[nodiscard]] bool goes_home(const Block& block) const {
        return block.home_line == 0 || (block.home_line > 0 && block.home_line == state_.home_lines);
    }
    /// Such a line, which may hold words that mean nothing to this reader.
    void go_home(const Block& block, int line, const TakeMove& take);
    [[nodiscard]] const LineFault& fault() const { return fault_; }
    [[nodiscard]] const ModalState& state() const { return state_; }

  private:
    bool fail(const char* code, std::string what, std::string remedy, std::size_t offset);
    bool check_words(const Block& block);
    bool set_feed_and_speed(const Block& block, ModalState& next);
    bool set_modes(const Block& block, ModalState& next);
    bool set_path_mode(const Block& block, ModalState& next);
    static void set_spindle(const Block& block, ModalState& next);
    bool set_tool(const Block& block, int line, ModalState& next);
    bool change_after_cut(const Block& block, bool by_t, ModalState& next);
    bool set_length(const Block& block, ModalState& next);
    bool dwell(const Block& block, int line, const ModalState& next);
    bool move(const Block& block, int line, ModalState& next);
    bool place_axes(const Block& block, ModalState& next);
    bool place_linear(const Block& block, char letter, bool halved, const ModalState& next, double& place);
    bool place_side(const Block& block, ModalState& next);
    bool place_rotary(const Block& block, ModalState& next);
    bool folded_rotary(const Block& block, double word, double& place);
    bool check_rotary_way(const Block& block, double from, double to);
    bool check_feed_move(const Block& block, ReadMove& made, const ModalState& next);
    void hold_least_feed(ReadMove& made, double linear) const;
    bool seconds_of(const Block& block, ReadMove& made, double linear_mm, double degrees,
                    const ModalState& next);
    bool arc(const Block& block, ReadMove& made, double& length, const ModalState& next);
    bool arc_plane(const Block& block, const ModalState& next);
    bool arc_centre(const Block& block, ReadMove& made, const ModalState& next);
    bool radius_arc_centre(const Block& block, ReadMove& made, const ModalState& next);
    [[nodiscard]] ReadMove moved(ReadMoveKind kind, int line, const ModalState& next) const;
    [[nodiscard]] std::uint32_t axis_letters() const { return axis_letters_; }
    [[nodiscard]] std::size_t first_axis_offset(const Block& block) const;

    const Dialect& dialect_;
    std::size_t operations_;
    ToolWords tools_;
    std::uint32_t axis_letters_;
    ModalState state_;
    std::optional<ReadMove> dwelt_, made_;
    std::optional<ToolChanged> changed_;
    LineFault fault_;
};

}  // namespace lobewright::proof
