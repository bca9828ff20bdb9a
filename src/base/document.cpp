#include "base/document.h"

#include "base/text/characters.h"
#include "base/toml_slips.h"

// The library's own assertions abort the program on a user's slip such as "[ = 1"; without them it reports a
// plain syntax error (measured with 3.3 and 3.4).
#define TOML_ASSERT(condition) static_cast<void>(0)
#define TOML_HEADER_ONLY 1
#define TOML_EXCEPTIONS 0
#define TOML_MAX_NESTED_VALUES 16
#include <toml++/toml.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

constexpr std::size_t largest_text = 4u << 20;
constexpr int most_dots_in_line = 64;
constexpr int deepest_nesting = TOML_MAX_NESTED_VALUES;

Diagnostic complaint(const std::string& file, int line, int column, std::string code, std::string what,
                     std::string remedy) {
    return {Fault::bad_input, Severity::error,   std::move(code),
            std::move(what),  std::move(remedy), {file, line, column}};
}

/// What would overrun or abort the library is refused before it sees the text. Points and brackets are
/// counted in comments and strings too; brackets there may hide some nesting, which the library's own limit
/// then stops, so that no tree is deeper than 64 x 16 tables.
std::optional<Diagnostic> unfit_text(const std::string& text, const std::string& file) {
    if (text.size() > largest_text) {
        return complaint(file, 0, 0, "too-large", "the file is larger than 4 MiB",
                         "give a job file, not data");
    }
    int line = 1, column = 1, dots = 0, nesting = 0;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = sequence_length(std::string_view(text).substr(i, 4));
        if (length == 0) {
            return complaint(file, line, column, "not-utf8", "this is not UTF-8 text",
                             "save the file as UTF-8");
        }
        const char c = text[i];
        const auto code = static_cast<unsigned char>(c);
        if (i > 0 && text.compare(i, 3, "\xEF\xBB\xBF") == 0) {
            return complaint(file, line, column, "byte-order-mark",
                             "a byte order mark stands here, which no editor shows",
                             "delete the line and type it anew");
        }
        const bool line_end = c == '\n' || (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n');
        if (length == 1 && (code < 0x20u || code == 0x7Fu) && c != '\t' && !line_end) {
            return complaint(file, line, column, "control-character", "there is a control character here",
                             "delete it");
        }
        if (c == '.' && ++dots > most_dots_in_line) {
            return complaint(file, line, column, "too-many-dots", "this line has more than 64 points",
                             "shorten the key");
        }
        if ((c == '[' || c == '{') && ++nesting > deepest_nesting) {
            return complaint(file, line, column, "too-deep", "brackets are nested more than 16 deep here",
                             "close them");
        }
        if ((c == ']' || c == '}') && nesting > 0) --nesting;
        column = c == '\n' ? 1 : column + 1;
        if (c == '\n') ++line, dots = 0;
        i += length;
    }
    return std::nullopt;
}

Place place_of(const toml::source_region& source, const std::string& file) {
    return {file, static_cast<int>(source.begin.line), static_cast<int>(source.begin.column)};
}

class Converter {
  public:
    Converter(const std::string& file, const TomlLines& lines, Diagnostics& complaints)
        : file_(file), lines_(lines), complaints_(complaints) {}

    Node convert(const toml::node& from, std::string key, const Place& key_place) {
        Node node;
        node.place = place_of(from.source(), file_);
        node.key = std::move(key);
        node.key_place = key_place.line > 0 ? key_place : node.place;
        if (const auto* table = from.as_table()) {
            members(node, *table);
        } else if (const auto* array = from.as_array()) {
            node.kind = Node::Kind::array;
            for (const auto& item : *array)
                node.members.push_back(convert(item, node.key, {}));
        } else {
            value(node, from);
        }
        return node;
    }

  private:
    void members(Node& node, const toml::table& table) {
        node.kind = Node::Kind::table;
        for (const auto& [key, value] : table) {
            const std::string name(key.str());
            const Place place = place_of(key.source(), file_);
            if (!is_printable(name)) complain_about_control(name, name, place);
            node.members.push_back(convert(value, name, place));
        }
        std::stable_sort(node.members.begin(), node.members.end(), [](const Node& a, const Node& b) {
            return std::pair(a.key_place.line, a.key_place.column) <
                   std::pair(b.key_place.line, b.key_place.column);
        });
    }

