#include "proof/reader/controller.h"

#include "proof/reader/axis_plane.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::proof {

Controller::Controller(const Dialect& dialect, Units units, std::size_t operations)
    : dialect_(dialect),
      operations_(operations),
      tools_(dialect),
      axis_letters_(Block::bit(dialect.radial.letter) | Block::bit(dialect.axial.letter) |
                    Block::bit(dialect.rotary.letter)) {
    if (dialect.side) {
        axis_letters_ |= Block::bit(dialect.side->word.letter);
    } else {
        state_.side = 0.0;
    }
    if (dialect.only_units) {
        state_.mm_per_unit = mm_per(*dialect.only_units);
    } else if (dialect.mm_word.empty() && dialect.inch_word.empty()) {
        state_.mm_per_unit = mm_per(units);
    }
    if (dialect.absolute_word.empty()) state_.absolute = true;
    if (dialect.diameter_word.empty() && dialect.radius_word.empty())
        state_.diameter = dialect.radial.diameter;
    if (dialect.plane_word.empty())
        state_.plane = plane_of(dialect.axial.letter, dialect.radial.letter).plane;
    if (dialect.inverse_time_word.empty() && dialect.per_minute_word.empty()) {
        state_.feed_mode = dialect.feed_mode == FeedMode::inverse_time ? Act::inverse_time : Act::per_minute;
    }
    if (dialect.exact_path_word.empty() && dialect.blend_word.empty()) state_.path = PathMode::exact;
}

bool Controller::fail(const char* code, std::string what, std::string remedy, std::size_t offset) {
    fault_ = {code, std::move(what), std::move(remedy), offset};
    return false;
}

/// NIST IR 6556 table 8: feed mode, F, S, tool, spindle, coolant, dwell, plane, units, offsets, path control,
/// distance mode, motion, stop.
bool Controller::run(const Block& block, int line, ProgramFacts& facts, const TakeMove& take) {
    if (!check_words(block)) return false;
    ModalState next = state_;
    dwelt_.reset();
    made_.reset();
    changed_.reset();
    if (!set_feed_and_speed(block, next)) return false;
    set_spindle(block, next);
    if (!set_tool(block, line, next)) return false;
    if (block.has(Group::non_modal) && !dwell(block, line, next)) return false;
    if (!set_modes(block, next) || !set_length(block, next) || !set_path_mode(block, next)) return false;
    if (!move(block, line, next)) return false;
    if (block.has(Group::m_stop) && block.act(Group::m_stop) == Act::end) next.ended = true;
    if (changed_) facts.tool_changes.push_back(*changed_);
    if (dwelt_) take(*dwelt_);
    if (made_) {
        take(*made_);
        if (made_->kind != ReadMoveKind::rapid) {
            facts.blend_tolerance = std::max(facts.blend_tolerance, next.blend);
            const bool unbounded = next.path == PathMode::blended_without_bound;
            if (unbounded && facts.unbounded_blend_line == 0) facts.unbounded_blend_line = line;
        }
    }
    facts.spindle_speed = next.speed;
    state_ = next;
    return true;
}

/// The text doesn't hold where that is: no axis has a known place then, and neither a motion nor a way of
/// reading words is in force until the program says it anew.
void Controller::go_home(const Block& block, int line, const TakeMove& take) {
    state_.home_lines = block.home_line + 1;
    state_.radial = state_.axial = state_.rotary = unknown_place;
    if (dialect_.side) state_.side = unknown_place;
    state_.motion = Act::motion_off;
    if (!dialect_.absolute_word.empty()) state_.absolute.reset();
    state_.radial_at_home = state_.home_lines == static_cast<int>(dialect_.home.size());
    take(moved(ReadMoveKind::home, line, state_));
}

/// Every word must have something that uses it.
bool Controller::check_words(const Block& block) {
    const Act motion = block.has(Group::motion) ? block.act(Group::motion) : state_.motion;
    const bool arcs = is_arc(motion) && (block.letters & axis_letters()) != 0;
    const bool blends = block.has(Group::path_control) && block.act(Group::path_control) == Act::blend;
    std::uint32_t used =
        axis_letters() | Block::bit('F') | Block::bit('N') | Block::bit('S') | Block::bit('T');
    if (block.has(Group::non_modal)) used |= Block::bit('P');
    const bool length_on =
        block.has(Group::length_offset) && block.act(Group::length_offset) == Act::length_on;
    if (tools_.length_letter != '\0' && (length_on || tools_.letter_alone))
        used |= Block::bit(tools_.length_letter);
    if (blends) used |= Block::bit('P') | Block::bit('Q');
    if (arcs) {
        used |= Block::bit('R');
        for (const char axis : {dialect_.radial.letter, dialect_.axial.letter}) {
            if (const char centre = centre_letter(axis)) used |= Block::bit(centre);
        }
    }
    const std::uint32_t unused = block.letters & ~used;
    if (unused == 0) return true;
    for (char letter = 'A'; letter <= 'Z'; ++letter) {
        if ((unused & Block::bit(letter)) == 0) continue;
        return fail("unused-word", "nothing in this block uses the word " + std::string(1, letter),
                    "take it out", block.offset(letter));
    }
    return true;
}

