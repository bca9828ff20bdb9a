#include "base/wrapped_lines.h"

#include <algorithm>

namespace lobewright {
namespace {

constexpr std::size_t widest_line = 100;

}  // namespace

std::string wrapped_lines(const std::string& text, std::size_t indent) {
    std::string lines;
    std::size_t column = 0;
    for (std::size_t i = 0; i <= text.size();) {
        const std::size_t end = std::min(text.find(' ', i), text.size());
        const std::string word = text.substr(i, end - i);
        if (column > 0 && column + 1 + word.size() > widest_line) {
            lines.append("\n").append(indent, ' ').append(word);
            column = indent + word.size();
        } else {
            if (i > 0) lines += ' ', ++column;
            lines += word;
            column += word.size();
        }
        i = end + 1;
    }
    return lines + '\n';
}

}  // namespace lobewright
