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

}  // namespace lobewright
