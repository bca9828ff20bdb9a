#include "base/document.h"
#include "base/exact_decimal.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

/// Damerau's distance between neighbours: insert, delete, replace, swap of two that stand side by side.
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::vector<std::size_t>> cost(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i)
        cost[i][0] = i;
    for (std::size_t j = 0; j <= b.size(); ++j)
        cost[0][j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        for (std::size_t j = 1; j <= b.size(); ++j) {
            cost[i][j] = std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1,
                                   cost[i - 1][j - 1] + (a[i - 1] != b[j - 1] ? 1u : 0u)});
            const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped) cost[i][j] = std::min(cost[i][j], cost[i - 2][j - 2] + 1);
        }
    }
    return cost[a.size()][b.size()];
}

std::string quoted(std::string_view text) {
    return '"' + std::string(text) + '"';
}

std::string range_words(NumberRange range) {
    const std::string low =
        (range.lowest_allowed ? "at least " : "more than ") + shortest_fixed(range.lowest, 9);
    const bool open_below = range.lowest <= any_figure.lowest;
    const bool open_above = range.highest >= any_figure.highest;
    std::string high = (range.highest_allowed ? "at most " : "less than ") + shortest_fixed(range.highest, 9);
    if (open_below) return high;
    return open_above ? low : low + " and " + high;
}

bool lies_in(double value, NumberRange range) {
    const bool above = range.lowest_allowed ? value >= range.lowest : value > range.lowest;
    return above && (range.highest_allowed ? value <= range.highest : value < range.highest);
}

}  // namespace

std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : ", ") + quoted(word);
    return text;
}

std::string as_written(double value) {
    const double size = std::abs(value);
    if (size == 0.0 || (size >= 1e-9 && size < 1e15)) return shortest_fixed(value, 9);
    return scientific_text(value);
}

std::string kind_name(const Node& node) {
    switch (node.kind) {
        case Node::Kind::table:
            return "a table";
        case Node::Kind::array:
            return "a list";
        case Node::Kind::string:
            return "a text";
        case Node::Kind::number:
            return "a number";
        case Node::Kind::boolean:
            return "true or false";
        case Node::Kind::other:
            return "a date or time";
        case Node::Kind::broken:
            return "not to be read";
    }
    return "";
}

std::string nearest_word(std::string_view word, const std::vector<std::string>& known) {
    const std::size_t near_enough = std::max<std::size_t>(1, word.size() / 3);
    std::string nearest;
    std::size_t least = near_enough + 1;
    if (word.size() > 200) return nearest;  // no slip of the pen
    for (const std::string& candidate : known) {
        if (const std::size_t distance = edit_distance(word, candidate); distance < least) {
            least = distance;
            nearest = candidate;
        }
    }
    return nearest;
}

TableReader::TableReader(const Node& table, std::string path, Diagnostics& complaints)
    : table_(table), path_(std::move(path)), complaints_(complaints) {}

std::string TableReader::path_of(std::string_view key) const {
    return path_.empty() ? std::string(key) : path_ + '.' + std::string(key);
}

bool TableReader::asked(std::string_view key) const {
    return std::find(asked_.begin(), asked_.end(), key) != asked_.end();
}

const Node* TableReader::any(std::string_view key) {
    if (!asked(key)) asked_.emplace_back(key);
    return table_.find(key);
}

void TableReader::complain(std::string_view key, std::string code, std::string what, std::string remedy) {
    const Node* node = table_.find(key);
    if (node != nullptr && node->kind == Node::Kind::broken) return;
    complaints_.push_back({Fault::bad_input, Severity::error, std::move(code), std::move(what),
                           std::move(remedy), node != nullptr ? node->place : table_.key_place});
}

void TableReader::complain_at(const Node& node, std::string code, std::string what, std::string remedy) {
    if (node.kind == Node::Kind::broken) return;
    complaints_.push_back(
        {Fault::bad_input, Severity::error, std::move(code), std::move(what), std::move(remedy), node.place});
}

void TableReader::refuse_unused(std::string_view kind, const std::vector<std::string>& keys) {
    for (const std::string& key : keys) {
        const Node* node = table_.find(key);
        if (node == nullptr || asked(key)) continue;
        asked_.push_back(key);
        complaints_.push_back({Fault::bad_input, Severity::error, "unused-key",
                               std::string(kind) + " has no '" + key + "'", "remove it", node->key_place});
    }
}

void TableReader::pass_over(const std::vector<std::string>& keys) {
    for (const std::string& key : keys)
        any(key);
}

void TableReader::missing(std::string_view key, std::string_view remedy) {
    std::string where = path_.empty() ? "the file" : '[' + path_ + ']';
    if (path_.ends_with(']')) where = '\'' + path_ + '\'';
    complain(key, "missing-key", where + " has no '" + std::string(key) + "'", std::string(remedy));
}

std::optional<double> TableReader::number(std::string_view key, NumberRange range) {
    const Node* node = any(key);
    if (node == nullptr) return std::nullopt;
    if (node->kind != Node::Kind::number) {
        complain(key, "wrong-type", "'" + path_of(key) + "' is " + kind_name(*node), "give a number");
        return std::nullopt;
    }
    if (!lies_in(node->number, range)) {
        complain(key, "out-of-range", "'" + path_of(key) + "' is " + as_written(node->number),
                 "give " + range_words(range));
        return std::nullopt;
    }
    return node->number;
}

double TableReader::number_or(std::string_view key, double fallback, NumberRange range) {
    return number(key, range).value_or(fallback);
}

