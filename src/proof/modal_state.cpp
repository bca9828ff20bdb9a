#include "proof/modal_state.h"

#include "base/elementary/elementary.h"
#include "base/whole_steps.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

/// The two radii of an arc given by its centre may differ by this, mm: half a step of three decimals, both
/// ways.
constexpr double arc_radius_slack = 0.002;
/// mm: an arc larger than this is a slip, or a straight line.
constexpr double largest_arc = 1e4;
/// Degrees: a rotary word counts as one with another if it is this near; finer than any dialect's decimals.
constexpr double rotary_slack = 1e-7;

bool is_arc(Act act) {
    return act == Act::arc_cw || act == Act::arc_ccw;
}
bool is_motion(Act act) {
    return act == Act::rapid || act == Act::feed || is_arc(act);
}

std::string letter_text(char letter) {
    return std::string(1, letter);
}
std::string degrees_text(double degrees) {
    return shortest_fixed(degrees, 4) + " degrees";
}

/// Letter of the arc's centre word for an axis letter; 0 for axes that have none.
char centre_letter(char axis) {
    if (axis == 'X') return 'I';
    if (axis == 'Y') return 'J';
    return axis == 'Z' ? 'K' : '\0';
}

/// The plane that two axis letters span, and whether `second` comes a quarter turn ccw after `first` in it
/// (G17: X, Y; G18: Z, X; G19: Y, Z).
struct PlaneOf {
    Act plane = Act::unknown;
    bool in_order = false;
};
PlaneOf plane_of(char first, char second) {
    const auto pair = [&](char a, char b) {
        return (first == a && second == b) || (first == b && second == a);
    };
    if (pair('X', 'Y')) return {Act::plane_xy, first == 'X'};
    if (pair('Z', 'X')) return {Act::plane_zx, first == 'Z'};
    if (pair('Y', 'Z')) return {Act::plane_yz, first == 'Y'};
    return {};
}

}  // namespace

