#include "hand/markdown.h"

#include <algorithm>
#include <cctype>

namespace lobewright {
namespace {

constexpr std::size_t line_width = 110;

/// Characters, not bytes: every byte of UTF-8 but its continuations.
std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

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

std::string broken(const std::string& text, const std::string& first, const std::string& others) {
    std::string result, line = first;
    bool empty = true;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string word = text.substr(at, end - at);
        if (!empty && width_of(line) + 1 + width_of(word) > line_width) {
            result += line + '\n';
            line = others;
            empty = true;
        }
        line += (empty ? "" : " ") + word;
        empty = false;
        at = end + 1;
    }
    return result + line + '\n';
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
            widths[c] = std::max(widths[c], width_of(cells[r][c]));
            if (r > 0 && !cells[r][c].empty() && !looks_like_a_number(cells[r][c])) numbers[c] = false;
        }
    }
    std::string result;
    for (std::size_t r = 0; r < cells.size(); ++r) {
        for (std::size_t c = 0; c < columns; ++c) {
            const std::string space(widths[c] - width_of(cells[r][c]), ' ');
            result += "| " + (numbers[c] ? space + cells[r][c] : cells[r][c] + space) + ' ';
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
    return broken(text, "- ", "  ");
}
std::string paragraph(const std::string& text) {
    return broken(text, "", "");
}

}  // namespace lobewright
