#include "hand/sheet/markdown.h"

#include "base/characters.h"
#include "base/wrapped.h"

#include <algorithm>
#include <cctype>

namespace lobewright::hand {
namespace {

constexpr std::size_t line_width = 110;

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

}  // namespace

std::string MarkdownTable::text() const {
    std::vector<std::vector<std::string>> cells;
    for (const auto& row : rows_) {
        cells.emplace_back();
        for (const std::string& cell : row)
            cells.back().push_back(escaped(cell));
    }
    const std::size_t columns = cells.front().size();
    std::vector<std::size_t> widths(columns, 3);
    std::vector<bool> numbers(columns, cells.size() > 1);
    for (std::size_t r = 0; r < cells.size(); ++r) {
        for (std::size_t c = 0; c < columns; ++c) {
            widths[c] = std::max(widths[c], characters(cells[r][c]));
            if (r > 0 && !cells[r][c].empty() && !looks_like_a_number(cells[r][c])) numbers[c] = false;
        }
    }
    std::string result;
    for (std::size_t r = 0; r < cells.size(); ++r) {
        for (std::size_t c = 0; c < columns; ++c) {
            const std::string& cell = cells[r][c];
            result += "| " + (numbers[c] ? flush_right(cell, widths[c]) : flush_left(cell, widths[c])) + ' ';
        }
        result += "|\n";
        if (r > 0) continue;
        for (std::size_t c = 0; c < columns; ++c)
            result += '|' + std::string(widths[c] + 1, '-') + (numbers[c] ? ":" : "-");
        result += "|\n";
    }
    return result;
}

std::string bullet(const std::string& text) {
    return wrapped(text, line_width, "- ", "  ");
}
std::string paragraph(const std::string& text) {
    return wrapped(text, line_width, "", "");
}

}  // namespace lobewright::hand
