// What a feed needs, and the time that it takes.
#include "proof/reader/controller.h"

#include <cmath>

namespace lobewright::proof {

bool Controller::check_feed_move(const Block& block, ReadMove& made, const ModalState& next) {
    if (std::isnan(state_.radial) || std::isnan(state_.axial) || std::isnan(state_.rotary) ||
        std::isnan(state_.side)) {
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
    if (next.side != state_.side) {
        return fail("side-axis-feeds", "the side axis moves in a feed, which is not simulated",
                    "go to its place at rapid, clear of the shaft", block.offset(dialect_.side->word.letter));
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

/// `linear`: the length of the block's linear motion, in the program's unit.
void Controller::hold_least_feed(ReadMove& made, double linear) const {
    constexpr double rounding = 1e-9;  // of the feed that the words come to
    const double least = dialect_.least_linear_feed;
    if (linear > 0.0 && linear * 60.0 < least * made.seconds * (1.0 - rounding))
        made.runs_in = linear / least * 60.0;
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
    const double linear = linear_mm / next.mm_per_unit.value_or(1.0);
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
        hold_least_feed(made, linear);
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
    const bool mixed = dialect_.feed_counts == FeedCounts::mixed;
    const double way = mixed          ? std::sqrt(linear * linear + degrees * degrees)
                       : linear > 0.0 ? linear
                                      : degrees;
    made.seconds = 60.0 * way / feed;
    return true;
}

}  // namespace lobewright::proof
