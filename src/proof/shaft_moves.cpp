#include "proof/shaft_moves.h"

#include "base/elementary/elementary.h"

#include <lobewright/plane.h>

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

bool known(const ReadMove& move) {
    return !std::isnan(move.radial) && !std::isnan(move.axial) && !std::isnan(move.rotary);
}

class MoveBuilder {
  public:
    MoveBuilder(const CutterBody& body, ShaftMoves& made) : body_(body), made_(made) {}

    void add(const ReadMove& last, const ReadMove& move) {
        if (move.kind == ReadMoveKind::arc) return add_arc(last, move);
        put(place(last), place(move), move, move.seconds);
    }

  private:
    [[nodiscard]] ShaftPlace place(const ReadMove& move) const {
        return place(move.radial, move.axial, move.rotary);
    }
    [[nodiscard]] ShaftPlace place(double radial, double axial, double rotary) const {
        return {rotary * body_.facing_per_degree, radial + body_.tip_from_word, axial};
    }

    void put(const ShaftPlace& from, const ShaftPlace& to, const ReadMove& move, double seconds) {
        made_.moves.push_back(
            {from, to, move.kind == ReadMoveKind::rapid, move.spindle_on, move.line, seconds});
    }

    /// Chords of equal turn, with a sagitta of r(1 - cos(turn/2)).
    void add_arc(const ReadMove& last, const ReadMove& move) {
        const double a0 = last.axial - move.centre_axial, r0 = last.radial - move.centre_radial;
        const double a1 = move.axial - move.centre_axial, r1 = move.radial - move.centre_radial;
        const double radius = std::sqrt(a0 * a0 + r0 * r0);
        double turn = move.arc_sense * elementary::atan2(a0 * r1 - r0 * a1, a0 * a1 + r0 * r1);
        if (turn < 0.0 || (a0 == a1 && r0 == r1)) turn += full_turn;
        const double step = 2.0 * elementary::acos(std::max(0.0, 1.0 - chord_error / radius));
        const int parts = std::max(1, static_cast<int>(std::ceil(turn / step)));
        ShaftPlace from = place(last);
        for (int i = 1; i <= parts; ++i) {
            const double by = move.arc_sense * turn * i / parts;
            const Vec2 at = turned({a0, r0}, unit(by));
            const ShaftPlace to =
                i == parts ? place(move)
                           : place(move.centre_radial + at.y, move.centre_axial + at.x, move.rotary);
            put(from, to, move, move.seconds / parts);
            from = to;
        }
    }

    const CutterBody& body_;
    ShaftMoves& made_;
};

}  // namespace

ShaftMoves shaft_moves(const ReadProgram& program, const CutterBody& body, double clear) {
    ShaftMoves made;
    made.moves.reserve(program.moves.size());
    MoveBuilder builder(body, made);
    const ReadMove* last = nullptr;
    for (const ReadMove& move : program.moves) {
        if (move.kind == ReadMoveKind::dwell) continue;
        const bool from_known = last != nullptr && known(*last);
        if (from_known) builder.add(*last, move);
        const bool outside = move.radial + body.tip_from_word >= clear;  // false while the place is NaN
        if (!from_known && !outside && made.blind == 0) made.blind = move.line;
        last = &move;
    }
    return made;
}

}  // namespace lobewright::proof
