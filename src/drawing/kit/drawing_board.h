/// What drawings are put together on: strokes, and the dimensions of shop drawings.
///
/// This folder holds the means of drawing: chains of arcs, dimensions, the title block, the two formats.
#pragma once

#include "drawing/kit/arc_chain.h"

#include <lobewright/drawing.h>

namespace lobewright::drawing {

/// Of lettering, mm: ISO 3098's series.
inline constexpr double small_height = 2.5, plain_height = 3.5, title_height = 5.0;

/// Collects strokes in mm of paper, any origin.
class DrawingBoard {
  public:
    void line(Vec2 from, Vec2 to, Pen pen = Pen::thin) { add(DrawnLine{from, to, pen}); }
    void circle(Vec2 centre, double radius, Pen pen = Pen::thin) { arc(centre, radius, 0.0, full_turn, pen); }
    /// `turn` may be negative: clockwise.
    void arc(Vec2 centre, double radius, double start, double turn, Pen pen = Pen::thin);
    void chain(DrawnChain chain, Pen pen = Pen::outline);
    void rectangle(Vec2 low, Vec2 high, Pen pen = Pen::outline);
    void arrow(Vec2 tip, Vec2 along) { add(DrawnArrow{tip, along}); }
    void text(Vec2 at, std::string text, Anchor anchor = Anchor::start, double height = plain_height,
              double turned = 0.0);
    /// Axes of a round thing: a cross of chain lines that stands over it by a little.
    void centre_cross(Vec2 centre, double radius);

    /// From a to b along a line beside them: `aside` mm to the left of the way from a to b.
    void dimension(Vec2 a, Vec2 b, double aside, const std::string& figure);
    /// An arrow at `tip` from `elbow`, and the words beyond it, away from the tip.
    void leader(Vec2 tip, Vec2 elbow, const std::string& words);
    /// Between two directions, radians; the words stand outside the middle.
    void angle_dimension(Vec2 centre, double radius, double start, double turn, const std::string& words);
    /// A bent arrow round the centre, ccw where `turn` > 0.
    void turn_arrow(Vec2 centre, double radius, double start, double turn);

    [[nodiscard]] Vec2 low() const { return extents_.low; }
    [[nodiscard]] Vec2 high() const { return extents_.high; }
    /// The drawing, with a margin round all of it.
    [[nodiscard]] Drawing finished(std::string title, double scale, Units units) const;

  private:
    void add(Shape shape) { shapes_.push_back(std::move(shape)); }
    void cover(Vec2 point) { extents_.cover(point); }
    void tick_lines(Vec2 a, Vec2 b, Vec2 shift);

    std::vector<Shape> shapes_;
    Extents extents_;
};

}  // namespace lobewright::drawing
