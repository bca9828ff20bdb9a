#include "text_mutation.h"

#include <algorithm>
#include <cctype>
#include <optional>
#include <utility>

namespace {

using Lines = std::vector<std::string>;

// clang-format off
const std::vector<std::string> edge_numbers = {
    "0", "-0", "0.0", "1", "-1", "+1", "2", "3", "0.5", "-0.001", "1e-3", "1e-5", "1e-9", "1e-30", "5e-324", "1e-308", "1e308", "1e309", "-1e309",
    "nan", "inf", "-inf", "0.001", "0.0009999", "9999.9999", "1e4", "10000", "10001", "10000.0000001", "25.4", "90", "179.9999", "180",
    "-180", "359.999", "360", "-360", "361", "719", "720", "721", "255", "256", "32767", "65536", "99999", "100000", "1000000", "1e6", "1e7", "1e9",
    "2147483647", "2147483648", "-2147483648", "4294967296", "9007199254740993", "9223372036854775807",
    "9223372036854775808", "99999999999999999999", "0x10", "0b1", "1_000", "1__0", "01", "1e", "1.", ".5", "1..2", "1,5",
    "0.1000000000000000055511151231257827", "0.000000000000000000000000000000000000000000000000000000001",
    "123456789012345678901234567890123456789012345678901234567890.0",
};
const std::vector<std::string> odd_characters = {
    "\"", "'", "[", "]", "{", "}", "(", ")", "=", ",", ";", ":", ".", "#", "%", "/", "\\", "-", "+", "*", " ", "\t", "\n", "\r", "\r\n",
    "\"\"\"", "'''", "[[", "]]", std::string(1, '\0'), "\x01", "\x1a", "\x7f", "\xC2\xB5", "\xC2", "\xE2\x82\xAC", "\xF0\x9F\x94\xA7",
    "\xEF\xBB\xBF", "\xFF", "\xED\xA0\x80", "\\u0000", "\\n", "\\x", "\xC2\xA0",
};
// clang-format on

Lines lines_of(const std::string& text) {
    Lines lines;
    std::size_t from = 0;
    for (std::size_t end = text.find('\n'); end != std::string::npos; end = text.find('\n', from)) {
        lines.push_back(text.substr(from, end + 1 - from));
        from = end + 1;
    }
    if (from < text.size()) lines.push_back(text.substr(from));
    return lines;
}

std::string joined(const Lines& lines) {
    std::string text;
    for (const std::string& line : lines)
        text += line;
    return text;
}

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}
bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

/// A stretch of a line: a number, a word, or a single other character.
struct Token {
    enum class Kind { number, word, other };
    Kind kind = Kind::other;
    std::size_t at = 0;
    std::size_t size = 1;
};

std::size_t end_of_token(const std::string& line, std::size_t at, Token::Kind kind, bool single_letters) {
    if (kind == Token::Kind::other || (kind == Token::Kind::word && single_letters)) return at + 1;
    const auto goes_on = [&](char c) {
        if (kind == Token::Kind::number) return is_digit(c) || c == '.';
        return is_letter(c) || is_digit(c) || c == '_' || c == '-';
    };
    ++at;
    while (at < line.size() && goes_on(line[at]))
        ++at;
    return at;
}

std::vector<Token> tokens_of(const std::string& line, bool single_letters) {
    std::vector<Token> tokens;
    for (std::size_t at = 0; at < line.size();) {
        const char c = line[at];
        const bool signs = c == '-' || c == '+' || c == '.';
        const bool number = is_digit(c) || (signs && at + 1 < line.size() && is_digit(line[at + 1]));
        const Token::Kind kind = number         ? Token::Kind::number
                                 : is_letter(c) ? Token::Kind::word
                                                : Token::Kind::other;
        const std::size_t end = end_of_token(line, at, kind, single_letters);
        if (c != ' ' && c != '\n') tokens.push_back({kind, at, end - at});
        at = end;
    }
    return tokens;
}

/// One text under the knife.
class Spoiler {
  public:
    Spoiler(const std::string& text, const std::string& other, const TextGrammar& grammar, Dice& dice)
        : lines_(lines_of(text)), other_(lines_of(other)), grammar_(grammar), dice_(dice) {}

