/// Markdown that reads as well on paper as in a viewer: tables with their columns in line.
#pragma once

#include <string>
#include <vector>

namespace lobewright {

class MarkdownTable {
  public:
    explicit MarkdownTable(std::vector<std::string> heads) : rows_{std::move(heads)} {}
    /// Required: as many cells as heads. A bar in a cell is escaped.
    void row(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
    /// The heads, then the rows.
    [[nodiscard]] const std::vector<std::vector<std::string>>& rows() const { return rows_; }
    /// Heads, rule and rows, every column as wide as its widest cell; numbers to the right.
    [[nodiscard]] std::string text() const;

  private:
    std::vector<std::vector<std::string>> rows_;
};

/// A section's heading, with the empty line below it.
std::string heading(const std::string& text);
/// One item of a list, broken at spaces so that no line is longer than 80 characters.
std::string bullet(const std::string& text);
/// A paragraph broken likewise.
std::string paragraph(const std::string& text);

}  // namespace lobewright
