/// A text of columns of numbers with a header: separated by `,` `;` or tab, lines from `#` on are comments.
#pragma once

#include <lobewright/diagnostic.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

struct ColumnRow {
    Place place;                ///< of its first cell
    std::vector<double> cells;  ///< one for each column, always finite
};

struct Columns {
    std::vector<std::string> names;  ///< as the header has them
    std::vector<ColumnRow> rows;     ///< in the file's order

    /// The index of a column; nothing if the header hasn't it.
    [[nodiscard]] std::optional<std::size_t> find(const std::string& name) const;
};

/// The separator is a tab if the header has one, else `;` if it has one, else `,`. Spaces and double quotes
/// round a cell, a byte order mark and the kind of line ends don't matter. Numbers have a point, and may have
/// an exponent. Refuses by line and column: an unknown or doubled or missing column, a row of another length,
/// a cell that is no number; after a hundred bad lines it stops.
Outcome<Columns> read_columns(const std::string& text, const std::string& file,
                              const std::vector<std::string>& required,
                              const std::vector<std::string>& known);

}  // namespace lobewright
