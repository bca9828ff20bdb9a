/// One line of a TOML text, taken apart as far as a line that may be wrong can be.
#pragma once

#include <string>
#include <string_view>

namespace lobewright {

/// Offsets are bytes from the line's start. `line` must outlive it.
struct TomlLine {
    /// In `bare`, each byte of a text in quotes.
    static constexpr char quoted_part = '\x01';

    explicit TomlLine(std::string_view line);
    [[nodiscard]] bool is_empty() const { return begin >= bare.size(); }

    std::string_view whole;
    std::string bare;        ///< without its comment, texts in quotes blotted out
    std::size_t begin = 0;   ///< of what is not blank
    bool is_header = false;  ///< it begins with [
    std::string_view key;    ///< bare or quoted words joined by points, as far as they go
    std::size_t equals = std::string_view::npos;  ///< the first = outside texts
    std::string_view value;                       ///< after it
    std::size_t value_at = 0;
    char open_quote = '\0';  ///< of a text that does not end in the line
    std::size_t open_at = 0;
    std::size_t backslash = std::string_view::npos;  ///< the first in double quotes that has no meaning there
    std::string open;                                ///< brackets and braces that are not closed
    std::size_t open_bracket = 0, open_brace = 0;    ///< the last such of each kind

  private:
    void blot_out_texts();
    std::size_t blot_out(std::size_t from);
    void find_key();
    void find_open();
};

}  // namespace lobewright
