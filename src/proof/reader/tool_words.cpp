#include "proof/reader/tool_words.h"

#include "base/whole_steps.h"

#include <lobewright/number_text.h>

namespace lobewright::proof {
namespace {

constexpr int lengths_in_t = 100;  // two digits

/// The word of a line in which `place` stands, from its letter on; empty: none.
std::string word_with(const std::string& line, const std::string& place) {
    const std::size_t at = line.find(place);
    if (at == std::string::npos) return {};
    std::size_t from = at;
    while (from > 0 && line[from - 1] != ' ' && (line[from] < 'A' || line[from] > 'Z'))
        --from;
    return line.substr(from, line.find(' ', at) - from);
}

/// Tenths of the first G word of a line.
std::optional<int> g_word(const std::string& line) {
    const std::size_t at = line.find('G');
    if (at == std::string::npos) return std::nullopt;
    const std::size_t end = line.find_first_not_of("0123456789.", at + 1);
    const auto number = parse_decimal(line.substr(at + 1, end == std::string::npos ? end : end - at - 1));
    return number ? std::optional(static_cast<int>(nearest_step(10.0 * *number))) : std::nullopt;
}

}  // namespace

ToolWords::ToolWords(const Dialect& dialect) {
    const std::string& change = dialect.tool_change;
    named = (change + dialect.length_on).find("{tool") != std::string::npos;
    changed_by_t = !change.empty() && change.find('M') == std::string::npos;
    for (const std::string& line : {change, dialect.length_on}) {
        const std::string word = word_with(line, "{offset");
        if (word.empty()) continue;
        lengths = true;
        if (word.front() == 'T') {
            length_in_t = true;
        } else {
            length_letter = word.front();
            on_word = g_word(line);
            letter_alone = !on_word;
        }
    }
}

ToolWords::Chosen ToolWords::chosen(double t) const {
    const int whole = static_cast<int>(nearest_step(t));
    if (!length_in_t) return {whole, std::nullopt};
    return {whole / lengths_in_t, whole % lengths_in_t};
}

}  // namespace lobewright::proof
