#include "base/text/markdown.h"

#include "base/text/characters.h"
#include "base/text/column_layout.h"
#include "base/text/wrapped.h"

#include <algorithm>
#include <cctype>

namespace lobewright {
namespace {

constexpr std::size_t line_width = 80;  // what a sheet of paper holds

std::string escaped(const std::string& text) {
    std::string result;
    for (const char c : text)
        result += c == '|' ? "\\|" : std::string(1, c);
    return result;
}

bool looks_like_a_number(const std::string& text) {
    const std::size_t digit = text.find_first_not_of("+-");
    return digit != std::string::npos && std::isdigit(static_cast<unsigned char>(text[digit])) &&
           text.find_first_not_of("+-0123456789. /°'of") == std::string::npos;
}

using Rows = std::vector<std::vector<std::string>>;

Rows escaped(const Rows& rows) {
    Rows cells = rows;
    for (auto& row : cells)
        for (std::string& cell : row)
            cell = escaped(cell);
    return cells;
}

/// Whether a column's cells below its head are numbers, as far as they are not empty.
std::vector<bool> columns_of_numbers(const Rows& cells) {
    std::vector<bool> numbers(cells.front().size(), cells.size() > 1);
    for (std::size_t r = 1; r < cells.size(); ++r)
        for (std::size_t c = 0; c < numbers.size(); ++c)
            if (!cells[r][c].empty() && !looks_like_a_number(cells[r][c])) numbers[c] = false;
    return numbers;
}

}  // namespace

std::string MarkdownTable::text() const {
    const Rows cells = escaped(rows_);
    const auto numbers = columns_of_numbers(cells);
    auto widths = column_widths(cells);
    std::string rule;
    for (std::size_t c = 0; c < widths.size(); ++c) {
        widths[c] = std::max<std::size_t>(widths[c], 3);
        rule += '|' + std::string(widths[c] + 1, '-') + (numbers[c] ? ":" : "-");
    }
    std::string result;
    for (const auto& row : cells) {
        for (std::size_t c = 0; c < row.size(); ++c)
            result +=
                "| " + (numbers[c] ? flush_right(row[c], widths[c]) : flush_left(row[c], widths[c])) + ' ';
        result += "|\n";
        if (&row == &cells.front()) result += rule + "|\n";
    }
    return result;
}

std::string heading(const std::string& text) {
    return "## " + text + "\n\n";
}
std::string bullet(const std::string& text) {
    return wrapped(text, line_width, "- ", "  ");
}
std::string paragraph(const std::string& text) {
    return wrapped(text, line_width, "", "");
}

}  // namespace lobewright
