#include "proof/reader/block.h"

#include "proof/reader/tool_words.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace lobewright::proof {
namespace {

/// G numbers may be off by this much (NIST IR 6556 3.3.2.1).
constexpr double code_slack = 1e-4;
constexpr int most_m_words = 4;                  // NIST IR 6556 3.3.5
constexpr double largest_line_number = 99999.0;  // NIST IR 6556 3.3.1
constexpr double largest_number = 1e9;

constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
constexpr bool is_blank(char c) {
    return c == ' ' || c == '\t';
}
/// What a controller may act on even within a comment; one that ends lines at CR takes what follows for
/// words.
constexpr bool is_control(char c) {
    return (c >= '\0' && c < ' ' && c != '\t') || c == '\x7f';
}
constexpr char upper(char c) {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
}
constexpr bool is_letter(char c) {
    return c >= 'A' && c <= 'Z';
}

constexpr std::array<double, 16> powers_of_ten = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                  1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};

std::string quoted_letter(char letter) {
    return std::string("\"") + letter + "\"";
}

/// A line's words alone: without its number, comments and blanks, in capitals.
std::string bare_words(std::string_view line, CommentStyle comments) {
    std::string bare;
    bool in_comment = false;
    for (const char c : line) {
        if (c == ';' && comments == CommentStyle::semicolon) break;
        if (c == '(') in_comment = comments == CommentStyle::parentheses;
        if (!in_comment && !is_blank(c)) bare += upper(c);
        if (c == ')') in_comment = false;
    }
    if (bare.empty() || bare.front() != 'N') return bare;
    const std::size_t words = bare.find_first_not_of("0123456789", 1);
    return words == std::string::npos ? std::string() : bare.substr(words);
}

std::string code_text(char letter, int tenths) {
    return letter + shortest_fixed(static_cast<double>(tenths) / 10.0, 1);
}

}  // namespace

BlockReader::BlockReader(const Dialect& dialect)
    : codes_(dialect),
      comments_(dialect.comments),
      decimal_mark_(dialect.decimal_comma ? ',' : '.'),
      longest_line_(static_cast<std::size_t>(std::max(dialect.longest_line, 1))),
      known_letters_(Block::bit('F') | Block::bit('I') | Block::bit('J') | Block::bit('K') | Block::bit('N') |
                     Block::bit('P') | Block::bit('Q') | Block::bit('R') | Block::bit('S') |
                     Block::bit('T')) {
    for (const char letter : {dialect.radial.letter, dialect.axial.letter, dialect.rotary.letter}) {
        known_letters_ |= Block::bit(letter);
    }
    if (dialect.side) known_letters_ |= Block::bit(dialect.side->word.letter);
    if (const char letter = ToolWords(dialect).length_letter) known_letters_ |= Block::bit(letter);
    for (const std::string& line : dialect.home)
        home_.push_back(bare_words(line, comments_));
}

int BlockReader::home_line_of(std::string_view line) const {
    if (home_.empty()) return -1;
    const auto found = std::find(home_.begin(), home_.end(), bare_words(line, comments_));
    return found == home_.end() ? -1 : static_cast<int>(found - home_.begin());
}

bool BlockReader::fail(const char* code, std::string what, std::string remedy, const char* at) {
    fault_ = {code, std::move(what), std::move(remedy), static_cast<std::size_t>(at - begin_)};
    return false;
}

bool BlockReader::read(std::string_view line, Block& block) {
    begin_ = at_ = line.data();
    end_ = at_ + line.size();
    m_words_ = 0;
    block.deletable = block.percent = block.program_number = block.loose_code = false;
    block.letters = block.groups = 0;
    block.home_line = home_line_of(line);
    if (line.size() > longest_line_) {
        return fail("line-too-long",
                    "the line has " + std::to_string(line.size()) + " characters, and the controller takes " +
                        std::to_string(longest_line_),
                    "write it shorter, or as two", begin_ + longest_line_);
    }
    pass_blanks();
    if (at_ != end_ && *at_ == '/') {
        block.deletable = true;
        ++at_;
    }
    return read_words(block);
}

bool BlockReader::read_words(Block& block) {
    for (;;) {
        if (!pass_comments()) return false;
        if (at_ == end_) return true;
        const char letter = upper(*at_);
        if (is_letter(letter)) {
            if (!read_word(block, letter)) return false;
        } else if (*at_ == '%' && !block.has_words() && !block.deletable && !block.percent) {
            block.percent = true;
            ++at_;
        } else {
            return bad_character(at_);
        }
        if (block.percent && block.has_words()) {
            return fail("percent-and-words", "words stand beside %", "write % on a line of its own", begin_);
        }
    }
}

bool BlockReader::read_word(Block& block, char letter) {
    const char* at = at_++;
    if (block.program_number) {
        return fail("program-number-and-words", "words stand beside a program number",
                    "write the program number on a line of its own", at);
    }
    if (letter == 'G') return read_g(block, at);
    if (letter == 'M') return read_m(block, at);
    if (letter == 'O') return read_program_number(block, at);
    if ((known_letters_ & Block::bit(letter)) == 0) return unknown_letter(letter, at);
    return read_number_word(block, letter, at);
}

