#include "base/text/column_layout.h"

#include "base/text/characters.h"

#include <algorithm>

namespace lobewright {

std::vector<std::size_t> column_widths(const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> widths(rows.empty() ? 0 : rows.front().size(), 0);
    for (const auto& row : rows)
        for (std::size_t i = 0; i < widths.size(); ++i)
            widths[i] = std::max(widths[i], characters(row[i]));
    return widths;
}

std::string in_columns(const std::vector<std::vector<std::string>>& rows,
                       const std::vector<ColumnStyle>& styles, std::string_view gap,
                       std::string_view indent) {
    const auto widths = column_widths(rows);
    std::string text;
    for (const auto& row : rows) {
        std::string line(indent);
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (i > 0) line += gap;
            const std::size_t width = std::max(widths[i], styles[i].least_width);
            line += styles[i].flush == Flush::left ? flush_left(row[i], width) : flush_right(row[i], width);
        }
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + '\n';
    }
    return text;
}

}  // namespace lobewright
