#include "drawing/kit/arc_chain.h"

#include "base/elementary/elementary.h"

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace drawing {
namespace {

/// Of an arc through both ends and the middle of a stretch: half its turn is the turn of the two chords.
double bulge_through(Vec2 from, Vec2 middle, Vec2 to) {
    const Vec2 first = middle - from, second = to - middle;
    return cross(first, second) / (length(first) * length(second) + dot(first, second));
}

/// How far a point lies beside the arc of that bulge.
double beside(Vec2 from, Vec2 to, double bulge, Vec2 point) {
    if (std::abs(bulge) < least_bulge) return std::abs(cross(to - from, point - from)) / length(to - from);
    const ArcOfBulge arc = arc_of(from, to, bulge);
    return std::abs(length(point - arc.centre) - arc.radius);
}

/// The deviation of an arc through both ends and the middle is a cubic but for higher terms, whose greatest
/// value is 1.03 times that at the quarters; four times leaves room for those terms.
constexpr double most_beyond_quarters = 4.0;
constexpr int deepest_halving = 24;

struct PieceArcs {
    const ContourPiece& piece;
    double tolerance;
    std::vector<ChainPoint>& points;

    [[nodiscard]] Vec2 at(double t) const { return piece.at(t).point; }

    void add(double start, double end, int halvings) {
        const double middle = (start + end) / 2.0;
        const Vec2 from = at(start), to = at(end);
        const double bulge = bulge_through(from, at(middle), to);
        const double off = std::max(beside(from, to, bulge, at((start + middle) / 2.0)),
                                    beside(from, to, bulge, at((middle + end) / 2.0)));
        if (halvings > 0 && most_beyond_quarters * off > tolerance) {
            add(start, middle, halvings - 1);
            add(middle, end, halvings - 1);
        } else {
            points.push_back({from, bulge});
        }
    }
};

/// An arc in parts of at most a third of a turn, each exact: the points and the curvature are the contour's.
void add_circular(const ContourPiece& piece, std::vector<ChainPoint>& points) {
    const double turn =
        (piece.end - piece.start) * piece.at(piece.start).speed * piece.at(piece.start).curvature;
    const int parts = std::max(1, static_cast<int>(std::ceil(std::abs(turn) / (full_turn / 3.0) - 1e-9)));
    for (int i = 0; i < parts; ++i) {
        const double t = piece.start + (piece.end - piece.start) * i / parts;
        points.push_back({piece.at(t).point, elementary::tan(turn / parts / 4.0)});
    }
}

}  // namespace

ArcOfBulge arc_of(Vec2 from, Vec2 to, double bulge) {
    const Vec2 chord = to - from;
    const double size = length(chord);
    const double radius = size * (1.0 + bulge * bulge) / (4.0 * bulge);  // with the bulge's sign
    const Vec2 centre = (from + to) / 2.0 + quarter_turn(chord) * ((1.0 - bulge * bulge) / (4.0 * bulge));
    return {centre, std::abs(radius), direction(from - centre), 4.0 * elementary::atan(bulge)};
}

void Extents::cover(Vec2 point) {
    low = {std::min(low.x, point.x), std::min(low.y, point.y)};
    high = {std::max(high.x, point.x), std::max(high.y, point.y)};
}

Extents extents_of(const DrawnChain& chain) {
    Extents extents;
    const std::size_t count = chain.points.size();
    for (std::size_t i = 0; i < count; ++i) {
        const ChainPoint& from = chain.points[i];
        const Vec2 to = chain.points[(i + 1) % count].at;
        extents.cover(from.at);
        if (std::abs(from.bulge) < least_bulge || (i + 1 == count && !chain.closed)) continue;
        const ArcOfBulge arc = arc_of(from.at, to, from.bulge);
        for (const Vec2 side : {Vec2{1.0, 0.0}, Vec2{0.0, 1.0}, Vec2{-1.0, 0.0}, Vec2{0.0, -1.0}})
            if (arc.spans(direction(side))) extents.cover(arc.centre + arc.radius * side);
    }
    return extents;
}

bool ArcOfBulge::spans(double towards) const {
    const double first = turn > 0.0 ? start : start + turn;
    const double past = towards - first;
    return past - full_turn * std::floor(past / full_turn) <= std::abs(turn);
}

DrawnChain placed(DrawnChain chain, Vec2 turned_by, double scale, Vec2 shift) {
    for (ChainPoint& point : chain.points)
        point.at = shift + scale * turned(point.at, turned_by);
    return chain;
}

}  // namespace drawing

DrawnChain chain_of(const Contour& contour, double tolerance) {
    DrawnChain chain;
    chain.closed = true;
    for (const ContourPiece& piece : contour.pieces()) {
        if (piece.circular) {
            drawing::add_circular(piece, chain.points);
            continue;
        }
        drawing::PieceArcs arcs{piece, tolerance, chain.points};
        constexpr int first_parts = 4;
        for (int i = 0; i < first_parts; ++i) {
            const double part = (piece.end - piece.start) / first_parts;
            arcs.add(piece.start + i * part, i + 1 == first_parts ? piece.end : piece.start + (i + 1) * part,
                     drawing::deepest_halving);
        }
    }
    return chain;
}

}  // namespace lobewright
