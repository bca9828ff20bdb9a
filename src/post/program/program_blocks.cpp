#include "post/program/program_blocks.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cassert>
#include <cstdlib>

namespace lobewright::post {

double ProgramBlocks::degrees_of(long long steps) const {
    return static_cast<double>(std::llabs(steps)) * grid_.rotary_step;
}

/// One axis alone; nothing where it stands there already.
void ProgramBlocks::rapid_block(std::string word, std::string_view note) {
    if (word.empty()) return;
    lines_.block({from_home_ ? dialect_.absolute_word : std::string(), dialect_.rapid_word, std::move(word)},
                 note);
    from_home_ = false;
    motion_ = dialect_.rapid_word;
}

void ProgramBlocks::go_out(long long radial, long long axial, std::string_view note) {
    rapid_block(axes_.radial(radial), note);
    rapid_block(axes_.axial(axial));
    at_.radial = radial, at_.axial = axial;
}

void ProgramBlocks::has_gone_home() {
    axes_.forget_places();
    from_home_ = true;
}

void ProgramBlocks::go_out_with_new_tool(long long radial, std::string_view note) {
    axes_.forget_places();
    rapid_block(axes_.radial(radial), note);
    at_.radial = radial;
}

/// Where it stands already the word is said anew, for the controller's sake nowhere else.
void ProgramBlocks::turn_to(long long rotary) {
    const long long from = turned_ ? at_.rotary : rotary;
    const long long parts = parts_of_turn(rotary - from);
    for (long long part = 1; part <= parts; ++part)
        rapid_block(axes_.rotary(from + (rotary - from) * part / parts));
    turned_ = true;
}

void ProgramBlocks::come_to_start(const Words& start, double side) {
    rapid_block(axes_.axial(start.axial));
    rapid_block(axes_.side(side));
    turn_to(start.rotary);
    rapid_block(axes_.radial(start.radial));
    at_ = start;
    fit_.add_rotary_word(degrees_of(start.rotary));
}

void ProgramBlocks::add(const Move& move) {
    if (move.to == at_) return;
    fit_.add_rotary_word(degrees_of(move.to.rotary));
    if (move.kind == MoveKind::rapid) return rapid(move.to);
    fit_.add_turn(degrees_of(move.to.rotary - at_.rotary));
    feed(move);
}

/// A rapid that turns further than the dialect allows in one block goes in equal parts.
long long ProgramBlocks::parts_of_turn(long long steps) const {
    const double longest = dialect_.longest_rotary_block;
    return longest > 0.0 ? std::max(1LL, step_above(degrees_of(steps) / longest)) : 1LL;
}

void ProgramBlocks::rapid(const Words& to) {
    const long long parts = parts_of_turn(to.rotary - at_.rotary);
    const Words from = at_;
    for (long long part = 1; part <= parts; ++part) {
        const auto between = [&](long long a, long long b) { return a + (b - a) * part / parts; };
        put(dialect_.rapid_word,
            {between(from.radial, to.radial), between(from.axial, to.axial), between(from.rotary, to.rotary)},
            {});
    }
}

void ProgramBlocks::feed(const Move& move) {
    assert(move.seconds > 0.0);
    const FeedNumber number = feed_number(dialect_, units_, grid_, at_, move.to, move.seconds);
    fit_.add_feed(dialect_, number, move.seconds);
    std::string token = 'F' + number_token(number.steps, dialect_.feed_decimals, dialect_);
    const bool repeats = dialect_.repeat_feed || dialect_.feed_mode == FeedMode::inverse_time;
    if (token == printed_feed_ && !repeats) {
        token.clear();
    } else {
        printed_feed_ = token;
    }
    put(dialect_.feed_word, move.to, token);
}

void ProgramBlocks::put(const std::string& motion, const Words& to, const std::string& feed) {
    std::vector<std::string> words = axes_.move_to(to);
    words.push_back(feed);
    if (motion != motion_ || dialect_.repeat_modal_g) words.push_back(motion);
    motion_ = motion;
    at_ = to;
    lines_.block(std::move(words));
}

}  // namespace lobewright::post
