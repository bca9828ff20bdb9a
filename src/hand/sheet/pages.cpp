#include "hand/sheet/pages.h"

#include "base/text/wrapped.h"

#include <algorithm>

namespace lobewright::hand {
namespace {

using Lines = std::vector<std::string>;

constexpr std::size_t head_lines = 2;  // of a table: heads and rule
constexpr std::size_t least_rows = 3;  // of a table at a page's foot
constexpr std::size_t line_width = 80;

Lines lines_of(const std::string& text) {
    Lines lines;
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        lines.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    return lines;
}

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

}  // namespace

void Pages::add(Kind kind, const std::string& text) {
    parts_.push_back({kind, lines_of(text)});
}
void Pages::title(const std::string& text) {
    add(Kind::heading, wrapped("# " + text, line_width, "", "# "));
}
void Pages::heading(const std::string& text) {
    add(Kind::heading, wrapped("## " + text, line_width, "", "## "));
}
void Pages::step(const std::string& text) {
    heading("Step " + std::to_string(++steps_) + ". " + text);
}
void Pages::box(const std::string& text) {
    add(Kind::item, wrapped(text, line_width, "- [ ] ", "  "));
}
void Pages::lead(const std::string& text) {
    add(Kind::heading, wrapped(text, line_width, "- [ ] ", "  "));
}
void Pages::bullet(const std::string& text) {
    add(Kind::item, lobewright::bullet(text));
}
void Pages::paragraph(const std::string& text) {
    add(Kind::paragraph, lobewright::paragraph(text));
}
void Pages::caption(const std::string& text) {
    add(Kind::heading, lobewright::paragraph(text));
}
void Pages::table(const MarkdownTable& rows) {
    add(Kind::table, rows.text());
}

std::size_t Pages::lines_together(std::size_t index) const {
    std::size_t lines = 1;  // the empty one before it
    for (std::size_t i = index; i < parts_.size(); ++i) {
        const Part& part = parts_[i];
        const bool table = part.kind == Kind::table;
        lines += table ? std::min(part.lines.size(), head_lines + least_rows) : part.lines.size();
        if (part.kind != Kind::heading) break;
        ++lines;
    }
    return lines;
}

std::string Pages::text() const {
    Paper paper(running_head_);
    for (std::size_t i = 0; i < parts_.size(); ++i) {
        const Part& part = parts_[i];
        const auto follows = [&](Kind kind) { return i > 0 && parts_[i - 1].kind == kind; };
        const bool under_heading = follows(Kind::heading);
        if (lines_together(i) > paper.left() && !paper.at_top() && !under_heading) paper.turn();
        const bool list_goes_on = part.kind == Kind::item && follows(Kind::item);
        if (!list_goes_on) paper.space();
        if (part.kind == Kind::table)
            put_table(paper, part.lines);
        else
            paper.put(part.lines, 0, part.lines.size());
    }
    return paper.text();
}

}  // namespace lobewright::hand
