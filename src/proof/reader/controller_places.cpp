// Where the axes' words put them.
#include "base/whole_steps.h"
#include "proof/reader/controller.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

/// Degrees: a rotary word counts as one with another if it is this near; finer than any dialect's decimals.
constexpr double rotary_slack = 1e-7;

std::string degrees_text(double degrees) {
    return shortest_fixed(degrees, 4) + " degrees";
}

}  // namespace

std::size_t Controller::first_axis_offset(const Block& block) const {
    std::size_t first = std::string::npos;
    for (const char letter : {dialect_.radial.letter, dialect_.axial.letter, dialect_.rotary.letter}) {
        if (block.has(letter)) first = std::min(first, block.offset(letter));
    }
    if (dialect_.side && block.has(dialect_.side->word.letter))
        first = std::min(first, block.offset(dialect_.side->word.letter));
    return first == std::string::npos ? 0 : first;
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
    return place_side(block, next) && (!block.has(dialect_.rotary.letter) || place_rotary(block, next));
}

/// Its word grows the way that the dialect says, the place towards φ + 90°.
bool Controller::place_side(const Block& block, ModalState& next) {
    if (!dialect_.side || !block.has(dialect_.side->word.letter)) return true;
    const double sense = dialect_.side->positive == Sense::ccw ? 1.0 : -1.0;
    double word = sense * next.side;
    if (!place_linear(block, dialect_.side->word.letter, false, next, word)) return false;
    next.side = sense * word;
    return true;
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

}  // namespace lobewright::proof
