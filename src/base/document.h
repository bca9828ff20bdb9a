/// TOML as our own tree: every value remembers its place, tables keep the file's order.
///
/// The one door to the TOML library, hardened: no text makes it abort. All readers of TOML files go through
/// here.
#pragma once

#include <lobewright/diagnostic.h>

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lobewright {

/// One value of a TOML text.
struct Node {
    /// broken: not to be read, and complained about already; readers pass over it in silence.
    enum class Kind { table, array, string, number, boolean, other, broken };
    Kind kind = Kind::table;
    Place place;      ///< of the value
    Place key_place;  ///< of its key; of the value itself for an array's item
    std::string key;
    std::string text;           ///< string, without control characters
    double number = 0.0;        ///< number, always finite
    bool whole = false;         ///< number: written as an integer
    bool truth = false;         ///< boolean
    std::vector<Node> members;  ///< table: in the file's order; array: its items

    [[nodiscard]] const Node* find(std::string_view name) const;
};

/// A text as a tree, with all that is wrong with it as TOML.
struct Document {
    std::optional<Node>
        root;  ///< nothing where the text can't be taken apart at all: there are complaints then
    Diagnostics complaints;  ///< each with its line; what they are about is broken in the tree
};

/// Complains about: not UTF-8, control characters (as escapes in texts too), larger than 4 MiB, TOML syntax
/// errors, repeated keys, inf and nan. A line of one key with a broken value is passed over, so that the rest
/// is read. `lists` names the tables of which there may be several, as "lobe" or "shaft.journal": where they
/// stand in single brackets, the complaint says so.
Document parse_document(const std::string& text, const std::string& file,
                        const std::vector<std::string>& lists = {});

/// Of `known`, the one nearest to `word` by edit distance (a swap of neighbours counts as one), if near
/// enough to be a slip of the pen: at most a third of the word's length, at least 1. Empty if none is.
std::string nearest_word(std::string_view word, const std::vector<std::string>& known);
/// "a", "b", "c": words in quotes, for a complaint.
std::string listed(const std::vector<std::string>& words);
/// A number as people write it: as few digits as tell it from its neighbours, with an exponent where it is
/// very small or very large.
std::string as_written(double value);
/// What a value is, in words: "a number", "a text", ...
std::string kind_name(const Node& node);

/// A range that a number must lie in, with the words for it in a complaint.
struct NumberRange {
    double lowest;
    double highest;
    bool lowest_allowed = true;
    bool highest_allowed = true;
};
inline constexpr NumberRange any_figure{-1e9, 1e9};
inline constexpr NumberRange positive{0.0, 1e9, false};
inline constexpr NumberRange not_negative{0.0, 1e9};

/// Walks one table: asks for its keys by name and kind, collects complaints, and at the end complains about
/// every key that nobody asked for, naming the nearest one that exists.
class TableReader {
  public:
    /// `path` is the table's name in messages and in places: "profile.inlet"; empty for the whole file.
    TableReader(const Node& table, std::string path, Diagnostics& complaints);

    std::optional<double> number(std::string_view key, NumberRange range = any_figure);
    double number_or(std::string_view key, double fallback, NumberRange range = any_figure);
    /// Complains if the key is absent.
    double required_number(std::string_view key, NumberRange range = any_figure);
    std::optional<int> whole_number(std::string_view key, int lowest, int highest);
    std::optional<std::string> string(std::string_view key);
    std::optional<bool> boolean(std::string_view key);
    std::vector<std::string> strings(std::string_view key);
    std::vector<double> numbers(std::string_view key, NumberRange range = any_figure);
    std::vector<int> whole_numbers(std::string_view key, int lowest, int highest);
    /// The items of a list, `name` in messages, as whole numbers; complains about each that is none.
    std::vector<int> whole_items(const Node& list, const std::string& name, int lowest, int highest);
    /// One of `words`; the index of the one that stands there. Complains with the list and the nearest of
    /// them.
    std::optional<int> choice(std::string_view key, const std::vector<std::string>& words);
    const Node* table(std::string_view key);
    const Node* array(std::string_view key);
    /// The raw value, for keys that may be of several kinds.
    const Node* any(std::string_view key);
    [[nodiscard]] bool has(std::string_view key) const { return table_.find(key) != nullptr; }

    /// Complains that `key` is absent, at the table's place.
    void missing(std::string_view key, std::string_view remedy = "add it");
    /// Complains about a value (or, where the key is absent, about the table); not about a broken one.
    void complain(std::string_view key, std::string code, std::string what, std::string remedy);
    /// Complains about `node`, one of this table's values or something inside it.
    void complain_at(const Node& node, std::string code, std::string what, std::string remedy);
    /// Complains about every key of `keys` that stands here though nobody asked for it: it belongs to other
    /// kinds than `kind` ("a flat follower").
    void refuse_unused(std::string_view kind, const std::vector<std::string>& keys);
    /// Counts `keys` as asked for, where a broken key leaves it open which of them belong here.
    void pass_over(const std::vector<std::string>& keys);
    /// Call last: complains about the keys that nobody asked for.
    void finish();

    [[nodiscard]] const std::string& path() const { return path_; }
    [[nodiscard]] std::string path_of(std::string_view key) const;

  private:
    [[nodiscard]] bool asked(std::string_view key) const;

    const Node& table_;
    std::string path_;
    Diagnostics& complaints_;
    std::vector<std::string> asked_;
};

}  // namespace lobewright