bool Controller::set_feed_and_speed(const Block& block, ModalState& next) {
    if (block.has(Group::feed_mode)) {
        next.feed_mode = block.act(Group::feed_mode);
        next.feed.reset();
    }
    if (block.has('F')) {
        const double feed = block.value('F');
        if (feed < 0.0)
            return fail("feed-negative", "the feed F is negative", "write a positive feed",
                        block.offset('F'));
        const bool low = dialect_.feed_lowest && feed != 0.0 && feed < *dialect_.feed_lowest;
        const bool high = dialect_.feed_highest && feed > *dialect_.feed_highest;
        if (low || high) {
            return fail("feed-out-of-range",
                        "the controller takes no F" + std::string(low ? " below " : " above ") +
                            shortest_fixed(low ? *dialect_.feed_lowest : *dialect_.feed_highest, 9),
                        "write a feed within its range", block.offset('F'));
        }
        next.feed = feed;
    }
    if (block.has('S')) {
        if (block.value('S') < 0.0) {
            return fail("speed-negative", "the spindle speed S is negative", "write M4 to turn the other way",
                        block.offset('S'));
        }
        next.speed = block.value('S');
    }
    return true;
}

/// A tool change stops the spindle first (NIST IR 6556 3.6.3).
void Controller::set_spindle(const Block& block, ModalState& next) {
    if (block.has(Group::m_tool)) next.spindle = 0;
    if (!block.has(Group::m_spindle)) return;
    const Act act = block.act(Group::m_spindle);
    next.spindle = act == Act::spindle_cw ? 1 : act == Act::spindle_ccw ? -1 : 0;
}

/// A T word chooses, and either changes at once or waits for its M word (NIST IR 6556 3.6.3 and 3.7.3); one
/// that only puts the length of the same tool off changes nothing.
bool Controller::set_tool(const Block& block, int line, ModalState& next) {
    if (block.has('T')) {
        const ToolWords::Chosen chosen = tools_.chosen(block.value('T'));
        if (chosen.length) next.length = *chosen.length;
        next.tool = chosen.tool;
    }
    const bool same = next.tool == state_.tool && next.length == 0;
    const bool by_t = block.has('T') && tools_.changed_by_t && !same;
    if (!by_t && !block.has(Group::m_tool)) return true;
    if (state_.fed && !change_after_cut(block, by_t, next)) return false;
    const bool at_home =
        state_.radial_at_home && std::isnan(state_.axial) && (!dialect_.side || std::isnan(state_.side));
    changed_ = ToolChanged{line,          next.tool,    tools_.length_in_t ? next.length.value_or(0) : 0,
                           state_.radial, state_.axial, at_home};
    return true;
}

/// Another operation begins. Where the new tool's end stands its length decides, and the text doesn't hold
/// it: no word counts until the program says it anew.
bool Controller::change_after_cut(const Block& block, bool by_t, ModalState& next) {
    if (static_cast<std::size_t>(next.operation) + 1 >= operations_) {
        const bool one = operations_ == 1;
        return fail(
            "tool-change",
            one ? "the tool changes after the first cut, and one operation is to be read, with one cutter"
                : "the tool changes once more than the job has operations",
            one ? "write a program for each cutter, or read all operations together"
                : "take the change out, or write its operation into the job",
            by_t ? block.offset('T') : block.offset(Group::m_tool));
    }
    ++next.operation;
    next.fed = false;
    next.radial = next.axial = unknown_place;
    if (dialect_.side) next.side = unknown_place;
    return true;
}

