/// A sheet's text laid out for paper: pages of so many lines, column heads again on each.
#pragma once

#include "base/text/markdown.h"

#include <string>
#include <vector>

namespace lobewright::hand {

/// Lines of a page of A4, as plain text is printed.
inline constexpr std::size_t lines_a_page = 60;

/// Takes a sheet part by part and lays it out: no part but a table is broken, no heading stands alone at a
/// page's foot, and a table that goes on has its heads again. Pages after the first begin with the running
/// head; all but the last are filled up with empty lines, so that plain printing breaks where this does.
class Pages {
  public:
    explicit Pages(std::string running_head) : running_head_(std::move(running_head)) {}

    void title(const std::string& text);    ///< in the largest type, and with what follows it
    void heading(const std::string& text);  ///< likewise, smaller
    /// A heading with the next number: one step of the work.
    void step(const std::string& text);
    void box(const std::string& text);   ///< something to do, with a box to tick
    void lead(const std::string& text);  ///< likewise, and on the page of what follows it
    void bullet(const std::string& text);
    void paragraph(const std::string& text);
    void caption(const std::string& text);  ///< a paragraph, on the page of what follows it
    void table(const MarkdownTable& rows);

    [[nodiscard]] std::string text() const;

  private:
    enum class Kind { heading, item, paragraph, table };
    struct Part {
        Kind kind;
        std::vector<std::string> lines;
    };
    void add(Kind kind, const std::string& text);
    /// Of a part, or of headings and what stands under them: what has to fit on one page.
    [[nodiscard]] std::size_t lines_together(std::size_t index) const;

    std::string running_head_;
    std::vector<Part> parts_;
    int steps_ = 0;
};

}  // namespace lobewright::hand
