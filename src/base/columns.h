/// A text of columns of numbers with a header: separated by `,` `;` or tab, lines from `#` on are comments.
#pragma once

#include <lobewright/diagnostic.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

struct ColumnRow {
    Place place;                ///< of its first cell
    std::vector<double> cells;  ///< one for each column, always finite; 0 in a column of words
    std::string words = {};     ///< of the column of words, if there is one
};

struct Columns {
    std::vector<std::string> names;  ///< as the header has them
    std::vector<ColumnRow> rows;     ///< in the file's order

    /// The index of a column; nothing if the header hasn't it.
    [[nodiscard]] std::optional<std::size_t> find(const std::string& name) const;
};

/// What the columns may be.
struct ColumnRules {
    std::vector<std::string> required;
    std::vector<std::string> known;  ///< the required ones too
    std::string words = {};          ///< the one column that holds words, by name; empty: none does
    /// Names of the columns in place of the file's own heading, "-" for one that is passed over. A first line
    /// that doesn't hold numbers where they should stand is then the file's own heading, and passed over,
    /// too.
    std::vector<std::string> heading = {};
};

/// The separator is a tab if the first line has one, else `;` if it has one, else `,`. Spaces and double
/// quotes round a cell, a byte order mark and the kind of line ends don't matter. Numbers have a point, or,
/// where the separator isn't `,`, a decimal comma, but not both in one file; they may have an exponent.
/// Refuses by line and column: an unknown or doubled or missing column, a row of another length, a cell that
/// is no number; after a hundred bad lines it stops.
Outcome<Columns> read_columns(const std::string& text, const std::string& file, const ColumnRules& rules);

}  // namespace lobewright