    void spoil() {
        static constexpr void (Spoiler::*ways[])() = {
            &Spoiler::change_number, &Spoiler::change_number, &Spoiler::nudge_number, &Spoiler::nudge_number,
            &Spoiler::change_word,   &Spoiler::change_word,   &Spoiler::add_word,     &Spoiler::drop_token,
            &Spoiler::repeat_token,  &Spoiler::swap_tokens,   &Spoiler::change_value, &Spoiler::change_value,
            &Spoiler::take_value,    &Spoiler::odd_character, &Spoiler::drop_line,    &Spoiler::repeat_line,
            &Spoiler::swap_lines,    &Spoiler::take_lines,    &Spoiler::drop_block,   &Spoiler::repeat_block,
            &Spoiler::take_block,    &Spoiler::move_block,    &Spoiler::cut_off,      &Spoiler::change_all,
        };
        if (lines_.empty()) lines_.emplace_back("\n");
        // One time in sixty the text grows by many lines.
        if (dice_.one_in(60)) return grow();
        (this->*ways[dice_.roll(0, static_cast<int>(std::size(ways)) - 1)])();
    }

    [[nodiscard]] std::string text() const { return joined(lines_); }

  private:
    std::size_t index(std::size_t size) {
        return static_cast<std::size_t>(dice_.roll(0, static_cast<int>(size) - 1));
    }
    std::string& any_line() { return lines_[index(lines_.size())]; }

    /// A line and one of its tokens of that kind (any for none); a few lines are tried.
    std::pair<std::string*, Token> any_token(std::optional<Token::Kind> kind = std::nullopt) {
        for (int tries = 0; tries < 6; ++tries) {
            std::string& line = any_line();
            std::vector<Token> tokens = tokens_of(line, grammar_.single_letters);
            std::erase_if(tokens, [&](const Token& token) { return kind && token.kind != *kind; });
            if (!tokens.empty()) return {&line, tokens[index(tokens.size())]};
        }
        return {nullptr, {}};
    }

    void change_number() {
        if (auto [line, token] = any_token(Token::Kind::number); line != nullptr)
            line->replace(token.at, token.size, dice_.of(edge_numbers));
    }

    void nudge_number() {
        auto [line, token] = any_token(Token::Kind::number);
        if (line == nullptr) return;
        std::string number = line->substr(token.at, token.size);
        char& digit = number[index(number.size())];
        switch (dice_.roll(0, 5)) {
            case 0:
                number = number.front() == '-' ? number.substr(1) : '-' + number;
                break;
            case 1:
                number.erase(std::remove(number.begin(), number.end(), '.'), number.end());
                break;
            case 2:
                number.insert(index(number.size()), ".");
                break;
            case 3:
                number += static_cast<char>('0' + dice_.roll(0, 9));
                break;
            default:
                digit = is_digit(digit) ? static_cast<char>('0' + dice_.roll(0, 9)) : digit;
        }
        line->replace(token.at, token.size, number);
    }

    void change_word() {
        auto [line, token] = any_token(Token::Kind::word);
        if (line != nullptr && !grammar_.words.empty())
            line->replace(token.at, token.size, dice_.of(grammar_.words));
    }
    void add_word() {
        if (auto [line, token] = any_token(); line != nullptr && !grammar_.words.empty())
            line->insert(token.at, dice_.of(grammar_.words) + (dice_.one_in(2) ? " " : ""));
    }
    void drop_token() {
        if (auto [line, token] = any_token(); line != nullptr) line->erase(token.at, token.size);
    }
    void repeat_token() {
        if (auto [line, token] = any_token(); line != nullptr)
            line->insert(token.at, line->substr(token.at, token.size) + (dice_.one_in(2) ? " " : ""));
    }
    void swap_tokens() {
        std::string& line = any_line();
        const std::vector<Token> tokens = tokens_of(line, grammar_.single_letters);
        if (tokens.size() < 2) return;
        const std::size_t i = index(tokens.size() - 1);
        const Token &a = tokens[i], &b = tokens[i + 1];
        const std::string first = line.substr(a.at, a.size), second = line.substr(b.at, b.size);
        line.replace(b.at, b.size, first).replace(a.at, a.size, second);
    }

    /// What stands behind the first "=" of a line.
    void put_value(std::string& line, const std::string& value) {
        const std::size_t at = line.find('=');
        if (at != std::string::npos) line = line.substr(0, at + 1) + ' ' + value + '\n';
    }
    void change_value() {
        if (grammar_.values.empty()) return change_number();
        put_value(any_line(), dice_.of(grammar_.values));
    }
    void take_value() {
        const std::string& from = other_.empty() ? any_line() : other_[index(other_.size())];
        const std::size_t at = from.find("= ");
        if (at == std::string::npos) return change_word();
        put_value(any_line(), from.substr(at + 2, from.find_last_not_of('\n') - at - 1));
    }

