#include "base/document.h"

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

/// Length of the UTF-8 sequence at the start of `text`, 0 if it is none (overlong forms and surrogates are
/// none).
std::size_t sequence_length(std::string_view text) {
    const auto byte = [&](std::size_t i) {
        return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u;
    };
    const auto follows = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
    const unsigned first = byte(0);
    if (first < 0x80u) return 1;
    if (first >= 0xC2u && first <= 0xDFu) return follows(1) ? 2 : 0;
    if (first >= 0xE0u && first <= 0xEFu) {
        if (first == 0xE0u && byte(1) < 0xA0u) return 0;
        if (first == 0xEDu && byte(1) > 0x9Fu) return 0;
        return follows(1) && follows(2) ? 3 : 0;
    }
    if (first >= 0xF0u && first <= 0xF4u) {
        if (first == 0xF0u && byte(1) < 0x90u) return 0;
        if (first == 0xF4u && byte(1) > 0x8Fu) return 0;
        return follows(1) && follows(2) && follows(3) ? 4 : 0;
    }
    return 0;
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

struct Converter {
    const std::string& file;
    Diagnostics complaints;

    void number(Node& node, double value, bool whole) {
        node.kind = Node::Kind::number;
        node.number = value;
        node.whole = whole;
        if (std::isfinite(value)) return;
        complaints.push_back({Fault::bad_input, Severity::error, "not-finite",
                              "'" + node.key + "' is not a finite number", "give a plain number",
                              node.place});
        node.number = 0.0;
    }

    Node convert(const toml::node& from, std::string key, const Place& key_place) {
        Node node;
        node.place = place_of(from.source(), file);
        node.key = std::move(key);
        node.key_place = key_place.line > 0 ? key_place : node.place;
        if (const auto* table = from.as_table()) {
            node.kind = Node::Kind::table;
            for (const auto& [name, value] : *table) {
                node.members.push_back(
                    convert(value, std::string(name.str()), place_of(name.source(), file)));
            }
            std::stable_sort(node.members.begin(), node.members.end(), [](const Node& a, const Node& b) {
                return std::pair(a.key_place.line, a.key_place.column) <
                       std::pair(b.key_place.line, b.key_place.column);
            });
        } else if (const auto* array = from.as_array()) {
            node.kind = Node::Kind::array;
            for (const auto& item : *array)
                node.members.push_back(convert(item, node.key, {}));
        } else if (const auto* text = from.as_string()) {
            node.kind = Node::Kind::string;
            node.text = text->get();
        } else if (const auto* whole = from.as_integer()) {
            number(node, static_cast<double>(whole->get()), true);
        } else if (const auto* real = from.as_floating_point()) {
            number(node, real->get(), false);
        } else if (const auto* truth = from.as_boolean()) {
            node.kind = Node::Kind::boolean;
            node.truth = truth->get();
        } else {
            node.kind = Node::Kind::other;  // dates and times
        }
        return node;
    }
};

}  // namespace

const Node* Node::find(std::string_view name) const {
    if (kind != Kind::table) return nullptr;
    const auto found =
        std::find_if(members.begin(), members.end(), [&](const Node& node) { return node.key == name; });
    return found == members.end() ? nullptr : &*found;
}

Outcome<Node> parse_document(const std::string& text, const std::string& file) {
    if (auto unfit = unfit_text(text, file)) return *std::move(unfit);
    const toml::parse_result result = toml::parse(std::string_view(text));
    if (!result) {
        const toml::parse_error& error = result.error();
        return complaint(file, static_cast<int>(error.source().begin.line),
                         static_cast<int>(error.source().begin.column), "toml-syntax",
                         "this can't be read as TOML (" + std::string(error.description()) + ")",
                         "mend the line, or the one before it");
    }
    Converter converter{file, {}};
    Node root = converter.convert(result.table(), "", {});
    if (!converter.complaints.empty()) return std::move(converter.complaints);
    return root;
}

}  // namespace lobewright