bool Controller::set_length(const Block& block, ModalState& next) {
    const char letter = tools_.length_letter;
    const bool named = letter != '\0' && block.has(letter);
    if (named && (block.value(letter) < 0.0 || block.value(letter) != std::floor(block.value(letter)))) {
        return fail("not-whole", "the number of a length must be whole and not negative",
                    "write a whole number", block.offset(letter));
    }
    const Act act = block.has(Group::length_offset) ? block.act(Group::length_offset) : Act::unknown;
    if (act == Act::length_off) next.length = 0;
    if (act == Act::length_on && letter != '\0' && !named) {
        return fail("length-unnamed", "the block puts a length on, and doesn't say which",
                    std::string("write its number after ") + letter, block.offset(Group::length_offset));
    }
    if (named) next.length = static_cast<int>(block.value(letter));
    return true;
}

bool Controller::dwell(const Block& block, int line, const ModalState& next) {
    if (!block.has('P')) {
        return fail("dwell-without-p", "a dwell needs its time P", "write the seconds after P",
                    block.offset(Group::non_modal));
    }
    if (block.value('P') < 0.0) {
        return fail("dwell-negative", "the time of a dwell is negative", "write the seconds after P",
                    block.offset('P'));
    }
    dwelt_ = moved(ReadMoveKind::dwell, line, next);
    dwelt_->seconds = block.value('P');
    return true;
}

bool Controller::set_modes(const Block& block, ModalState& next) {
    if (block.has(Group::plane)) next.plane = block.act(Group::plane);
    if (block.has(Group::units)) {
        const Units units = block.act(Group::units) == Act::mm ? Units::mm : Units::inch;
        if (dialect_.only_units && *dialect_.only_units != units) {
            return fail("wrong-units", "the controller knows one unit of length, and this is the other",
                        "write the program in the controller's unit", block.offset(Group::units));
        }
        const bool changes = next.mm_per_unit && *next.mm_per_unit != mm_per(units);
        if (changes && next.feed_mode != Act::inverse_time) next.feed.reset();
        next.mm_per_unit = mm_per(units);
    }
    if (block.has(Group::work_offset)) next.offset_chosen = true;
    if (block.has(Group::distance)) next.absolute = block.act(Group::distance) == Act::absolute;
    if (block.has(Group::diameter)) next.diameter = block.act(Group::diameter) == Act::diameter;
    return true;
}

bool Controller::set_path_mode(const Block& block, ModalState& next) {
    if (!block.has(Group::path_control)) return true;
    next.blend = 0.0;
    next.path = PathMode::exact;
    if (block.act(Group::path_control) == Act::exact_path) return true;
    if (!block.has('P')) {
        next.path = PathMode::blended_without_bound;
        return true;
    }
    if (!next.mm_per_unit) {
        return fail("units-not-set", "the tolerance P has no unit yet",
                    "write the word for the units before it", block.offset('P'));
    }
    const double widest = std::max(block.value('P'), block.has('Q') ? block.value('Q') : 0.0);
    if (block.value('P') < 0.0 || (block.has('Q') && block.value('Q') < 0.0)) {
        return fail("blend-negative", "the tolerance of path blending is negative", "write a positive one",
                    block.offset('P'));
    }
    next.path = PathMode::blended;
    next.blend = widest * *next.mm_per_unit;
    return true;
}

ReadMove Controller::moved(ReadMoveKind kind, int line, const ModalState& next) const {
    ReadMove made;
    made.kind = kind;
    made.line = line;
    made.radial = next.radial;
    made.axial = next.axial;
    made.rotary = next.rotary;
    made.spindle_speed = next.spindle * next.speed;
    made.spindle_on = made.spindle_speed != 0.0;
    made.side = next.side;
    made.at_home = next.radial_at_home;
    made.tool = next.tool;
    made.operation = next.operation;
    made.length = next.length.value_or(0);
    made.length_unset = !next.length;
    return made;
}

bool Controller::move(const Block& block, int line, ModalState& next) {
    const bool axes = (block.letters & axis_letters()) != 0;
    if (block.has(Group::motion)) {
        next.motion = block.act(Group::motion);
        if (is_motion(next.motion) && !axes) {
            return fail("motion-without-axis", "the block says how to move, and no axis to move",
                        "write the place to go to", block.offset(Group::motion));
        }
    }
    if (!axes) return true;
    if (!is_motion(next.motion)) {
        return fail("axis-without-motion", "an axis word stands here, and no G word says how to move",
                    "write G0 or G1 before it", first_axis_offset(block));
    }
    if (!place_axes(block, next)) return false;
    if (block.has(dialect_.radial.letter)) next.radial_at_home = false;
    next.home_lines = 0;
    ReadMove made = moved(ReadMoveKind::rapid, line, next);
    if (next.motion == Act::rapid) return made_ = made, true;
    if (!check_feed_move(block, made, next)) return false;
    next.fed = true;
    made_ = made;
    return true;
}

}  // namespace lobewright::proof
