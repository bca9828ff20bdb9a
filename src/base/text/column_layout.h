/// Cells set in columns, for texts of one character's width throughout.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lobewright {

enum class Flush { left, right };

struct ColumnStyle {
    Flush flush = Flush::right;
    std::size_t least_width = 0;  ///< characters
};

/// A line for each row, every column as wide as its widest cell (and its least width), `indent` before the
/// first and `gap` between them; no blanks at a line's end. Required: as many styles as cells in every row.
std::string in_columns(const std::vector<std::vector<std::string>>& rows,
                       const std::vector<ColumnStyle>& styles, std::string_view gap = "  ",
                       std::string_view indent = "");

/// Characters of the widest cell of each column. Required: every row as long as the first.
std::vector<std::size_t> column_widths(const std::vector<std::vector<std::string>>& rows);

}  // namespace lobewright