    void value(Node& node, const toml::node& from) {
        if (const auto* text = from.as_string()) {
            string(node, text->get());
        } else if (const auto* whole = from.as_integer()) {
            number(node, static_cast<double>(whole->get()), true);
        } else if (const auto* real = from.as_floating_point()) {
            number(node, real->get(), false);
        } else if (const auto* truth = from.as_boolean()) {
            node.kind = Node::Kind::boolean;
            node.truth = truth->get();
        } else {
            node.kind = lines_.is_mended(node.place.line) ? Node::Kind::broken : Node::Kind::other;
        }
    }

    void number(Node& node, double value, bool whole) {
        node.kind = Node::Kind::number;
        node.number = value;
        node.whole = whole;
        if (std::isfinite(value)) return;
        node.kind = Node::Kind::broken;
        complain(node.key, "not-finite", "'" + node.key + "' is not a finite number", "give a plain number",
                 node.place);
    }

    void string(Node& node, const std::string& text) {
        node.kind = Node::Kind::string;
        node.text = text;
        if (is_printable(text)) return;
        node.kind = Node::Kind::broken;
        complain_about_control(node.key, text, node.place);
    }

    void complain_about_control(const std::string& key, const std::string& text, const Place& place) {
        complain(key, "control-character", "\"" + printable(text) + "\" holds a control character",
                 "write it without", place);
    }

    void complain(const std::string& key, std::string code, std::string what, std::string remedy,
                  const Place& place) {
        complaints_.push_back({Fault::bad_input, Severity::error, std::move(code), std::move(what),
                               std::move(remedy), place, key, std::string(lines_.written(place.line))});
    }

    const std::string& file_;
    const TomlLines& lines_;
    Diagnostics& complaints_;
};

Diagnostic complaint_about(const TomlSlip& slip, const TomlLines& lines, const std::string& file) {
    return {Fault::bad_input, Severity::error,
            slip.code,        slip.what,
            slip.remedy,      Place{file, slip.line, slip.column},
            slip.cause,       std::string(lines.written(slip.line))};
}

/// The text is read anew after each slip: so many, then, that no file takes much longer than a second.
std::size_t most_slips(std::size_t size) {
    constexpr std::size_t most_bytes = std::size_t{32} << 20;
    return std::clamp<std::size_t>(most_bytes / (size + 1), 8, 1000);
}

/// The text as the library takes it apart, slips mended one after the other; nothing where one can't be.
std::optional<toml::table> take_apart(TomlLines& lines, const std::string& file, Diagnostics& complaints) {
    const std::size_t most = most_slips(lines.text().size());
    for (std::size_t slips = 0; slips < most; ++slips) {
        const std::string text = lines.text();
        toml::parse_result result = toml::parse(std::string_view(text));
        if (result) return std::move(result).table();
        const toml::parse_error& error = result.error();
        const bool repeated = error.description().find("redefine") != std::string_view::npos;
        const TomlSlip slip = find_slip(lines, static_cast<int>(error.source().begin.line),
                                        static_cast<int>(error.source().begin.column), repeated);
        complaints.push_back(complaint_about(slip, lines, file));
        if (!lines.mend(slip)) return std::nullopt;
    }
    return std::nullopt;
}

}  // namespace

const Node* Node::find(std::string_view name) const {
    if (kind != Kind::table) return nullptr;
    const auto found =
        std::find_if(members.begin(), members.end(), [&](const Node& node) { return node.key == name; });
    return found == members.end() ? nullptr : &*found;
}

Document parse_document(const std::string& text, const std::string& file,
                        const std::vector<std::string>& lists) {
    Document document;
    TomlLines lines(text);
    if (auto unfit = unfit_text(text, file)) {
        unfit->line_text = lines.written(unfit->place.line);
        document.complaints.push_back(*std::move(unfit));
        return document;
    }
    for (const TomlSlip& slip : lines.double_brackets(lists)) {
        document.complaints.push_back(complaint_about(slip, lines, file));
    }
    const auto table = take_apart(lines, file, document.complaints);
    if (table) document.root = Converter(file, lines, document.complaints).convert(*table, "", {});
    return document;
}

}  // namespace lobewright
