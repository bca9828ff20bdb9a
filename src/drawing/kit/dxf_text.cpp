#include "base/elementary/elementary.h"
#include "base/text/characters.h"
#include "base/text/length_text.h"

#include <lobewright/drawing.h>
#include <lobewright/number_text.h>

#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

const char* layer_of(Pen pen) {
    switch (pen) {
        case Pen::outline:
            return "OUTLINE";
        case Pen::thin:
            return "THIN";
        case Pen::axis:
            return "AXIS";
        case Pen::hidden:
            return "HIDDEN";
        case Pen::dimension:
            return "DIMENSION";
    }
    return "THIN";
}

/// The character at the start of UTF-8 text as a code point, and how many bytes it takes.
std::pair<unsigned, std::size_t> code_point(std::string_view text) {
    const std::size_t bytes = sequence_length(text);
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    if (bytes <= 1) return {byte(0), 1};
    unsigned value = byte(0) & (0x7FU >> bytes);
    for (std::size_t i = 1; i < bytes; ++i)
        value = value << 6U | (byte(i) & 0x3FU);
    return {value, bytes};
}

std::string hexadecimal(unsigned value) {
    std::string text;
    for (int shift = 12; shift >= 0; shift -= 4)
        text += "0123456789ABCDEF"[value >> static_cast<unsigned>(shift) & 0xFU];
    return text;
}

/// TEXT has signs of its own: %% and ^ begin one, a control character would end the line, and what is not
/// ASCII goes as \U+ and four digits. What four digits don't hold is a question mark.
std::string lettering(const std::string& text) {
    std::string safe;
    for (std::size_t i = 0; i < text.size();) {
        const auto [code, bytes] = code_point(std::string_view(text).substr(i));
        i += bytes;
        if (code == '%')
            safe += "%%037";
        else if (code == '^')
            safe += "^ ";
        else if (code == '\\')
            safe += "\\U+005C";
        else if (code < 0x20 || code == 0x7F)
            safe += ' ';
        else if (code < 0x7F)
            safe += static_cast<char>(code);
        else
            safe += code <= 0xFFFF ? "\\U+" + hexadecimal(code) : "?";
    }
    return safe;
}

/// Group codes and values, a line each.
class DxfWriter {
  public:
    explicit DxfWriter(const Drawing& drawing) : shrunk_(1.0 / (drawing.scale * mm_per(drawing.units))) {}

    std::string text;

    void group(int code, const std::string& value) { text += std::to_string(code) + '\n' + value + '\n'; }
    void point(Vec2 at, int more = 0) {
        group(10 + more, number(at.x * shrunk_));
        group(20 + more, number(at.y * shrunk_));
    }
    void begin(const char* section) {
        group(0, "SECTION");
        group(2, section);
    }
    void end() { group(0, "ENDSEC"); }

    void operator()(const DrawnLine& line) {
        entity("LINE", layer_of(line.pen));
        point(line.from);
        point(line.to, 1);
    }
    void operator()(const DrawnArc& arc) {
        const bool whole = arc.is_circle();
        entity(whole ? "CIRCLE" : "ARC", layer_of(arc.pen));
        point(arc.centre);
        group(40, number(arc.radius * shrunk_));
        if (whole) return;
        group(50, degrees(arc.start));
        group(51, degrees(arc.start + arc.turn));
    }
    void operator()(const DrawnChain& chain) {
        entity("POLYLINE", layer_of(chain.pen));
        group(66, "1");
        point({});
        group(70, chain.closed ? "1" : "0");
        for (const ChainPoint& each : chain.points) {
            entity("VERTEX", layer_of(chain.pen));
            point(each.at);
            if (each.bulge != 0.0) group(42, shortest_fixed(each.bulge, 12));
        }
        entity("SEQEND", layer_of(chain.pen));
    }
    void operator()(const DrawnArrow& arrow) {
        const auto [left, right] = arrow.barbs();
        entity("SOLID", "DIMENSION");
        point(arrow.tip);
        point(left, 1);
        point(right, 2);
        point(right, 3);
    }
    void operator()(const DrawnText& words) {
        entity("TEXT", "LETTERING");
        point(words.at);
        group(40, number(words.height * shrunk_));
        group(1, lettering(words.text));
        group(50, degrees(words.turned));
        if (words.anchor == Anchor::start) return;
        group(72, words.anchor == Anchor::middle ? "1" : "2");
        point(words.at, 1);
    }

