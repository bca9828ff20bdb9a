/// One table of the job file: lengths come out in millimetres, angles in their own frame's type.
#pragma once

#include "base/document.h"

#include <lobewright/job.h>
#include <lobewright/job_file.h>

#include <algorithm>
#include <set>

namespace lobewright {

/// Ranges of lengths, in mm whatever the file's units; ten metres is more than any camshaft, and a micrometre
/// less than the size of anything on one.
inline constexpr NumberRange any_length{-1e4, 1e4};
inline constexpr NumberRange positive_length{1e-3, 1e4};
inline constexpr NumberRange length_or_none{0.0, 1e4};
inline constexpr NumberRange any_direction{-360.0, 360.0};

/// What all parts of the reader share: the file's tree, the job that grows from it, and the complaints.
struct JobReading {
    const Node& root;
    const ReadNeighbour& neighbour;
    Job& job;
    Diagnostics& complaints;
    /// Items of lists that were complained about, "lobe[3]", or whole lists, "lobe".
    std::set<std::string> unsound = {};
};

class JobTable : public TableReader {
  public:
    JobTable(const Node& table, std::string path, JobReading& reading);

    /// A length (or a speed, an acceleration along a length), in mm; `range` is in mm too.
    std::optional<double> length(std::string_view key, NumberRange range);
    double length_or(std::string_view key, double fallback, NumberRange range);
    double required_length(std::string_view key, NumberRange range);

    /// Degrees in the file.
    template <class A>
    std::optional<A> angle(std::string_view key, NumberRange range) {
        const auto degrees = number(key, range);
        return degrees ? std::optional(A::from_degrees(*degrees)) : std::nullopt;
    }
    template <class A>
    A angle_or(std::string_view key, A fallback, NumberRange range) {
        return angle<A>(key, range).value_or(fallback);
    }
    template <class A>
    A required_angle(std::string_view key, NumberRange range) {
        return A::from_degrees(required_number(key, range));
    }

    /// One of `words`, as the enum whose values stand in their order; nothing if it is absent or none of
    /// them.
    template <class Enum>
    std::optional<Enum> choose(std::string_view key, const std::vector<std::string>& words) {
        const auto index = choice(key, words);
        return index ? std::optional(static_cast<Enum>(*index)) : std::nullopt;
    }
    /// As `choose`; complains if the key is absent.
    template <class Enum>
    std::optional<Enum> required_choice(std::string_view key, const std::vector<std::string>& words) {
        if (!has(key)) missing(key, "add one of " + listed(words));
        return choose<Enum>(key, words);
    }
    /// Complains if the key is absent or the text empty.
    std::string required_string(std::string_view key);

    /// Complains if a group of named tables, or a list of tables, has more than `most`: so many of anything
    /// stand in no shop, and would keep the program at work for longer than anybody waits.
    void refuse_many(const Node& tables, const std::string& path, std::size_t most);

    JobReading& reading() { return reading_; }

  private:
    JobReading& reading_;
};

inline const std::vector<std::string> sense_words = {"ccw", "cw"};

/// The most tables of one group, and the most of a list; README tells them.
inline constexpr std::size_t most_named = 50, most_listed = 200;

/// Calls read(name, JobTable&) for each table of the table `group` ("profile" has [profile.inlet], ...), in
/// the file's order.
template <class Read>
void read_named(JobTable& file, std::string_view group, Read read) {
    const Node* tables = file.table(group);
    if (tables == nullptr) return;
    file.refuse_many(*tables, std::string(group), most_named);
    for (const Node& node : tables->members) {
        const std::string path = std::string(group) + '.' + node.key;
        if (node.kind == Node::Kind::table) {
            JobTable table(node, path, file.reading());
            read(node.key, table);
            table.finish();
        } else {
            file.complain_at(node, "wrong-type", "'" + path + "' is " + kind_name(node),
                             "write a table: [" + path + "]");
        }
    }
}

/// Whether one of the table's values was complained about when the text was taken apart.
inline bool has_broken_value(const Node& table) {
    return std::any_of(table.members.begin(), table.members.end(),
                       [](const Node& node) { return node.kind == Node::Kind::broken; });
}

/// Calls read(JobTable&) for each table of the list `key`, in the file's order.
template <class Read>
void read_list(JobTable& table, std::string_view key, Read read, std::size_t most = most_listed) {
    const Node* list = table.array(key);
    if (list == nullptr) return;
    table.refuse_many(*list, table.path_of(key), most);
    JobReading& reading = table.reading();
    for (std::size_t i = 0; i < list->members.size(); ++i) {
        const Node& node = list->members[i];
        const std::string path = table.path_of(key) + '[' + std::to_string(i) + ']';
        const std::size_t before = reading.complaints.size();
        if (node.kind == Node::Kind::table) {
            JobTable item(node, path, reading);
            read(item);
            item.finish();
            if (reading.complaints.size() > before || has_broken_value(node)) reading.unsound.insert(path);
        } else {
            reading.unsound.insert(table.path_of(key));
            table.complain_at(node, "wrong-type", "'" + path + "' is " + kind_name(node),
                              "write tables: [[" + table.path_of(key) + "]]");
        }
    }
}

}  // namespace lobewright