bool BlockReader::unknown_letter(char letter, const char* at) {
    return fail("unknown-letter", quoted_letter(letter) + " is no word of this dialect",
                letter == 'E' ? "take the word out, and write a number without an exponent"
                              : "take the word out, or name the axes as the job's post does",
                at);
}

bool BlockReader::read_number_word(Block& block, char letter, const char* at) {
    const auto index = static_cast<std::size_t>(letter - 'A');
    if (letter == 'N' && block.has_words()) {
        return fail("number-not-first", "the block number N stands after other words", "write it first", at);
    }
    if (block.has(letter)) {
        return fail("word-twice", std::string("the letter ") + letter + " stands twice in the block",
                    "leave one of the words out", at);
    }
    double value = 0.0;
    if (!number(value, letter)) return false;
    if ((letter == 'N' || letter == 'T') && (value != std::floor(value) || value < 0.0)) {
        return fail("not-whole",
                    std::string("the number after ") + letter + " must be whole and not negative",
                    "write a whole number", at);
    }
    if (letter == 'N' && value > largest_line_number) {
        return fail("line-number-too-large", "block numbers go to 99999", "number the blocks anew", at);
    }
    block.values[index] = value;
    block.letter_offsets[index] = static_cast<std::size_t>(at - begin_);
    block.letters |= Block::bit(letter);
    return true;
}

bool BlockReader::read_g(Block& block, const char* at) {
    double value = 0.0;
    if (!number(value, 'G')) return false;
    const double tenths = std::floor(10.0 * value + 0.5);
    if (std::abs(10.0 * value - tenths) > 10.0 * code_slack || tenths < 0.0 || tenths >= 1000.0) {
        return fail("unknown-code", "there is no G word with the number " + shortest_fixed(value, 9),
                    "see the list of G words in the controller's manual", at);
    }
    const int index = static_cast<int>(tenths);
    return put_code(block, codes_.g(index), 'G', index, at);
}

bool BlockReader::read_m(Block& block, const char* at) {
    double value = 0.0;
    if (!number(value, 'M')) return false;
    if (value != std::floor(value) || value < 0.0 || value >= 1000.0) {
        return fail("unknown-code", "there is no M word with the number " + shortest_fixed(value, 9),
                    "see the list of M words in the controller's manual", at);
    }
    if (++m_words_ > most_m_words) {
        return fail("too-many-m", "a block may hold four M words", "write the others in a block of their own",
                    at);
    }
    const int index = static_cast<int>(value);
    return put_code(block, codes_.m(index), 'M', 10 * index, at);
}

bool BlockReader::put_code(Block& block, Code code, char letter, int tenths, const char* at) {
    const auto name = [&] { return code_text(letter, tenths); };
    switch (code.act) {
        case Act::unknown:
            return fail(
                "unknown-code", name() + " is not known to this dialect",
                "take it out, or list it under words.harmless if it moves nothing and changes no mode", at);
        case Act::lacking:
            return fail("not-in-dialect", name() + " is a word that the dialect's controller lacks",
                        "take it out", at);
        case Act::refused:
            return fail("cannot-simulate",
                        name() + " can't be proven: " + std::string(refusal_of(letter, tenths)),
                        std::string(remedy_of(letter, tenths)), at);
        case Act::elsewhere:
            return fail("work-offset", name() + " selects an offset that the text does not hold",
                        "use the offset that the dialect's header selects, where the job's zeros are set",
                        at);
        default:
            break;
    }
    if (code.group == Group::none) return block.loose_code = true;
    const auto group = static_cast<std::size_t>(code.group);
    if (block.has(code.group)) {
        return fail("one-of-a-group", name() + " and a word before it are of one modal group",
                    "leave one of them out, or write two blocks", at);
    }
    block.groups |= Block::bit(code.group);
    block.acts[group] = code.act;
    block.group_offsets[group] = static_cast<std::size_t>(at - begin_);
    return true;
}

/// "O1001" alone on its line names the program; an O word with a name after it belongs to a subprogram.
bool BlockReader::read_program_number(Block& block, const char* at) {
    if (block.letters & ~Block::bit('N') || block.groups != 0 || block.loose_code) {
        return fail("program-number-and-words", "words stand beside a program number",
                    "write the program number on a line of its own", at);
    }
    pass_blanks();
    if (at_ != end_ && (*at_ == '<' || *at_ == '#' || *at_ == '[')) {
        return fail("subprogram", "subprograms and branches are not simulated",
                    "write the moves out in plain words", at);
    }
    double value = 0.0;
    if (!number(value, 'O')) return false;
    if (value != std::floor(value) || value < 0.0) {
        return fail("not-whole", "a program number must be whole and not negative", "write a whole number",
                    at);
    }
    pass_blanks();
    if (at_ != end_ && is_letter(upper(*at_))) {
        return fail("subprogram", "subprograms and branches are not simulated",
                    "write the moves out in plain words", at);
    }
    return block.program_number = true;
}

