#include "proof/sweep/shaft_moves.h"

#include "base/elementary/elementary.h"

#include <lobewright/plane.h>

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

constexpr std::uint32_t rapid_bit = 1, spindle_bit = 2;

bool known(const ReadMove& move) {
    return !std::isnan(move.radial) && !std::isnan(move.axial) && !std::isnan(move.rotary);
}

}  // namespace

void ShaftMoves::add(const ShaftPlace& to, bool rapid, bool spindle_on, int line, double seconds) {
    places_.push_back(to);
    seconds_.push_back(seconds);
    marks_.push_back(static_cast<std::uint32_t>(line) << 2 | (rapid ? rapid_bit : 0) |
                     (spindle_on ? spindle_bit : 0));
}

ShaftMove ShaftMoves::operator[](int index) const {
    const auto i = static_cast<std::size_t>(index);
    const std::uint32_t mark = marks_[i];
    return {places_[i],
            places_[i + 1],
            (mark & rapid_bit) != 0,
            (mark & spindle_bit) != 0,
            static_cast<int>(mark >> 2),
            seconds_[i]};
}

ShaftPlace ShaftMoveBuilder::place(const ReadMove& move) const {
    return place(move.radial, move.axial, move.rotary);
}

ShaftPlace ShaftMoveBuilder::place(double radial, double axial, double rotary) const {
    return {rotary * body_->facing_per_degree, radial + body_->tip_from_word, axial};
}

void ShaftMoveBuilder::put(const ShaftPlace& to, const ReadMove& move, double seconds) {
    moves_.add(to, move.kind == ReadMoveKind::rapid, move.spindle_on, move.line, seconds);
}

void ShaftMoveBuilder::take(const ReadMove& move) {
    if (move.kind == ReadMoveKind::dwell) return wait(move);
    const auto stands_clear = [&](const ReadMove& at) {
        return at.at_home || at.radial + body_->tip_from_word >= clear_;  // false while the place is NaN
    };
    if (move.kind == ReadMoveKind::home) {
        const bool on_the_way = last_ && last_->kind == ReadMoveKind::home;
        if (last_ && !on_the_way && !stands_clear(*last_) && home_line_ == 0) home_line_ = move.line;
    } else if (moves_.begun() && last_ && known(*last_) && known(move)) {
        add(move);
    } else {
        if (!stands_clear(move) && blind_line_ == 0) blind_line_ = move.line;
        if (known(move)) come_back(move);
    }
    last_ = move;
}

void ShaftMoveBuilder::wait(const ReadMove& move) {
    if (!moves_.begun() || !known(move) || move.seconds == 0.0) return;
    if (move.radial + body_->tip_from_word < clear_)
        dwells_.push_back({place(move), moves_.size(), move.line, move.seconds});
}

/// From outside all to outside all, by whatever way: as straight as any.
void ShaftMoveBuilder::come_back(const ReadMove& move) {
    if (!moves_.begun()) return moves_.begin(place(move));
    add(move);
}

void ShaftMoveBuilder::add(const ReadMove& move) {
    if (move.kind == ReadMoveKind::arc) return add_arc(move);
    put(place(move), move, move.seconds);
}

/// Chords of equal turn, with a sagitta of r(1 - cos(turn/2)).
void ShaftMoveBuilder::add_arc(const ReadMove& move) {
    const double a0 = last_->axial - move.centre_axial, r0 = last_->radial - move.centre_radial;
    const double a1 = move.axial - move.centre_axial, r1 = move.radial - move.centre_radial;
    const double radius = std::sqrt(a0 * a0 + r0 * r0);
    double turn = move.arc_sense * elementary::atan2(a0 * r1 - r0 * a1, a0 * a1 + r0 * r1);
    if (turn < 0.0 || (a0 == a1 && r0 == r1)) turn += full_turn;
    const double step = 2.0 * elementary::acos(std::max(0.0, 1.0 - chord_error / radius));
    const int parts = static_cast<int>(std::ceil(turn / step));
    for (int i = 1; i <= parts; ++i) {
        const double by = move.arc_sense * turn * i / parts;
        const Vec2 at = turned({a0, r0}, unit(by));
        const ShaftPlace to = i == parts
                                  ? place(move)
                                  : place(move.centre_radial + at.y, move.centre_axial + at.x, move.rotary);
        put(to, move, move.seconds / parts);
    }
}

ShaftMoves shaft_moves(const ReadProgram& program, const CutterBody& body) {
    ShaftMoveBuilder builder(body, 0.0);
    for (const ReadMove& move : program.moves)
        builder.take(move);
    return builder.moves();
}

}  // namespace lobewright::proof