Controller::Controller(const Dialect& dialect, Units units)
    : dialect_(dialect),
      axis_letters_(Block::bit(dialect.radial.letter) | Block::bit(dialect.axial.letter) |
                    Block::bit(dialect.rotary.letter)) {
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

std::size_t Controller::first_axis_offset(const Block& block) const {
    std::size_t first = std::string::npos;
    for (const char letter : {dialect_.radial.letter, dialect_.axial.letter, dialect_.rotary.letter}) {
        if (block.has(letter)) first = std::min(first, block.offset(letter));
    }
    return first == std::string::npos ? 0 : first;
}

/// NIST IR 6556 table 8: feed mode, F, S, tool, spindle, coolant, dwell, plane, units, offsets, path control,
/// distance mode, motion, stop.
bool Controller::run(const Block& block, int line, ProgramFacts& facts, const TakeMove& take) {
    if (!check_words(block)) return false;
    ModalState next = state_;
    dwelt_.reset();
    made_.reset();
    if (!set_feed_and_speed(block, next)) return false;
    set_spindle(block, next);
    if (block.has(Group::m_tool) && state_.fed) {
        return fail("tool-change", "the tool changes after the first cut, and the job has one cutter",
                    "write a program for each cutter", block.offset(Group::m_tool));
    }
    if (block.has(Group::non_modal) && !dwell(block, line, next)) return false;
    if (!set_modes(block, next) || !set_path_mode(block, next)) return false;
    if (!move(block, line, next)) return false;
    if (block.has(Group::m_stop) && block.act(Group::m_stop) == Act::end) next.ended = true;
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

/// Every word must have something that uses it.
bool Controller::check_words(const Block& block) {
    const Act motion = block.has(Group::motion) ? block.act(Group::motion) : state_.motion;
    const bool arcs = is_arc(motion) && (block.letters & axis_letters()) != 0;
    const bool blends = block.has(Group::path_control) && block.act(Group::path_control) == Act::blend;
    std::uint32_t used =
        axis_letters() | Block::bit('F') | Block::bit('N') | Block::bit('S') | Block::bit('T');
    if (block.has(Group::non_modal)) used |= Block::bit('P');
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
        return fail("unused-word", "nothing in this block uses the word " + letter_text(letter),
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
    ReadMove made = moved(ReadMoveKind::rapid, line, next);
    if (next.motion == Act::rapid) return made_ = made, true;
    if (!check_feed_move(block, made, next)) return false;
    next.fed = true;
    made_ = made;
    return true;
}

bool Controller::place_axes(const Block& block, ModalState& next) {
    if (!next.absolute) {
        return fail("distance-mode-not-set", "nothing said whether words are absolute or incremental",
                    "write " + dialect_.absolute_word + " first", first_axis_offset(block));
    }
    if (block.has(dialect_.radial.letter)) {
        if (!next.diameter) {
            return fail(
                "diameter-mode-not-set", "nothing said whether the radial word is a radius or a diameter",
                "write " + (dialect_.radial.diameter ? dialect_.diameter_word : dialect_.radius_word) +
                    " first",
                block.offset(dialect_.radial.letter));
        }
        if (!place_linear(block, dialect_.radial.letter, *next.diameter, next, next.radial)) return false;
    }
    if (block.has(dialect_.axial.letter) &&
        !place_linear(block, dialect_.axial.letter, false, next, next.axial)) {
        return false;
    }
    return !block.has(dialect_.rotary.letter) || place_rotary(block, next);
}

bool Controller::place_linear(const Block& block, char letter, bool halved, const ModalState& next,
                              double& place) {
    if (!next.mm_per_unit) {
        return fail("units-not-set", "nothing said whether lengths are millimetres or inches",
                    "write " + dialect_.mm_word + " or " + dialect_.inch_word + " first",
                    block.offset(letter));
    }
    const double way = block.value(letter) * *next.mm_per_unit * (halved ? 0.5 : 1.0);
    if (*next.absolute) return place = way, true;
    if (std::isnan(place)) {
        return fail("place-unknown", "an incremental word, and where the axis stands is unknown",
                    "move the axis to an absolute place first", block.offset(letter));
    }
    place += way;
    return true;
}

bool Controller::place_rotary(const Block& block, ModalState& next) {
    const char letter = dialect_.rotary.letter;
    const double word = block.value(letter), from = next.rotary;
    const bool folded = dialect_.rotary_range == RotaryRange::folded;
    if (!*next.absolute && (folded || std::isnan(from))) {
        return fail("place-unknown",
                    folded ? "incremental rotary words are not simulated where the axis knows directions only"
                           : "an incremental word, and where the axis stands is unknown",
                    "move the axis to an absolute place", block.offset(letter));
    }
    if (folded) {
        if (!folded_rotary(block, word, next.rotary)) return false;
    } else {
        next.rotary = *next.absolute ? word : from + word;
        const double largest = dialect_.largest_rotary;
        if (largest > 0.0 && std::abs(next.rotary) > largest + rotary_slack) {
            return fail("rotary-word-too-large",
                        "the controller takes rotary words up to " + degrees_text(largest),
                        "begin the program's rotary words nearer to zero", block.offset(letter));
        }
    }
    return check_rotary_way(block, from, next.rotary);
}

bool Controller::folded_rotary(const Block& block, double word, double& place) {
    const std::size_t offset = block.offset(dialect_.rotary.letter);
    const bool by_sign = dialect_.at_fold == RotaryFold::by_sign;
    const bool in_range = by_sign ? std::abs(word) <= 360.0 && word != 0.0 : word >= 0.0 && word < 360.0;
    if (!in_range) {
        return fail("rotary-word-out-of-range",
                    by_sign ? "the controller takes rotary words from -360 to 360, zero left out"
                            : "the controller takes rotary words from 0 up to less than 360",
                    "write the direction within that range", offset);
    }
    const double direction = by_sign ? std::fmod(std::abs(word), 360.0) : word;
    if (std::isnan(place)) return place = direction, true;
    double way = std::remainder(direction - place, 360.0);
    if (by_sign && std::abs(way) <= rotary_slack) way = 0.0;
    if (by_sign && word > 0.0 && way < 0.0) way += 360.0;
    if (by_sign && word < 0.0 && way > 0.0) way -= 360.0;
    if (!by_sign && std::abs(way) >= 180.0 - rotary_slack) {
        return fail("rotary-way-unclear", "half a turn is as short one way round as the other",
                    "go there in two blocks", offset);
    }
    place = direction + 360.0 * static_cast<double>(nearest_step((place + way - direction) / 360.0));
    return true;
}

bool Controller::check_rotary_way(const Block& block, double from, double to) {
    const double longest = dialect_.longest_rotary_block;
    if (longest <= 0.0 || std::isnan(from) || std::abs(to - from) <= longest + rotary_slack) return true;
    return fail("rotary-block-too-long",
                "the block turns the shaft by " + degrees_text(std::abs(to - from)) +
                    ", and the controller takes " + degrees_text(longest) + " in one block",
                "go there in several blocks", block.offset(dialect_.rotary.letter));
}

bool Controller::check_feed_move(const Block& block, ReadMove& made, const ModalState& next) {
    if (std::isnan(state_.radial) || std::isnan(state_.axial) || std::isnan(state_.rotary)) {
        return fail("place-unknown", "a feed starts here, and where one of the axes stands is unknown",
                    "move every axis to its place by a rapid first", first_axis_offset(block));
    }
    if (next.path == PathMode::unset) {
        return fail("path-mode-not-set", "nothing said how exactly the controller keeps to the path",
                    "write " +
                        (dialect_.exact_path_word.empty() ? dialect_.blend_word : dialect_.exact_path_word) +
                        " first",
                    first_axis_offset(block));
    }
    if (!next.offset_chosen && !dialect_.work_offset_words.empty()) {
        return fail("offset-not-set", "nothing selected the offset at which the job's zeros are set",
                    "write " + dialect_.work_offset_words.front() + " first", first_axis_offset(block));
    }
    made.kind = ReadMoveKind::feed;
    const double radial = next.radial - state_.radial, axial = next.axial - state_.axial;
    const double degrees = std::abs(next.rotary - state_.rotary);
    double linear = std::sqrt(radial * radial + axial * axial);
    if (is_arc(next.motion)) {
        if (degrees > 0.0) {
            return fail("arc-with-rotary", "an arc that turns the shaft can't be simulated exactly",
                        "write it in straight blocks", first_axis_offset(block));
        }
        if (!arc(block, made, linear, next)) return false;
    }
    return seconds_of(block, made, linear, degrees, next);
}

/// Inverse time: F settles the block's time. Per minute: the way that the dialect counts, by F. Per turn of
/// the spindle: F times its speed is the feed per minute.
bool Controller::seconds_of(const Block& block, ReadMove& made, double linear_mm, double degrees,
                            const ModalState& next) {
    const std::size_t place = block.has('F') ? block.offset('F') : first_axis_offset(block);
    if (next.feed_mode == Act::unknown) {
        return fail("feed-mode-not-set", "nothing said what F means",
                    "write the word for the feed mode first", place);
    }
    const bool inverse = next.feed_mode == Act::inverse_time;
    if (!next.feed || (inverse && !block.has('F'))) {
        return fail("feed-missing",
                    inverse ? "in inverse time every block needs its own F"
                            : "no feed F stands since the feed mode or the unit changed",
                    "write F in this block", place);
    }
    double feed = *next.feed;
    if (feed == 0.0) return fail("feed-zero", "the feed F is zero", "write a positive feed", place);
    if (inverse) {
        made.seconds = dialect_.inverse_unit == InverseUnit::seconds ? feed : 60.0 / feed;
        return true;
    }
    if (next.feed_mode == Act::per_turn) {
        feed *= std::abs(made.spindle_speed);
        if (feed == 0.0) {
            return fail("spindle-stands", "feed per turn of a spindle that stands", "start the spindle first",
                        place);
        }
    }
    if (linear_mm > 0.0 && degrees > 0.0 && !dialect_.feed_counts) {
        return fail("feed-rule-unknown",
                    "the dialect doesn't say how F counts a block of linear and rotary motion",
                    "write feed.counts in the dialect, or use inverse time", place);
    }
    if (linear_mm > 0.0 && !next.mm_per_unit) {
        return fail("units-not-set", "the feed F has no unit yet", "write the word for the units first",
                    place);
    }
    const double linear = linear_mm > 0.0 ? linear_mm / *next.mm_per_unit : 0.0;
    const bool mixed = dialect_.feed_counts == FeedCounts::mixed;
    const double way = mixed          ? std::sqrt(linear * linear + degrees * degrees)
                       : linear > 0.0 ? linear
                                      : degrees;
    made.seconds = 60.0 * way / feed;
    return true;
}

bool Controller::arc_plane(const Block& block, const ModalState& next) {
    const PlaneOf plane = plane_of(dialect_.axial.letter, dialect_.radial.letter);
    if (plane.plane != Act::unknown && plane.plane == next.plane) return true;
    return fail("arc-plane", "an arc can be simulated only in the plane of the radial and the axial axis",
                dialect_.plane_word.empty() ? "write it in straight blocks"
                                            : "select " + dialect_.plane_word + " first",
                first_axis_offset(block));
}

/// Fills in centre and way, and gives the arc's length.
bool Controller::arc(const Block& block, ReadMove& made, double& length, const ModalState& next) {
    if (!arc_plane(block, next)) return false;
    if (!block.has(dialect_.radial.letter) && !block.has(dialect_.axial.letter)) {
        return fail("arc-without-end", "an arc needs its end", "write the place where it ends",
                    first_axis_offset(block));
    }
    made.kind = ReadMoveKind::arc;
    const bool in_order = plane_of(dialect_.axial.letter, dialect_.radial.letter).in_order;
    made.arc_sense = (next.motion == Act::arc_ccw) == in_order ? 1 : -1;
    if (block.has('R') ? !radius_arc_centre(block, made, next) : !arc_centre(block, made, next)) return false;
    const double r0 = state_.radial - made.centre_radial, a0 = state_.axial - made.centre_axial;
    const double r1 = next.radial - made.centre_radial, a1 = next.axial - made.centre_axial;
    const double radius = std::sqrt(r0 * r0 + a0 * a0);
    if (radius > largest_arc) {
        return fail("arc-radius", "the arc's radius is larger than any machine",
                    "write it as a straight line", first_axis_offset(block));
    }
    double turn = made.arc_sense * elementary::atan2(a0 * r1 - r0 * a1, a0 * a1 + r0 * r1);
    const bool closed = next.radial == state_.radial && next.axial == state_.axial;
    if (turn < 0.0 || closed) turn += full_turn;
    length = radius * turn;
    return true;
}

bool Controller::arc_centre(const Block& block, ReadMove& made, const ModalState& next) {
    const char radial = centre_letter(dialect_.radial.letter), axial = centre_letter(dialect_.axial.letter);
    if (!block.has(radial) && !block.has(axial)) {
        return fail("arc-without-centre", "an arc needs its centre or its radius", "write I, J, K or R",
                    first_axis_offset(block));
    }
    const double unit = *next.mm_per_unit;  // known: an axis word of a length stands in the block
    made.centre_radial = state_.radial + (block.has(radial) ? block.value(radial) * unit : 0.0);
    made.centre_axial = state_.axial + (block.has(axial) ? block.value(axial) * unit : 0.0);
    const auto radius = [&](double r, double a) {
        return std::sqrt((r - made.centre_radial) * (r - made.centre_radial) +
                         (a - made.centre_axial) * (a - made.centre_axial));
    };
    const double start = radius(state_.radial, state_.axial), end = radius(next.radial, next.axial);
    const std::size_t place = block.has(radial) ? block.offset(radial) : block.offset(axial);
    if (start < arc_radius_slack)
        return fail("arc-radius", "the arc's radius is zero", "check its centre", place);
    if (std::abs(start - end) <= arc_radius_slack) return true;
    return fail("arc-radius",
                "the arc's end lies " + shortest_fixed(std::abs(end - start) / unit, 6) +
                    " off the circle of its start",
                "check the centre and the end", place);
}

/// The centre at distance |R| from both ends: of the arc below half a turn for R > 0, above for R < 0.
bool Controller::radius_arc_centre(const Block& block, ReadMove& made, const ModalState& next) {
    const std::size_t place = block.offset('R');
    if (block.has('I') || block.has('J') || block.has('K')) {
        return fail("arc-centre-twice", "the arc has a centre and a radius", "leave one of them out", place);
    }
    const double radius = block.value('R') * *next.mm_per_unit;
    const double da = next.axial - state_.axial, dr = next.radial - state_.radial;
    const double half = 0.5 * std::sqrt(da * da + dr * dr);
    if (half == 0.0) {
        return fail("arc-radius", "an arc by its radius must end elsewhere than it starts",
                    "write its centre", place);
    }
    if (half > std::abs(radius) + arc_radius_slack) {
        return fail("arc-radius", "the radius is too small to reach the arc's end", "check R and the end",
                    place);
    }
    const double height = std::sqrt(std::max(0.0, radius * radius - half * half));
    const double side = (radius > 0.0 ? height : -height) * made.arc_sense / (2.0 * half);
    made.centre_axial = state_.axial + 0.5 * da - side * dr;
    made.centre_radial = state_.radial + 0.5 * dr + side * da;
    return true;
}

}  // namespace lobewright::proof
