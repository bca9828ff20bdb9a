/// The lines of a program in a dialect's manner: numbers, order of words, comments, length, ends. This room
/// writes a path as a program, line by line, and says what of it a dialect can't take.
#pragma once

#include <lobewright/dialect.h>

#include <string>
#include <string_view>
#include <vector>

namespace lobewright::post {

/// `text` in characters that every controller passes over in a comment: plain ASCII (letters with accents
/// lose them, "°" is "deg"), no parentheses within parentheses, none of the characters that some controllers
/// act on even there
/// (% ; ! ? ~). In capitals where the dialect asks for it.
std::string comment_text(std::string_view text, const Dialect& dialect);

/// A count of 10^-decimals as the dialect prints numbers: "12.5", "12.", "12.5000".
std::string number_token(long long steps, int decimals, const Dialect& dialect);

/// A number with the dialect's own mark before its decimals.
std::string with_decimal_mark(std::string number, const Dialect& dialect);

/// Collects a program's text.
class ProgramLines {
  public:
    explicit ProgramLines(const Dialect& dialect);

    /// On lines of its own, broken at spaces where it is longer than a line; nothing where the dialect has no
    /// comments.
    void comment(std::string_view text);
    /// One block: the words that are not empty, in the dialect's order, with its number. `note` is a comment
    /// at its end, or before it where the line would be too long.
    void block(std::vector<std::string> words, std::string_view note = {});
    /// One block as it stands, with its number; nothing where it is empty.
    void line(const std::string& words);
    /// A line without number: "%", "O1001".
    void bare(const std::string& text);

    [[nodiscard]] const std::string& text() const { return text_; }
    /// The first line that is longer than the dialect allows; empty: none.
    [[nodiscard]] const std::string& too_long() const { return too_long_; }

  private:
    void put(const std::string& line);
    void put_block(const std::string& line);
    [[nodiscard]] std::string numbered(const std::string& words) const;
    [[nodiscard]] std::string enclosed(const std::string& cleaned) const;
    [[nodiscard]] std::size_t room() const { return static_cast<std::size_t>(dialect_.longest_line); }

    const Dialect& dialect_;
    std::string text_;
    std::string too_long_;
    int number_;
};

}  // namespace lobewright::post
