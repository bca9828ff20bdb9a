#include "base/toml_line.h"

#include <algorithm>

namespace lobewright {
namespace {

constexpr std::string_view blanks = " \t";
constexpr std::string_view meanings_after_backslash = "btnfr\"\\uUe";

bool belongs_to_key(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-' || c == '.' || c == TomlLine::quoted_part;
}

}  // namespace

TomlLine::TomlLine(std::string_view line) : whole(line), bare(line) {
    blot_out_texts();
    bare.erase(bare.find_last_not_of(blanks) + 1);
    begin = std::min(bare.find_first_not_of(blanks), bare.size());
    is_header = begin < bare.size() && bare[begin] == '[';
    find_key();
    if (!is_header) find_open();
}

void TomlLine::blot_out_texts() {
    for (std::size_t i = 0; i < bare.size();) {
        if (bare[i] == '#') {
            bare.erase(i);
        } else if (bare[i] == '"' || bare[i] == '\'') {
            i = blot_out(i);
        } else {
            ++i;
        }
    }
}

/// The text that begins at `from`; gives where it ends.
std::size_t TomlLine::blot_out(std::size_t from) {
    const char quote = bare[from];
    const std::string thrice(3, quote);
    const bool long_text = bare.compare(from, 3, thrice) == 0;
    const std::size_t marks = long_text ? 3 : 1;
    std::size_t at = from + marks;
    bool closed = false;
    while (at < bare.size() && !closed) {
        closed = long_text ? bare.compare(at, 3, thrice) == 0 : bare[at] == quote;
        const bool escape = !closed && quote == '"' && bare[at] == '\\' && at + 1 < bare.size();
        if (escape && backslash == std::string_view::npos &&
            meanings_after_backslash.find(bare[at + 1]) == std::string_view::npos)
            backslash = at;
        at += closed ? marks : escape ? 2 : 1;
    }
    if (!closed) open_quote = quote, open_at = from;
    if (!closed && long_text) open += quote;
    at = std::min(at, bare.size());
    std::fill(bare.begin() + static_cast<std::ptrdiff_t>(from),
              bare.begin() + static_cast<std::ptrdiff_t>(at), quoted_part);
    return at;
}

void TomlLine::find_key() {
    std::size_t end = begin;
    while (end < bare.size() && belongs_to_key(bare[end]))
        ++end;
    key = whole.substr(begin, end - begin);
    equals = bare.find('=', begin);
    if (equals == std::string::npos) return;
    value_at = std::min(bare.find_first_not_of(blanks, equals + 1), bare.size());
    value = whole.substr(value_at, bare.size() - value_at);
}

void TomlLine::find_open() {
    for (std::size_t i = begin; i < bare.size(); ++i) {
        if (bare[i] == '[' || bare[i] == '{') {
            open += bare[i];
            (bare[i] == '[' ? open_bracket : open_brace) = i;
        }
        if ((bare[i] == ']' || bare[i] == '}') && !open.empty()) open.pop_back();
    }
}

}  // namespace lobewright