    void odd_character() {
        std::string& line = any_line();
        line.insert(index(line.size() + 1), dice_.of(odd_characters));
    }

    void drop_line() { lines_.erase(lines_.begin() + static_cast<std::ptrdiff_t>(index(lines_.size()))); }
    void repeat_line() {
        const std::string line = any_line();
        lines_.insert(lines_.begin() + static_cast<std::ptrdiff_t>(index(lines_.size())), line);
    }
    void swap_lines() { std::swap(any_line(), any_line()); }
    void take_lines() {
        if (other_.empty()) return repeat_line();
        const std::size_t from = index(other_.size());
        const std::size_t count = std::min<std::size_t>(other_.size() - from, index(8) + 1);
        put_in(index(lines_.size() + 1), Lines(other_.begin() + static_cast<std::ptrdiff_t>(from),
                                               other_.begin() + static_cast<std::ptrdiff_t>(from + count)));
    }

    void put_in(std::size_t at, const Lines& more) {
        lines_.insert(lines_.begin() + static_cast<std::ptrdiff_t>(at), more.begin(), more.end());
    }

    /// From one start of a block to the next; without blocks a few lines.
    std::pair<std::size_t, std::size_t> any_block(const Lines& lines) {
        std::size_t from = index(lines.size());
        if (grammar_.block_starts.empty()) return {from, std::min(lines.size(), from + index(12) + 1)};
        const auto starts = [&](std::size_t i) {
            return grammar_.block_starts.find(lines[i].front()) != std::string::npos;
        };
        while (from > 0 && !starts(from))
            --from;
        std::size_t to = from + 1;
        while (to < lines.size() && !starts(to))
            ++to;
        return {from, to};
    }
    static Lines part(const Lines& lines, std::pair<std::size_t, std::size_t> block) {
        return {lines.begin() + static_cast<std::ptrdiff_t>(block.first),
                lines.begin() + static_cast<std::ptrdiff_t>(block.second)};
    }
    Lines taken_out() {
        const auto block = any_block(lines_);
        Lines out = part(lines_, block);
        lines_.erase(lines_.begin() + static_cast<std::ptrdiff_t>(block.first),
                     lines_.begin() + static_cast<std::ptrdiff_t>(block.second));
        return out;
    }
    void drop_block() { taken_out(); }
    void repeat_block() {
        const auto block = any_block(lines_);
        put_in(block.second, part(lines_, block));
    }
    void take_block() {
        if (!other_.empty()) put_in(any_block(lines_).second, part(other_, any_block(other_)));
    }
    void move_block() {
        const Lines out = taken_out();
        put_in(lines_.empty() ? 0 : any_block(lines_).first, out);
    }

    void cut_off() {
        lines_.resize(index(lines_.size()) + 1);
        if (dice_.one_in(2)) lines_.back().resize(index(lines_.back().size() + 1));
    }

    /// Every place where a word stands gets another one: the units, a law, a name; or every line its end.
    void change_all() {
        if (dice_.one_in(6)) {
            for (std::string& line : lines_)
                if (line.ends_with('\n')) line.insert(line.size() - 1, "\r");
            return;
        }
        auto [line, token] = any_token(Token::Kind::word);
        if (line == nullptr || grammar_.words.empty()) return;
        const std::string word = line->substr(token.at, token.size), by = dice_.of(grammar_.words);
        for (std::string& each : lines_)
            if (const std::size_t at = each.find(word); at != std::string::npos)
                each.replace(at, word.size(), by);
    }

    void grow() {
        const Lines block = part(lines_, any_block(lines_));
        const int times = dice_.roll(2, dice_.one_in(8) ? 2000 : 60);
        const std::size_t at = index(lines_.size() + 1);
        Lines many;
        for (int i = 0; i < times && many.size() < 20000; ++i)
            many.insert(many.end(), block.begin(), block.end());
        put_in(at, many);
    }

    Lines lines_, other_;
    const TextGrammar& grammar_;
    Dice& dice_;
};

}  // namespace

std::string mutated(const std::string& text, const std::string& other, const TextGrammar& grammar,
                    std::size_t largest, Dice& dice) {
    Spoiler spoiler(text, other, grammar, dice);
    for (int times = dice.one_in(2) ? 1 : dice.roll(2, 6); times > 0; --times)
        spoiler.spoil();
    std::string spoilt = spoiler.text();
    if (spoilt.size() > largest) spoilt.resize(largest);
    return spoilt;
}
