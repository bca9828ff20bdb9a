#include "base/toml_slips.h"

#include <algorithm>

namespace lobewright {
namespace {

/// The name in a line that holds "[name]" alone, with or without a comment; empty if it doesn't.
std::string_view single_header(std::string_view line) {
    const std::size_t open = line.find_first_not_of(" \t");
    if (open == std::string_view::npos || line[open] != '[') return {};
    const std::size_t close = line.find(']', open);
    if (close == std::string_view::npos) return {};
    const std::size_t after = line.find_first_not_of(" \t\r", close + 1);
    if (after != std::string_view::npos && line[after] != '#') return {};
    std::string_view name = line.substr(open + 1, close - open - 1);
    name.remove_prefix(std::min(name.find_first_not_of(' '), name.size()));
    name.remove_suffix(name.size() - std::min(name.find_last_not_of(' ') + 1, name.size()));
    return name;
}

}  // namespace

TomlLines::TomlLines(std::string_view text) {
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        lines_.push_back({text.substr(0, end), std::nullopt});
        text.remove_prefix(std::min(end + 1, text.size()));
    }
}

std::vector<TomlSlip> TomlLines::double_brackets(const std::vector<std::string>& lists) {
    lists_ = lists;
    std::vector<TomlSlip> slips;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
        const std::string name(single_header(lines_[i].written));
        if (!is_list(name)) continue;
        lines_[i].mended = "[[" + name + "]]";
        slips.push_back({static_cast<int>(i) + 1, static_cast<int>(lines_[i].written.find('[')) + 1,
                         "single-brackets", "[" + name + "] is one of a list of tables",
                         "write [[" + name + "]]", name});
    }
    return slips;
}

bool TomlLines::is_list(const std::string& name) const {
    return std::find(lists_.begin(), lists_.end(), name) != lists_.end();
}

bool TomlLines::mend(const TomlSlip& slip) {
    if (find(slip.line) == nullptr || is_mended(slip.line) || !slip.mended) return false;
    lines_[static_cast<std::size_t>(slip.line) - 1].mended = slip.mended;
    return true;
}

const TomlLines::Line* TomlLines::find(int number) const {
    const bool there = number >= 1 && static_cast<std::size_t>(number) <= lines_.size();
    return there ? &lines_[static_cast<std::size_t>(number) - 1] : nullptr;
}

std::string_view TomlLines::written(int number) const {
    const Line* line = find(number);
    if (line == nullptr) return {};
    std::string_view text = line->written;
    if (text.ends_with('\r')) text.remove_suffix(1);
    return text;
}

std::string_view TomlLines::mended(int number) const {
    const Line* line = find(number);
    return line != nullptr && line->mended ? std::string_view(*line->mended) : written(number);
}

bool TomlLines::is_mended(int number) const {
    const Line* line = find(number);
    return line != nullptr && line->mended.has_value();
}

std::string TomlLines::text() const {
    std::string text;
    for (const Line& line : lines_)
        text.append(line.mended ? *line.mended : line.written).append("\n");
    return text;
}

}  // namespace lobewright