  private:
    static std::string number(double value) { return shortest_fixed(value, 9); }
    static std::string degrees(double radians) {
        const double degrees = radians * 180.0 / std::numbers::pi;
        return shortest_fixed(degrees - 360.0 * std::floor(degrees / 360.0), 9);
    }
    void entity(const char* kind, const char* layer) {
        group(0, kind);
        group(8, layer);
    }

    double shrunk_;
};

void write_header(DxfWriter& dxf, const Drawing& drawing) {
    dxf.group(999, std::string("lengths in ") + units_noun(drawing.units) + ", the thing's own size");
    dxf.begin("HEADER");
    dxf.group(9, "$ACADVER");
    dxf.group(1, "AC1009");
    for (const auto& [name, corner] :
         {std::pair{"$EXTMIN", drawing.low}, std::pair{"$EXTMAX", drawing.high}}) {
        dxf.group(9, name);
        dxf.point(corner);
    }
    dxf.end();
}

struct LinePattern {
    const char* name;
    const char* says;
    std::vector<double> dashes;  // mm of paper, gaps negative
};

void write_patterns(DxfWriter& dxf) {
    const std::vector<LinePattern> patterns{
        {"CONTINUOUS", "", {}}, {"CHAIN", "axis", {8.0, -1.5, 1.0, -1.5}}, {"DASHED", "behind", {2.5, -1.2}}};
    dxf.group(0, "TABLE");
    dxf.group(2, "LTYPE");
    dxf.group(70, std::to_string(patterns.size()));
    for (const LinePattern& each : patterns) {
        double whole = 0.0;
        for (const double dash : each.dashes)
            whole += std::abs(dash);
        dxf.group(0, "LTYPE");
        dxf.group(2, each.name);
        dxf.group(70, "0");
        dxf.group(3, each.says);
        dxf.group(72, "65");
        dxf.group(73, std::to_string(each.dashes.size()));
        dxf.group(40, shortest_fixed(whole, 3));
        for (const double dash : each.dashes)
            dxf.group(49, shortest_fixed(dash, 3));
    }
    dxf.group(0, "ENDTAB");
}

void write_layers(DxfWriter& dxf) {
    const std::vector<std::pair<const char*, const char*>> layers{
        {"0", "CONTINUOUS"},  {"OUTLINE", "CONTINUOUS"},   {"THIN", "CONTINUOUS"},     {"AXIS", "CHAIN"},
        {"HIDDEN", "DASHED"}, {"DIMENSION", "CONTINUOUS"}, {"LETTERING", "CONTINUOUS"}};
    dxf.group(0, "TABLE");
    dxf.group(2, "LAYER");
    dxf.group(70, std::to_string(layers.size()));
    for (const auto& [name, pattern] : layers) {
        dxf.group(0, "LAYER");
        dxf.group(2, name);
        dxf.group(70, "0");
        dxf.group(62, "7");
        dxf.group(6, pattern);
    }
    dxf.group(0, "ENDTAB");
}

}  // namespace

std::string dxf_text(const Drawing& drawing) {
    DxfWriter dxf(drawing);
    write_header(dxf, drawing);
    dxf.begin("TABLES");
    write_patterns(dxf);
    write_layers(dxf);
    dxf.end();
    dxf.begin("ENTITIES");
    for (const Shape& shape : drawing.shapes)
        std::visit(dxf, shape);
    dxf.end();
    dxf.group(0, "EOF");
    return dxf.text;
}

}  // namespace lobewright