double TableReader::required_number(std::string_view key, NumberRange range) {
    const auto value = number(key, range);
    if (!has(key)) missing(key);
    return value.value_or(0.0);
}

std::optional<int> TableReader::whole_number(std::string_view key, int lowest, int highest) {
    const auto value = number(key, {static_cast<double>(lowest), static_cast<double>(highest)});
    if (!value) return std::nullopt;
    if (*value != std::floor(*value)) {
        complain(key, "wrong-type", "'" + path_of(key) + "' is " + shortest_fixed(*value, 9),
                 "give a whole number");
        return std::nullopt;
    }
    return static_cast<int>(*value);
}

std::optional<std::string> TableReader::string(std::string_view key) {
    const Node* node = any(key);
    if (node == nullptr) return std::nullopt;
    if (node->kind != Node::Kind::string) {
        complain(key, "wrong-type", "'" + path_of(key) + "' is " + kind_name(*node), "give a text in quotes");
        return std::nullopt;
    }
    return node->text;
}

std::optional<bool> TableReader::boolean(std::string_view key) {
    const Node* node = any(key);
    if (node == nullptr) return std::nullopt;
    if (node->kind != Node::Kind::boolean) {
        complain(key, "wrong-type", "'" + path_of(key) + "' is " + kind_name(*node), "give true or false");
        return std::nullopt;
    }
    return node->truth;
}

std::vector<std::string> TableReader::strings(std::string_view key) {
    std::vector<std::string> texts;
    const Node* list = array(key);
    if (list == nullptr) return texts;
    for (const Node& item : list->members) {
        if (item.kind == Node::Kind::string) {
            texts.push_back(item.text);
            continue;
        }
        complain_at(item, "wrong-type", "'" + path_of(key) + "' holds " + kind_name(item),
                    "give texts in quotes");
    }
    return texts;
}

std::vector<int> TableReader::whole_numbers(std::string_view key, int lowest, int highest) {
    const Node* list = array(key);
    return list == nullptr ? std::vector<int>{} : whole_items(*list, path_of(key), lowest, highest);
}

std::vector<int> TableReader::whole_items(const Node& list, const std::string& name, int lowest,
                                          int highest) {
    const NumberRange range{static_cast<double>(lowest), static_cast<double>(highest)};
    std::vector<int> values;
    for (const Node& item : list.members) {
        const bool is_number = item.kind == Node::Kind::number;
        const std::string what =
            "'" + name + "' holds " + (is_number ? shortest_fixed(item.number, 9) : kind_name(item));
        if (!is_number || item.number != std::floor(item.number)) {
            complain_at(item, "wrong-type", what, "give whole numbers");
        } else if (!lies_in(item.number, range)) {
            complain_at(item, "out-of-range", what, "give " + range_words(range));
        } else {
            values.push_back(static_cast<int>(item.number));
        }
    }
    return values;
}

std::vector<double> TableReader::numbers(std::string_view key, NumberRange range) {
    std::vector<double> values;
    const Node* list = array(key);
    if (list == nullptr) return values;
    for (const Node& item : list->members) {
        const bool is_number = item.kind == Node::Kind::number;
        if (is_number && lies_in(item.number, range)) {
            values.push_back(item.number);
            continue;
        }
        const std::string what = is_number ? shortest_fixed(item.number, 9) : kind_name(item);
        complain_at(item, is_number ? "out-of-range" : "wrong-type", "'" + path_of(key) + "' holds " + what,
                    is_number ? "give " + range_words(range) : "give numbers");
    }
    return values;
}

std::optional<int> TableReader::choice(std::string_view key, const std::vector<std::string>& words) {
    const Node* node = any(key);
    if (node == nullptr) return std::nullopt;
    const bool is_text = node->kind == Node::Kind::string;
    const auto found = std::find(words.begin(), words.end(), node->text);
    if (is_text && found != words.end()) return static_cast<int>(found - words.begin());
    const std::string nearest = nearest_word(node->text, words);
    complain(key, is_text ? "unknown-word" : "wrong-type",
             "'" + path_of(key) + "' is " + (is_text ? quoted(node->text) : kind_name(*node)),
             nearest.empty() ? "give one of " + listed(words)
                             : "did you mean " + quoted(nearest) + "? Known: " + listed(words));
    return std::nullopt;
}

const Node* TableReader::table(std::string_view key) {
    const Node* node = any(key);
    if (node == nullptr || node->kind == Node::Kind::table) return node;
    complain(key, "wrong-type", "'" + path_of(key) + "' is " + kind_name(*node), "give a table");
    return nullptr;
}

const Node* TableReader::array(std::string_view key) {
    const Node* node = any(key);
    if (node == nullptr || node->kind == Node::Kind::array) return node;
    complain(key, "wrong-type", "'" + path_of(key) + "' is " + kind_name(*node),
             "give a list in square brackets");
    return nullptr;
}

void TableReader::finish() {
    for (const Node& node : table_.members) {
        if (asked(node.key)) continue;
        std::vector<std::string> known = asked_;
        std::sort(known.begin(), known.end());
        const std::string nearest = nearest_word(node.key, known);
        complaints_.push_back(
            {Fault::bad_input, Severity::error, "unknown-key", "unknown key '" + path_of(node.key) + "'",
             nearest.empty() ? "known here: " + listed(known) : "did you mean '" + nearest + "'?",
             node.key_place});
    }
}

}  // namespace lobewright
