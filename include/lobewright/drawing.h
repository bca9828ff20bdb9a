/// Drawings at true scale: of a lobe, the shaft, an index wheel, a nose's template, a degree wheel, a motion.
///
/// A drawing is plain data in millimetres of paper, x to the right and y up; text of two formats is made of
/// it.
#pragma once

#include <lobewright/hand.h>
#include <lobewright/lobe.h>

#include <array>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace lobewright {

/// Line weights and kinds as on a shop drawing (ISO 128): wide for outlines, narrow for all else; axes are
/// chain lines, what lies behind is dashed.
enum class Pen { outline, thin, axis, hidden, dimension };

struct DrawnLine {
    Vec2 from, to;
    Pen pen = Pen::thin;
};
/// Counter-clockwise from `start`, radians; a whole turn is a circle.
struct DrawnArc {
    Vec2 centre;
    double radius = 0.0;
    double start = 0.0;
    double turn = full_turn;
    Pen pen = Pen::thin;

    [[nodiscard]] bool is_circle() const { return turn >= full_turn - 1e-9; }
};
/// `bulge`: of the step to the next point, the tangent of a quarter of its arc's turn, positive
/// counter-clockwise; 0 is straight.
struct ChainPoint {
    Vec2 at;
    double bulge = 0.0;
};
/// Lines and arcs end to end; the last point's bulge counts only where the chain is closed.
struct DrawnChain {
    std::vector<ChainPoint> points;
    bool closed = false;
    Pen pen = Pen::outline;
};
/// A filled arrowhead.
struct DrawnArrow {
    Vec2 tip;
    Vec2 along;  ///< unit vector that it points along

    static constexpr double head_length = 3.0, half_width = 0.5;  // mm of paper
    /// The two corners behind the tip.
    [[nodiscard]] std::array<Vec2, 2> barbs() const {
        const Vec2 back = tip - head_length * along, side = half_width * quarter_turn(along);
        return {back + side, back - side};
    }
};
enum class Anchor { start, middle, end };
struct DrawnText {
    Vec2 at;              ///< of the base line, where `anchor` says
    double height = 3.5;  ///< of a capital letter
    std::string text;
    Anchor anchor = Anchor::start;
    double turned = 0.0;  ///< radians, counter-clockwise
};
using Shape = std::variant<DrawnLine, DrawnArc, DrawnChain, DrawnArrow, DrawnText>;

struct Drawing {
    std::string title;
    std::vector<Shape> shapes;
    Vec2 low, high;      ///< corners of the paper
    double scale = 1.0;  ///< mm of paper for a mm of the thing
    Units units = Units::mm;
};

/// One SVG 1.1 document whose width and height are the paper's, in mm.
std::string svg_text(const Drawing& drawing);
/// A DXF of release 12 (the published ASCII format) at the thing's own size, in the drawing's units, whatever
/// the scale; arcs are arcs, a chain is one polyline. Layers by pen, TEXT beside them.
std::string dxf_text(const Drawing& drawing);

/// How far a drawn outline may lie from the contour, mm of the thing: pieces that are no arcs are drawn as
/// arcs that keep within it.
inline constexpr double drawn_tolerance = 1e-5;
/// The contour as arcs and lines, mm, in the lobe's frame.
DrawnChain chain_of(const Contour& contour, double tolerance = drawn_tolerance);

/// The scale that shop drawings use (1, 2, 5, 10, 20, 50 to 1, and reductions) that lets `size` fill most of
/// `room`, mm.
double usual_scale(double size, double room);

/// The lobe with its dimensions, nose up, seen from the drive end. A scale that isn't given is one that fits.
Drawing lobe_drawing(const Job& job, const SolvedLobe& lobe, std::optional<double> scale = std::nullopt);
/// End view from the drive end with every nose; side view with the drive end to the left and φ = 0 facing the
/// reader.
Drawing shaft_drawing(const Job& job, const std::vector<SolvedLobe>& lobes,
                      std::optional<double> scale = std::nullopt);

struct WheelSize {
    std::optional<double> diameter;  ///< mm; absent: the job's wheel_diameter, else 150
    double bore = 0.0;               ///< mm; 0: a centre mark alone
    double screw_circle = 0.0;       ///< mm; three holes; 0: none
};
/// The index wheel of an offset fixture, seen from the drive end, as it sits on the shaft: every mark, and at
/// its rim what is cut there. Refused for a method that has no such wheel.
Outcome<Drawing> index_wheel_drawing(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     const HandPlan& plan, const WheelSize& size);
/// A plate whose notch is the finished nose between the flanks as they are cut. Refused where the method
/// leaves no nose to file.
Outcome<Drawing> nose_drawing(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan,
                              std::size_t lobe, std::optional<double> scale = std::nullopt);

/// A degree wheel for the crankshaft with the valve events of cylinder 1 on it. `crank`: the way round that
/// the crankshaft runs as one looks at the wheel; the numbers grow the other way, so that a fixed pointer
/// reads them rising. Refused where no lobe has events.
Outcome<Drawing> degree_wheel_drawing(const Job& job, const std::vector<SolvedLobe>& lobes, double diameter,
                                      Sense crank);

/// Lift, velocity, acceleration and jerk over the cam angle; no scale but that of its axes.
Drawing motion_drawing(const Job& job, const SolvedLobe& lobe);

}  // namespace lobewright