bool BlockReader::pass_comments() {
    for (;;) {
        pass_blanks();
        if (at_ == end_) return true;
        if (*at_ == '(' && comments_ == CommentStyle::parentheses) {
            if (!pass_parentheses()) return false;
        } else if (*at_ == ';' && comments_ == CommentStyle::semicolon) {
            for (; at_ != end_; ++at_) {
                if (is_control(*at_)) return bad_character(at_);
            }
        } else {
            return true;
        }
    }
}

bool BlockReader::pass_parentheses() {
    const char* open = at_++;
    for (; at_ != end_; ++at_) {
        if (*at_ == ')') return ++at_, true;
        if (*at_ == '(') {
            return fail("comment-in-comment", "a comment may not hold another \"(\"", "write [ instead", at_);
        }
        if (is_control(*at_)) return bad_character(at_);
    }
    return fail("comment-open", "the comment is not closed in its line", "close it with )", open);
}

/// Digits into an integer, and a power of ten to divide by: exact to the last bit up to fifteen digits, as
/// both are exact in a double and the division rounds once. Longer numbers take the library's way.
bool BlockReader::number(double& value, char letter) {
    pass_blanks();
    const char* from = at_;
    const bool negative = at_ != end_ && *at_ == '-';
    if (at_ != end_ && (*at_ == '-' || *at_ == '+')) ++at_;
    std::uint64_t mantissa = 0;
    std::size_t digits = 0, decimals = 0;
    bool point = false, any = false;
    for (; at_ != end_; ++at_) {
        const char c = *at_;
        if (is_digit(c)) {
            any = true;
            if (mantissa != 0 || c != '0') ++digits;
            if (digits > 15) return long_number(from, negative, value, letter);
            mantissa = 10 * mantissa + static_cast<std::uint64_t>(c - '0');
            if (point) ++decimals;
            if (decimals > 15) return long_number(from, negative, value, letter);
        } else if ((c == decimal_mark_ || (c == '.' && letter == 'G')) && !point) {
            point = true;
        } else if (!is_blank(c)) {
            break;
        }
    }
    if (!any) {
        if (at_ != end_ && (*at_ == '#' || *at_ == '[')) return bad_character(at_);
        return fail("no-number", std::string("no number stands after ") + letter, "write a decimal number",
                    at_ != end_ ? at_ : from);
    }
    value = static_cast<double>(mantissa) / powers_of_ten[decimals];
    if (negative) value = -value;
    if (std::abs(value) > largest_number) {
        return fail("number-too-large", std::string("the number after ") + letter + " is too large",
                    "write the one that is meant", from);
    }
    return true;
}

bool BlockReader::long_number(const char* from, bool negative, double& value, char letter) {
    std::array<char, 64> text;
    std::size_t size = 0;
    bool point = false;
    for (at_ = from + (*from == '-' || *from == '+' ? 1 : 0); at_ != end_; ++at_) {
        if (is_blank(*at_)) continue;
        const bool mark = *at_ == decimal_mark_;
        if (mark ? point : !is_digit(*at_)) break;
        point |= mark;
        if (size == text.size()) {
            return fail("number-too-long", std::string("the number after ") + letter + " has too many digits",
                        "sixty at most", from);
        }
        text[size++] = mark ? '.' : *at_;
    }
    std::from_chars(text.data(), text.data() + size, value, std::chars_format::fixed);
    if (negative) value = -value;
    if (std::abs(value) <= largest_number) return true;
    return fail("number-too-large", std::string("the number after ") + letter + " is too large",
                "write the one that is meant", from);
}

bool BlockReader::bad_character(const char* at) {
    const char c = *at;
    if (c == '#' || c == '[' || c == ']' || c == '=' || c == '<' || c == '>') {
        return fail("expression",
                    std::string("\"") + c +
                        "\" begins an expression or a parameter, which the proof does not work out",
                    "write the number itself", at);
    }
    if (c == '/')
        return fail("slash-not-first", "the / of block delete must stand first in the line", "write it first",
                    at);
    if (c == '(' || c == ')' || c == ';') {
        return fail("no-such-comment", std::string("\"") + c + "\" is no comment in this dialect",
                    "take the comment out, or write it as the dialect does", at);
    }
    if (c == '%')
        return fail("percent-and-words", "words stand beside %", "write % on a line of its own", at);
    if (is_control(c)) {
        return fail("bad-character",
                    "a control character stands here, which may end the line for a controller", "take it out",
                    at);
    }
    const bool printable = c > ' ' && c < '\x7f';
    return fail(
        "bad-character",
        printable ? std::string("\"") + c + "\" can't stand here" : "a character that can't stand here",
        c == ',' ? "write decimals with a point" : "write words: a letter and a number", at);
}

}  // namespace lobewright::proof
