#include "hand/sheet/pages.h"

#include "base/text/wrapped.h"

#include <algorithm>

namespace lobewright::hand {
namespace {

using Lines = std::vector<std::string>;

constexpr std::size_t head_lines = 2;  // of a table: heads and rule
constexpr std::size_t least_rows = 3;  // of a table at a page's foot
constexpr std::size_t line_width = 80;

/// The text as it grows, line by line and page by page.
class Paper {
  public:
    explicit Paper(const std::string& running_head) : running_head_(running_head) {}

    /// One line stays empty at every foot, or the next page's head would end a table.
    [[nodiscard]] std::size_t left() const { return lines_a_page - 1 - used_; }
    [[nodiscard]] bool at_top() const { return used_ == top_; }
    void put(const std::string& line) {
        if (left() == 0) turn();
        text_ += line + '\n';
        ++used_;
    }
    void put(const Lines& lines, std::size_t from, std::size_t to) {
        for (std::size_t i = from; i < to; ++i)
            put(lines[i]);
    }
    void space() {
        if (!at_top() && left() > 0) put("");
    }
    /// On to the next page.
    void turn() {
        text_ += std::string(left() + 1, '\n');
        used_ = 0;
        ++page_;
        for (const std::string& line :
             lines_of(wrapped(running_head_ + ", page " + std::to_string(page_), line_width, "", "")))
            text_ += line + '\n', ++used_;
        text_ += '\n';
        top_ = ++used_;
    }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    std::string running_head_, text_;
    std::size_t used_ = 0, top_ = 0;
    int page_ = 1;
};

/// Rows as far as the page goes, then heads and rows on the next.
void put_table(Paper& paper, const Lines& lines) {
    std::size_t row = head_lines;
    for (bool first = true; first || row < lines.size(); first = false) {
        if (!first) paper.turn();
        paper.put(lines, 0, head_lines);
        const std::size_t to = std::min(lines.size(), row + paper.left());
        paper.put(lines, row, to);
        row = to;
    }
}

enum class Kind { heading, item, paragraph, table };

/// A part as the lines that it takes.
struct Block {
    Kind kind;
    Lines lines;
};

Block heading_block(const std::string& mark, const std::string& text) {
    return {Kind::heading, lines_of(wrapped(mark + text, line_width, "", mark))};
}

Block block_of(const RoutePart& part) {
    const std::string text = (part.emphasis.empty() ? "" : "**" + part.emphasis + "** ") + part.text;
    const std::string box = wrapped(text, line_width, "- [ ] ", "  ");
    switch (part.kind) {
        case RoutePartKind::title:
            return heading_block("# ", text);
        case RoutePartKind::heading:
        case RoutePartKind::step:
            return heading_block("## ", text);
        case RoutePartKind::box:
            return {Kind::item, lines_of(box)};
        case RoutePartKind::lead:
            return {Kind::heading, lines_of(box)};
        case RoutePartKind::bullet:
            return {Kind::item, lines_of(bullet(text))};
        case RoutePartKind::caption:
            return {Kind::heading, lines_of(paragraph(text))};
        case RoutePartKind::paragraph:
            break;
        case RoutePartKind::table:
            return {Kind::table, lines_of(part.rows->text())};
    }
    return {Kind::paragraph, lines_of(paragraph(text))};
}

/// Of a block, or of headings and what stands under them: what has to fit on one page.
std::size_t lines_together(const std::vector<Block>& blocks, std::size_t index) {
    std::size_t lines = 1;  // the empty one before it
    for (std::size_t i = index; i < blocks.size(); ++i) {
        const Block& block = blocks[i];
        const bool table = block.kind == Kind::table;
        lines += table ? std::min(block.lines.size(), head_lines + least_rows) : block.lines.size();
        if (block.kind != Kind::heading) break;
        ++lines;
    }
    return lines;
}

}  // namespace

std::string paper_text(const Route& route, const std::string& running_head) {
    std::vector<Block> blocks;
    for (const RoutePart& part : route.parts())
        blocks.push_back(block_of(part));
    Paper paper(running_head);
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        const Block& block = blocks[i];
        const auto follows = [&](Kind kind) { return i > 0 && blocks[i - 1].kind == kind; };
        const bool under_heading = follows(Kind::heading);
        if (lines_together(blocks, i) > paper.left() && !paper.at_top() && !under_heading) paper.turn();
        const bool list_goes_on = block.kind == Kind::item && follows(Kind::item);
        if (!list_goes_on) paper.space();
        if (block.kind == Kind::table)
            put_table(paper, block.lines);
        else
            paper.put(block.lines, 0, block.lines.size());
    }
    return paper.text();
}

}  // namespace lobewright::hand
