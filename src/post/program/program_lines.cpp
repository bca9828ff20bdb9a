#include "post/program/program_lines.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cctype>

namespace lobewright::post {
namespace {

/// One character of UTF-8 from `text` at `from`, which it moves on; a broken byte counts as a character of
/// its own.
char32_t next_character(std::string_view text, std::size_t& from) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(from++);
    if (lead < 0x80) return lead;
    const int follow = lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : lead >= 0xC0 ? 1 : 0;
    char32_t character = lead & (0x3Fu >> follow);
    for (int i = 0; i < follow && from < text.size() && (byte(from) & 0xC0u) == 0x80u; ++i) {
        character = (character << 6) | (byte(from++) & 0x3Fu);
    }
    return character;
}

/// What stands for a character beyond ASCII. Latin-1's letters from U+00C0 on, without their accents.
std::string plain(char32_t character) {
    static constexpr std::string_view letters =
        "AAAAAAACEEEEIIIIDNOOOOOxOUUUUYTsaaaaaaaceeeeiiiidnooooo/ouuuuyty";
    if (character == 0xB0) return " deg";
    if (character == 0xB5 || character == 0x3BC) return "u";
    if (character == 0x2013 || character == 0x2014 || character == 0x2212) return "-";
    if (character == 0x2019) return "'";
    if (character >= 0xC0 && character <= 0xFF) return std::string(1, letters[character - 0xC0]);
    return "_";
}

std::string harmless_ascii(char character, CommentStyle style) {
    if (static_cast<unsigned char>(character) < 0x20 || character == 0x7F) return " ";
    if (character == '%') return " percent";
    if (character == ';') return ",";
    if (character == '!' || character == '?') return ".";
    if (character == '~') return "-";
    if (style == CommentStyle::parentheses && character == '(') return "[";
    if (style == CommentStyle::parentheses && character == ')') return "]";
    return std::string(1, character);
}

/// Cuts `text` at spaces into parts of at most `room` characters; a longer word is cut where it must be.
std::vector<std::string> parts_of(std::string_view text, std::size_t room) {
    std::vector<std::string> parts;
    while (text.size() > room) {
        std::size_t cut = text.rfind(' ', room);
        if (cut == std::string_view::npos || cut == 0) cut = room;
        parts.emplace_back(text.substr(0, cut));
        text.remove_prefix(cut);
        while (!text.empty() && text.front() == ' ')
            text.remove_prefix(1);
    }
    parts.emplace_back(text);
    return parts;
}

}  // namespace

std::string comment_text(std::string_view text, const Dialect& dialect) {
    std::string cleaned;
    for (std::size_t i = 0; i < text.size();) {
        const char32_t character = next_character(text, i);
        cleaned += character < 0x80 ? harmless_ascii(static_cast<char>(character), dialect.comments)
                                    : plain(character);
    }
    if (dialect.upper_case) {
        for (char& c : cleaned)
            c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    }
    return cleaned;
}

std::string number_token(long long steps, int decimals, const Dialect& dialect) {
    std::string text = digits(steps, decimals);
    if (decimals > 0 && !dialect.keep_zeros) text.erase(text.find_last_not_of('0') + 1);
    const bool bare = text.back() == '.';
    if (bare && !dialect.decimal_point_always) text.pop_back();
    if (decimals == 0 && dialect.decimal_point_always) text += '.';
    return with_decimal_mark(text, dialect);
}

std::string with_decimal_mark(std::string number, const Dialect& dialect) {
    if (dialect.decimal_comma) std::replace(number.begin(), number.end(), '.', ',');
    return number;
}

ProgramLines::ProgramLines(const Dialect& dialect) : dialect_(dialect), number_(dialect.first_number) {}

void ProgramLines::comment(std::string_view text) {
    if (dialect_.comments == CommentStyle::none) return;
    const std::string cleaned = comment_text(text, dialect_);
    for (const std::string& part : parts_of(cleaned, room() - 2))
        put(enclosed(part));
}

void ProgramLines::block(std::vector<std::string> words, std::string_view note) {
    std::erase_if(words, [](const std::string& word) { return word.empty(); });
    if (words.empty()) return;
    const auto rank = [&](const std::string& word) { return dialect_.word_order.find(word.front()); };
    std::stable_sort(words.begin(), words.end(),
                     [&](const std::string& a, const std::string& b) { return rank(a) < rank(b); });
    std::string joined;
    for (const std::string& word : words) {
        if (!joined.empty() && dialect_.spaces) joined += ' ';
        joined += word;
    }
    std::string whole = numbered(joined);
    if (!note.empty() && dialect_.comments != CommentStyle::none) {
        const std::string remark = enclosed(comment_text(note, dialect_));
        if (whole.size() + 1 + remark.size() <= room()) {
            whole += ' ' + remark;
        } else {
            comment(note);
        }
    }
    put_block(whole);
}

void ProgramLines::line(const std::string& words) {
    if (!words.empty()) put_block(numbered(words));
}

void ProgramLines::put_block(const std::string& line) {
    put(line);
    if (!dialect_.block_numbers) return;
    number_ += dialect_.number_step;
    if (number_ > dialect_.largest_number) number_ = dialect_.first_number;
}

void ProgramLines::bare(const std::string& text) {
    put(text);
}

void ProgramLines::put(const std::string& line) {
    if (line.size() > room() && too_long_.empty()) too_long_ = line;
    text_ += line;
    text_ += dialect_.line_end == LineEnd::crlf ? "\r\n" : "\n";
}

std::string ProgramLines::numbered(const std::string& words) const {
    if (!dialect_.block_numbers) return words;
    return 'N' + std::to_string(number_) + (dialect_.spaces ? " " : "") + words;
}

std::string ProgramLines::enclosed(const std::string& cleaned) const {
    return dialect_.comments == CommentStyle::semicolon ? "; " + cleaned : '(' + cleaned + ')';
}

}  // namespace lobewright::post
