#include "drawing/kit/drawing_board.h"

#include "base/text/characters.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::drawing {
namespace {

constexpr double margin = 3.0;             // mm of paper
constexpr double gap = 1.0, beyond = 2.0;  // of extension lines: from the thing, past the dimension's line
/// Of a character, of its height: on the wide side of common sans-serif faces.
constexpr double widest_character = 0.74;

/// Lettering never stands on its head: turned by half a turn where it would.
double readable(double turned) {
    const double wrapped = wrapped_radians(turned);
    constexpr double quarter = std::numbers::pi / 2.0, noise = 1e-9;
    if (wrapped > quarter + noise) return wrapped - std::numbers::pi;
    if (wrapped <= -quarter + noise) return wrapped + std::numbers::pi;
    return wrapped;
}

}  // namespace

void DrawingBoard::arc(Vec2 centre, double radius, double start, double turn, Pen pen) {
    if (turn < 0.0) start += turn, turn = -turn;
    add(DrawnArc{centre, radius, start, turn, pen});
    for (const double s : {-1.0, 1.0})
        cover(centre + s * Vec2{radius, radius});
}

void DrawingBoard::chain(DrawnChain chain, Pen pen) {
    chain.pen = pen;
    const Extents extents = extents_of(chain);
    cover(extents.low);
    cover(extents.high);
    add(std::move(chain));
}

void DrawingBoard::rectangle(Vec2 low, Vec2 high, Pen pen) {
    chain({{{low}, {{high.x, low.y}}, {high}, {{low.x, high.y}}}, true, pen}, pen);
}

void DrawingBoard::text(Vec2 at, std::string text, Anchor anchor, double height, double turned) {
    const double width = widest_character * height * static_cast<double>(characters(text));
    const double before = anchor == Anchor::start ? 0.0 : anchor == Anchor::middle ? width / 2.0 : width;
    const Vec2 along = unit(turned);
    cover(at - before * along);
    cover(at + (width - before) * along + height * quarter_turn(along));
    add(DrawnText{at, height, std::move(text), anchor, turned});
}

void DrawingBoard::centre_cross(Vec2 centre, double radius) {
    const double reach = radius + 4.0;
    line(centre - Vec2{reach, 0.0}, centre + Vec2{reach, 0.0}, Pen::axis);
    line(centre - Vec2{0.0, reach}, centre + Vec2{0.0, reach}, Pen::axis);
    cover(centre - Vec2{reach, reach});
    cover(centre + Vec2{reach, reach});
}

void DrawingBoard::tick_lines(Vec2 a, Vec2 b, Vec2 shift) {
    const double size = length(shift);
    if (size <= gap) return;
    const Vec2 out = shift / size;
    for (const Vec2 end : {a, b})
        line(end + gap * out, end + shift + beyond * out, Pen::dimension);
}

void DrawingBoard::dimension(Vec2 a, Vec2 b, double aside, const std::string& figure) {
    const double size = length(b - a);
    const Vec2 along = (b - a) / size;
    const Vec2 shift = aside * quarter_turn(along);
    tick_lines(a, b, shift);
    const Vec2 from = a + shift, to = b + shift;
    const bool tight = size < 3.0 * DrawnArrow::head_length;  // arrows from outside
    const Vec2 stub = (tight ? 2.0 * DrawnArrow::head_length : 0.0) * along;
    line(from - stub, to + stub, Pen::dimension);
    arrow(from, tight ? along : -along);
    arrow(to, tight ? -along : along);
    const double turned = readable(direction(along));
    const Vec2 up = quarter_turn(unit(turned));
    text((from + to) / 2.0 + gap * up, figure, Anchor::middle, small_height, turned);
    cover(from);
    cover(to);
}

void DrawingBoard::leader(Vec2 tip, Vec2 elbow, const std::string& words) {
    const Vec2 way = tip - elbow;
    const double side = elbow.x >= tip.x ? 1.0 : -1.0;
    line(elbow, tip, Pen::dimension);
    arrow(tip, way / length(way));
    const Vec2 end = elbow + Vec2{side * 3.0, 0.0};
    line(elbow, end, Pen::dimension);
    text(end + Vec2{side * gap, -small_height / 2.0}, words, side > 0.0 ? Anchor::start : Anchor::end,
         small_height);
}

void DrawingBoard::angle_dimension(Vec2 centre, double radius, double start, double turn,
                                   const std::string& words) {
    turn_arrow(centre, radius, start, turn);
    const Vec2 first = unit(start);
    arrow(centre + radius * first, (turn > 0.0 ? -1.0 : 1.0) * quarter_turn(first));
    for (const Vec2 side : {first, unit(start + turn)})
        line(centre, centre + (radius + beyond) * side, Pen::dimension);
    const Vec2 middle = unit(start + turn / 2.0);
    text(centre + (radius + 2.0) * middle, words,
         std::abs(middle.x) < 0.3 ? Anchor::middle
         : middle.x > 0.0         ? Anchor::start
                                  : Anchor::end,
         small_height);
}

void DrawingBoard::turn_arrow(Vec2 centre, double radius, double start, double turn) {
    arc(centre, radius, start, turn, Pen::dimension);
    const Vec2 last = unit(start + turn);
    arrow(centre + radius * last, (turn > 0.0 ? 1.0 : -1.0) * quarter_turn(last));
}

Drawing DrawingBoard::finished(std::string title, double scale, Units units) const {
    const Vec2 edge{margin, margin};
    return {std::move(title), shapes_, low() - edge, high() + edge, scale, units};
}

}  // namespace lobewright::drawing
