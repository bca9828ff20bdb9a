#include "base/toml_slips.h"

#include "base/text/characters.h"
#include "base/toml_line.h"
#include "base/toml_numbers.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <array>

namespace lobewright {
namespace {

struct Found {
    std::size_t at = 0;  ///< bytes from the line's start
    std::string code;
    std::string what;
    std::string remedy;
};
using Finding = std::optional<Found>;

constexpr std::string_view blanks = " \t";
constexpr std::string_view digits_only = "0123456789";

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

std::string quoted(std::string_view text) {
    return '"' + std::string(text) + '"';
}

// ---- the line as a whole

Finding other_comment(const TomlLine& line) {
    for (const std::string_view sign : {"//", ";", "--", "!", "%"}) {
        if (line.whole.substr(line.begin).starts_with(sign))
            return Found{line.begin, "comment", "this looks like a comment", "begin it with #"};
    }
    return std::nullopt;
}

Finding printers_quote(const TomlLine& line) {
    for (const std::string_view quote : {"“", "”", "„", "‘", "’", "‚", "«", "»"}) {
        const std::size_t at = line.bare.find(quote);
        if (at != std::string::npos)
            return Found{at, "quotes", std::string(quote) + " is a quote of print",
                         "write plain quotes, as \"inlet\""};
    }
    return std::nullopt;
}

Finding no_equals(const TomlLine& line) {
    if (line.equals != std::string_view::npos || line.key.empty()) return std::nullopt;
    const std::size_t after = line.bare.find_first_not_of(blanks, line.begin + line.key.size());
    if (after == std::string::npos)
        return Found{line.begin, "no-value", quoted(line.key) + " stands alone",
                     "write a key, = and its value"};
    if (line.bare[after] == ':')
        return Found{after, "colon", "a : stands where = should", "write " + std::string(line.key) + " ="};
    return Found{after, "no-equals", "there is no = after " + quoted(line.key),
                 "write " + std::string(line.key) + " ="};
}

Finding odd_key(const TomlLine& line) {
    if (line.equals == std::string_view::npos) return std::nullopt;
    const std::string_view written = line.whole.substr(line.begin, line.equals - line.begin);
    const std::string_view name = written.substr(0, written.find_last_not_of(blanks) + 1);
    if (name.empty()) return Found{line.equals, "no-key", "there is no key before the =", "write one"};
    if (line.key.size() == name.size() || name.find_first_of("\"'") != std::string_view::npos)
        return std::nullopt;
    return Found{line.begin, "odd-key", "the key " + std::string(name) + " is not one plain word",
                 "put it in quotes: " + quoted(name)};
}

Finding no_value(const TomlLine& line) {
    if (line.equals == std::string_view::npos) return std::nullopt;
    if (line.value.empty())
        return Found{line.equals, "no-value", "there is no value after the =", "write one"};
    if (line.value.front() == '=')
        return Found{line.value_at, "two-equals", "= stands twice", "write it once"};
    return std::nullopt;
}

Finding open_text(const TomlLine& line) {
    if (line.open_quote == '\0') return std::nullopt;
    return Found{line.open_at, "open-text", "a text begins here and does not end",
                 std::string("end it with ") + line.open_quote};
}

Finding odd_backslash(const TomlLine& line) {
    if (line.backslash == std::string_view::npos) return std::nullopt;
    return Found{line.backslash, "backslash",
                 "a backslash in double quotes has a meaning of its own, and this one has none",
                 "write / or \\\\, or put the text in single quotes"};
}

Finding open_brace(const TomlLine& line) {
    if (line.open.find('{') == std::string::npos) return std::nullopt;
    return Found{line.open_brace, "open-brace", "the brace { is not closed in its line",
                 "write all of it in one line"};
}

Finding odd_comma(const TomlLine& line) {
    for (std::size_t i = line.value_at; i < line.bare.size(); ++i) {
        if (line.bare[i] != ',') continue;
        const std::size_t next = line.bare.find_first_not_of(blanks, i + 1);
        const char after = next == std::string::npos ? '\0' : line.bare[next];
        if (after == ',')
            return Found{next, "comma", "two commas stand side by side", "leave one of them out"};
        if (after == '}') return Found{i, "comma", "a comma stands before }", "leave it out"};
    }
    return std::nullopt;
}

// ---- one value in it

struct Atom {
    std::string_view text;
    std::size_t at = 0;
};

/// Where the number at the beginning of `text` ends: a sign, digits, and a point with digits.
std::size_t number_end(std::string_view text) {
    std::size_t end = text.starts_with('+') || text.starts_with('-') ? 1 : 0;
    const auto pass_digits = [&] { end = std::min(text.find_first_not_of(digits_only, end), text.size()); };
    pass_digits();
    if (end + 1 < text.size() && text[end] == '.' && is_digit(text[end + 1])) {
        ++end;
        pass_digits();
    }
    return end;
}

bool is_number(std::string_view text) {
    return !text.empty() && is_digit(text.back()) && number_end(text) == text.size();
}

Finding as_number(const Atom& atom, const std::string& what, const std::string& better) {
    return Found{atom.at, "number", std::string(atom.text) + ' ' + what, "write " + better};
}

std::string without_blanks(std::string_view text) {
    std::string kept;
    for (const char c : text) {
        if (blanks.find(c) == std::string_view::npos && c != '\'') kept += c;
    }
    return kept;
}

/// A number with something before or after it that does not belong there.
Finding odd_number(const Atom& atom) {
    const std::string_view text = atom.text;
    const std::size_t sign = text.front() == '+' || text.front() == '-' ? 1 : 0;
    const std::string signs = text.front() == '-' ? "-" : "";
    const std::string_view rest = text.substr(sign);
    const std::size_t end = number_end(text);
    const std::string_view after = text.substr(std::min(text.find_first_not_of(blanks, end), text.size()));
    if (rest.starts_with('.') && is_number("0" + std::string(rest)))
        return as_number(atom, "has no digit before its point", signs + "0" + std::string(rest));
    if (after == "." && end > sign)
        return as_number(atom, "has no digit after its point", std::string(text) + '0');
    if (end <= sign)
        return Found{atom.at, "number", std::string(text) + " is no number", "write one such as 2.4"};
    if (const std::string decimals = decimals_of(text); !decimals.empty())
        return as_number(atom, "is a fraction", decimals);
    if (is_number(without_blanks(text)) && !is_number(text))
        return as_number(atom, "is a number with gaps", without_blanks(text));
    if (rest.size() > 1 && rest[0] == '0' && is_digit(rest[1]) && is_number(text)) {
        const std::size_t first = std::min(rest.find_first_not_of('0'), rest.size() - 1);
        return as_number(atom, "begins with a needless 0",
                         signs + std::string(rest.substr(rest[first] == '.' ? first - 1 : first)));
    }
    if (is_too_large(rest, after))
        return Found{atom.at, "number", std::string(text) + " is too large a number",
                     "write one such as 2.4"};
    if (is_number(text)) return std::nullopt;
    const bool another = after.starts_with(';') || after.find('=') != std::string_view::npos;
    return Found{atom.at + static_cast<std::size_t>(after.data() - text.data()), "after-number",
                 quoted(after) + " stands after the number",
                 another ? "write one key and its value a line" : "write the number alone, without its unit"};
}

Finding bare_word(const Atom& atom) {
    static constexpr std::array<std::string_view, 4> good = {"true", "false", "inf", "nan"};
    if (std::find(good.begin(), good.end(), atom.text) != good.end()) return std::nullopt;
    std::string lower(atom.text);
    for (char& c : lower)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (lower == "true" || lower == "yes" || lower == "on")
        return Found{atom.at, "truth", std::string(atom.text) + " is no value", "write true"};
    if (lower == "false" || lower == "no" || lower == "off")
        return Found{atom.at, "truth", std::string(atom.text) + " is no value", "write false"};
    return Found{atom.at, "unquoted-text", "a text stands without quotes", "write " + quoted(atom.text)};
}

Finding odd_atom(const Atom& atom) {
    const char first = atom.text.front();
    if (first == TomlLine::quoted_part) {
        const std::size_t end = atom.text.find_first_not_of(TomlLine::quoted_part);
        if (end == std::string_view::npos) return std::nullopt;
        return Found{atom.at + atom.text.find_first_not_of(blanks, end), "after-text",
                     "more stands after the text", "write one value, in one pair of quotes"};
    }
    if (is_digit(first) || first == '+' || first == '-' || first == '.') return odd_number(atom);
    return bare_word(atom);
}

/// The values in a line, those within brackets and braces too.
std::vector<Atom> atoms_of(const TomlLine& line) {
    std::vector<Atom> atoms;
    const std::string_view bare = line.bare;
    int braces = 0;
    for (std::size_t at = line.value_at; at < bare.size();) {
        const std::size_t end =
            std::min(bare.find_first_of(braces > 0 ? "[]{},=" : "[]{},", at), bare.size());
        const char ending = end < bare.size() ? bare[end] : '\0';
        const std::size_t from = bare.find_first_not_of(blanks, at);
        if (from < end && ending != '=') {
            const std::size_t last = bare.find_last_not_of(blanks, end - 1);
            atoms.push_back({bare.substr(from, last + 1 - from), from});
        }
        braces += ending == '{' ? 1 : ending == '}' ? -1 : 0;
        at = end + 1;
    }
    return atoms;
}

/// "2,4" where no list is: neither in square brackets, nor followed by the next key in braces.
Finding decimal_comma(const TomlLine& line) {
    const std::vector<Atom> atoms = atoms_of(line);
    std::string inside;
    for (std::size_t i = line.value_at; i < line.bare.size(); ++i) {
        const char c = line.bare[i];
        if (c == '[' || c == '{') inside += c;
        if ((c == ']' || c == '}') && !inside.empty()) inside.pop_back();
        if (c != ',' || inside.ends_with('[')) continue;
        const auto before = std::find_if(atoms.begin(), atoms.end(),
                                         [&](const Atom& atom) { return atom.at + atom.text.size() == i; });
        const auto after =
            std::find_if(atoms.begin(), atoms.end(), [&](const Atom& atom) { return atom.at == i + 1; });
        if (before == atoms.end() || after == atoms.end()) continue;
        const std::string_view decimals = after->text.substr(0, after->text.find_first_not_of(digits_only));
        if (!is_number(before->text) || decimals.empty()) continue;
        return Found{i, "decimal-comma", "a decimal comma stands in this number",
                     "write " + std::string(before->text) + '.' + std::string(decimals) + ", with a point"};
    }
    return std::nullopt;
}

Finding odd_value(const TomlLine& line) {
    if (line.equals == std::string_view::npos) return std::nullopt;
    for (const Atom& atom : atoms_of(line)) {
        if (Finding found = odd_atom(atom)) return found;
    }
    return std::nullopt;
}

// ---- headers

constexpr std::string_view name_characters =
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.";

Finding odd_header(const TomlLine& line) {
    const std::string_view header = std::string_view(line.bare).substr(line.begin);
    const bool doubled = header.starts_with("[[");
    const std::size_t close = line.bare.find(']', line.begin);
    if (close == std::string::npos)
        return Found{line.begin, "header", "the bracket is not closed",
                     doubled ? "end the name with ]]" : "end the name with ]"};
    const bool closed_twice = close + 1 < line.bare.size() && line.bare[close + 1] == ']';
    if (doubled != closed_twice)
        return Found{close, "header", "the brackets before and after the name differ",
                     "write [name], or [[name]] where there may be several"};
    const std::string_view name = std::string_view(line.bare).substr(line.begin + (doubled ? 2 : 1),
                                                                     close - line.begin - (doubled ? 2 : 1));
    const std::size_t odd = name.find_first_not_of(std::string(name_characters) + TomlLine::quoted_part);
    if (name.empty() || odd != std::string_view::npos)
        return Found{line.begin, "header", "the name in the brackets is not one plain word",
                     "put it in quotes: [\"my name\"]"};
    if (('.' + std::string(name) + '.').find("..") != std::string::npos)
        return Found{line.begin, "header", "a part of the name is missing beside its point",
                     "write one before and after each, as in [cutter.mill]"};
    const std::size_t after = line.bare.find_first_not_of(blanks, close + (doubled ? 2 : 1));
    if (after != std::string::npos)
        return Found{after, "header", "more stands after the bracket",
                     "write keys and values on lines of their own"};
    return std::nullopt;
}

// ---- all of it

using Rule = Finding (*)(const TomlLine&);
constexpr std::array<Rule, 11> rules = {other_comment, printers_quote, no_equals,     odd_key,
                                        no_value,      open_text,      odd_backslash, decimal_comma,
                                        open_brace,    odd_comma,      odd_value};

Finding first_found(const TomlLine& line) {
    if (line.is_header) return odd_header(line);
    for (const Rule rule : rules) {
        if (Finding found = rule(line)) return found;
    }
    return std::nullopt;
}

/// A header as it was probably meant: in the brackets that its name wants, and nothing after them.
std::optional<std::string> mended_header(const TomlLine& line, const TomlLines& lines) {
    std::string_view name = line.whole.substr(line.begin, line.bare.size() - line.begin);
    name.remove_prefix(std::min(name.find_first_not_of("[ \t"), name.size()));
    name = name.substr(0, name.find_first_of("[]"));
    name = name.substr(0, name.find_last_not_of(" \t\r") + 1);
    if (name.empty() || name.find_first_of("\"'\\") != std::string_view::npos) return std::nullopt;
    const bool plain = name.find_first_not_of(name_characters) == std::string_view::npos;
    const std::string written = plain ? std::string(name) : '"' + std::string(name) + '"';
    return lines.is_list(written) ? "[[" + written + "]]" : '[' + written + ']';
}

/// The line without its broken value, where the lines around it don't hang on it.
std::optional<std::string> mended_line(const TomlLine& line, const TomlLines& lines, bool repeated) {
    if (line.is_header) return repeated ? std::nullopt : mended_header(line, lines);
    if (!line.open.empty()) return std::nullopt;
    if (repeated || line.key.empty()) return std::string();
    return std::string(line.key) + " = " + std::string(broken_value);
}

Found repeated_thing(const TomlLine& line) {
    if (!line.is_header)
        return {line.begin, "repeated-key", '\'' + std::string(line.key) + "' is there already",
                "keep one of them"};
    const std::string name =
        without_blanks(line.whole.substr(line.begin, line.whole.find_last_of(']') + 1 - line.begin));
    return {line.begin, "repeated-table", name + " is there already",
            "give it another name, or keep one of them; what may stand several times has double brackets"};
}

std::string cause_of(const TomlLine& line) {
    return line.is_header ? line.bare.substr(line.begin) : std::string(line.key);
}

TomlSlip slip_at(const TomlLines& lines, int number, const TomlLine& line, const Found& found,
                 bool repeated) {
    const auto column = static_cast<int>(characters(line.whole.substr(0, found.at))) + 1;
    return {number,
            column,
            found.code,
            found.what,
            found.remedy,
            cause_of(line),
            mended_line(line, lines, repeated)};
}

/// The bracket above that is not closed, where line `number` looks right in itself.
std::optional<TomlSlip> open_list_above(const TomlLines& lines, int number) {
    for (int above = number - 1; above >= 1; --above) {
        const TomlLine line(lines.mended(above));
        if (line.is_empty()) continue;
        if (line.is_header || line.open.find('[') == std::string::npos) return std::nullopt;
        TomlSlip slip = slip_at(
            lines, above, line,
            {line.open_bracket, "open-list", "the bracket [ is not closed", "end the list with ]"}, false);
        if (!line.key.empty()) slip.mended = std::string(line.key) + " = " + std::string(broken_value);
        return slip;
    }
    return std::nullopt;
}

}  // namespace

TomlSlip find_slip(const TomlLines& lines, int number, int column, bool repeated) {
    const TomlLine line(lines.mended(number));
    if (repeated) return slip_at(lines, number, line, repeated_thing(line), true);
    if (const Finding found = first_found(line)) return slip_at(lines, number, line, *found, false);
    if (auto above = open_list_above(lines, number)) return *above;
    return {number,
            column,
            "toml-syntax",
            "this can't be read",
            "mend the line, or the one before it",
            cause_of(line),
            mended_line(line, lines, false)};
}

}  // namespace lobewright
