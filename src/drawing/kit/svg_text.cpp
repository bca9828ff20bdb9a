#include "base/text/markup.h"
#include "drawing/kit/arc_chain.h"

#include <lobewright/number_text.h>

#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

/// Ink on white paper; a page may set its own for the classes.
constexpr const char* style =
    "<style>.drawing path,.drawing line,.drawing circle{fill:none;stroke:#1a1a1a;stroke-width:.25}"
    ".drawing .outline{stroke-width:.5}.drawing .axis{stroke-dasharray:8 1.5 1 1.5}"
    ".drawing .hidden{stroke-dasharray:2.5 1.2}.drawing .dimension{stroke-width:.18}"
    ".drawing .arrow{fill:#1a1a1a;stroke:none}.drawing .paper{fill:#fff}"
    ".drawing text{font-family:sans-serif;fill:#1a1a1a}</style>\n";

const char* class_of(Pen pen) {
    switch (pen) {
        case Pen::outline:
            return "outline";
        case Pen::thin:
            return "thin";
        case Pen::axis:
            return "axis";
        case Pen::hidden:
            return "hidden";
        case Pen::dimension:
            return "dimension";
    }
    return "thin";
}

/// Shapes as elements. Paper has y up, SVG down: every y changes its sign.
class SvgWriter {
  public:
    std::string text;

    void operator()(const DrawnLine& line) {
        text += "<line class=\"" + std::string(class_of(line.pen)) + "\" x1=\"" + number(line.from.x) +
                "\" y1=\"" + number(-line.from.y) + "\" x2=\"" + number(line.to.x) + "\" y2=\"" +
                number(-line.to.y) + "\"/>\n";
    }
    void operator()(const DrawnArc& arc) {
        if (arc.is_circle()) {
            text += "<circle class=\"" + std::string(class_of(arc.pen)) + "\" cx=\"" + number(arc.centre.x) +
                    "\" cy=\"" + number(-arc.centre.y) + "\" r=\"" + number(arc.radius) + "\"/>\n";
            return;
        }
        begin_path(arc.pen, arc.centre + arc.radius * unit(arc.start));
        arc_to(arc.radius, arc.turn, arc.centre + arc.radius * unit(arc.start + arc.turn));
        text += "\"/>\n";
    }
    void operator()(const DrawnChain& chain) {
        begin_path(chain.pen, chain.points.front().at);
        const std::size_t count = chain.points.size();
        for (std::size_t i = 0; i + (chain.closed ? 0 : 1) < count; ++i)
            step(chain.points[i], chain.points[(i + 1) % count].at);
        text += chain.closed ? " Z\"/>\n" : "\"/>\n";
    }
    void operator()(const DrawnArrow& arrow) {
        const auto [left, right] = arrow.barbs();
        text += "<path class=\"arrow\" d=\"M" + place(arrow.tip) + " L" + place(left) + " L" + place(right) +
                " Z\"/>\n";
    }
    void operator()(const DrawnText& lettering) {
        static constexpr const char* anchors[] = {"start", "middle", "end"};
        const double degrees = -lettering.turned * 180.0 / std::numbers::pi;
        text += "<text x=\"" + number(lettering.at.x) + "\" y=\"" + number(-lettering.at.y) +
                "\" font-size=\"" + number(lettering.height / height_of_capitals) + "\" text-anchor=\"" +
                anchors[static_cast<int>(lettering.anchor)] + "\"";
        if (std::abs(degrees) > 1e-6) {
            text += " transform=\"rotate(" + number(degrees) + " " + number(lettering.at.x) + " " +
                    number(-lettering.at.y) + ")\"";
        }
        text += ">" + escaped(lettering.text) + "</text>\n";
    }

  private:
    static constexpr double height_of_capitals = 0.716;  // of the font's size, in the usual sans-serif faces

    static std::string number(double value) { return shortest_fixed(value, 5); }
    static std::string place(Vec2 at) { return number(at.x) + "," + number(-at.y); }

    void begin_path(Pen pen, Vec2 at) {
        text += "<path class=\"" + std::string(class_of(pen)) + "\" d=\"M" + place(at);
    }
    void arc_to(double radius, double turn, Vec2 to) {
        text += " A" + number(radius) + "," + number(radius) + " 0 " +
                (std::abs(turn) > std::numbers::pi ? "1 " : "0 ") + (turn > 0.0 ? "0 " : "1 ") + place(to);
    }
    void step(const ChainPoint& from, Vec2 to) {
        if (std::abs(from.bulge) < drawing::least_bulge) {
            text += " L" + place(to);
            return;
        }
        const drawing::ArcOfBulge arc = drawing::arc_of(from.at, to, from.bulge);
        arc_to(arc.radius, arc.turn, to);
    }
};

}  // namespace

std::string svg_text(const Drawing& drawing) {
    const auto number = [](double value) { return shortest_fixed(value, 3); };
    const std::string x = number(drawing.low.x), y = number(-drawing.high.y);
    const std::string width = number(drawing.high.x - drawing.low.x);
    const std::string height = number(drawing.high.y - drawing.low.y);
    SvgWriter writer;
    for (const Shape& shape : drawing.shapes)
        std::visit(writer, shape);
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"drawing\" width=\"" + width + "mm\" height=\"" +
           height + "mm\" viewBox=\"" + x + " " + y + " " + width + " " + height +
           "\" role=\"img\">\n<title>" + escaped(drawing.title) + "</title>\n" + style +
           "<rect class=\"paper\" x=\"" + x + "\" y=\"" + y + "\" width=\"" + width + "\" height=\"" +
           height + "\"/>\n" + writer.text + "</svg>\n";
}

}  // namespace lobewright
