#include "base/text/json_text.h"

#include "base/text/characters.h"

#include <lobewright/number_text.h>

#include <nlohmann/json.hpp>

namespace lobewright {

std::string JsonText::number(double value) {
    return shortest_fixed(value, 9);
}

std::string JsonText::quoted(std::string_view text) {
    constexpr int no_indent = -1;
    constexpr bool ascii_only = false;
    // The library leaves DEL and the control characters beyond it as they are.
    return printable(
        nlohmann::json(text).dump(no_indent, ' ', ascii_only, nlohmann::json::error_handler_t::replace));
}

/// Puts the comma after the member before and goes to where the next one, or the closing bracket, stands.
void JsonText::separate(bool first) {
    const bool one_line = levels_.back().layout == Layout::one_line;
    if (!first) text_ += one_line ? ", " : ",";
    if (!one_line) text_.append("\n").append(2 * levels_.size(), ' ');
}

JsonText& JsonText::put(std::string_view name, std::string_view token) {
    if (!levels_.empty()) {
        separate(levels_.back().empty);
        levels_.back().empty = false;
    }
    if (!name.empty()) text_.append(quoted(name)).append(": ");
    text_ += token;
    return *this;
}

JsonText& JsonText::open(std::string_view name, char opening, char closing, Layout layout) {
    put(name, std::string_view(&opening, 1));
    const bool within_a_line = !levels_.empty() && levels_.back().layout == Layout::one_line;
    levels_.push_back({closing, within_a_line ? Layout::one_line : layout});
    return *this;
}

JsonText& JsonText::object(std::string_view name, Layout layout) {
    return open(name, '{', '}', layout);
}
JsonText& JsonText::array(std::string_view name, Layout layout) {
    return open(name, '[', ']', layout);
}

JsonText& JsonText::end() {
    const Level level = levels_.back();
    levels_.pop_back();
    if (level.layout == Layout::lines && !level.empty) text_.append("\n").append(2 * levels_.size(), ' ');
    text_ += level.closing;
    if (levels_.empty()) text_ += '\n';
    return *this;
}

}  // namespace lobewright
