#include "drawing/kit/title_block.h"

#include "base/text/length_text.h"
#include "base/text/wrapped.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <sstream>

namespace lobewright::drawing {
namespace {

constexpr double line_pitch = 5.0;        // mm of paper
constexpr std::size_t longest_line = 88;  // characters: what A4 and Letter take with their margins
constexpr const char* caution =
    "Machine's manual, local rules and trained practice come first. Measure before you cut.";

/// A line of known length between two ticks.
void check_line(DrawingBoard& board, Vec2 from, double length, const std::string& words) {
    const Vec2 to = from + Vec2{length, 0.0};
    board.line(from, to, Pen::outline);
    for (const Vec2 end : {from, to})
        board.line(end - Vec2{0.0, 1.5}, end + Vec2{0.0, 1.5}, Pen::outline);
    board.text(to + Vec2{2.0, -1.2}, words, Anchor::start, small_height);
}

std::string first_line(const TitleBlock& block, double scale) {
    return block.true_scale ? block.shows + ", scale " + scale_words(scale) : block.shows;
}

}  // namespace

std::string scale_words(double scale) {
    return scale >= 1.0 ? shortest_fixed(scale, 3) + ":1" : "1:" + shortest_fixed(1.0 / scale, 3);
}

std::string figure(double mm, Units units) {
    return short_length(mm, units, {3, 4});
}

void add_title_block(DrawingBoard& board, const TitleBlock& block, double scale) {
    const double left = board.low().x, right = std::max(board.high().x, left + 150.0);
    double y = board.low().y - 8.0;
    board.line({left, y}, {right, y}, Pen::outline);
    y -= 2.0 + title_height;
    board.text({left, y}, block.job, Anchor::start, title_height);
    const auto write = [&](const std::string& words) {
        std::istringstream lines(wrapped(words, longest_line, "", "  "));
        for (std::string line; std::getline(lines, line);) {
            y -= line_pitch;
            board.text({left, y}, line, Anchor::start, small_height);
        }
    };
    write(first_line(block, scale));
    for (const std::string& note : block.notes)
        write(note);
    write(caution);
    if (!block.true_scale) return;
    check_line(board, {left, y - 6.0}, 50.0, "50 mm and 2 in, if the printer keeps to scale");
    check_line(board, {left, y - 12.0}, 2.0 * 25.4, "");
}

}  // namespace lobewright::drawing
