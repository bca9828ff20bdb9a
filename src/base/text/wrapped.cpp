#include "base/text/wrapped.h"

#include "base/text/characters.h"

#include <algorithm>

namespace lobewright {

std::string wrapped(std::string_view text, std::size_t width, const std::string& first,
                    const std::string& others) {
    std::string result, line = first;
    bool empty = true;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string word(text.substr(at, end - at));
        if (!empty && characters(line) + 1 + characters(word) > width) {
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

std::string report_lines(std::string_view text, std::size_t indent) {
    constexpr std::size_t width_of_reports = 100;
    return wrapped(text, width_of_reports, "", std::string(indent, ' '));
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        lines.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    return lines;
}

}  // namespace lobewright
