#include "base/columns.h"

#include "base/document.h"
#include "base/text/characters.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace lobewright {
namespace {

constexpr std::size_t most_complaints = 100;

struct Cell {
    std::string_view text;
    int column = 0;  ///< in characters, from 1
};

bool is_blank(char c) {
    return c == ' ' || c == '\t';
}

std::string_view without_blanks(std::string_view text) {
    while (!text.empty() && is_blank(text.front()))
        text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back()))
        text.remove_suffix(1);
    return text;
}

/// The text between the separators; one in double quotes (RFC 4180) without these, and a separator between
/// them is part of it.
std::vector<Cell> cells_of(std::string_view line, char separator) {
    std::vector<Cell> cells;
    std::size_t start = 0;
    bool in_quotes = false;
    for (std::size_t end = 0; end <= line.size(); ++end) {
        if (end < line.size() && line[end] == '"') in_quotes = !in_quotes;
        if (end < line.size() && (in_quotes || line[end] != separator)) continue;
        std::string_view text = without_blanks(line.substr(start, end - start));
        if (text.size() >= 2 && text.front() == '"' && text.back() == '"')
            text = without_blanks(text.substr(1, text.size() - 2));
        const std::size_t place = static_cast<std::size_t>(text.data() - line.data());
        cells.push_back({text, static_cast<int>(characters(line.substr(0, place))) + 1});
        start = end + 1;
    }
    return cells;
}

char separator_of(std::string_view header) {
    for (const char separator : {'\t', ';'})
        if (header.find(separator) != std::string_view::npos) return separator;
    return ',';
}

/// The whole cell as a finite number; from_chars knows no locale.
std::optional<double> number_in(std::string_view cell) {
    if (cell.starts_with('+') && !cell.starts_with("+-")) cell.remove_prefix(1);
    if (cell.empty() || cell.find_first_not_of("0123456789.+-eE") != std::string_view::npos)
        return std::nullopt;
    double value = 0.0;
    const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
    if (error != std::errc{} || end != cell.data() + cell.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

/// Likewise of one with a decimal comma.
std::optional<double> number_with_comma(std::string_view cell) {
    std::string text(cell);
    std::replace(text.begin(), text.end(), ',', '.');
    return cell.find('.') == std::string_view::npos ? number_in(text) : std::nullopt;
}

/// A cell as a message may show it.
std::string shown(std::string_view cell) {
    constexpr std::size_t most = 40;
    std::size_t end = std::min(cell.size(), most);
    while (end < cell.size() && (static_cast<unsigned char>(cell[end]) & 0xC0u) == 0x80u)
        ++end;
    return '"' + printable(cell.substr(0, end)) + (end < cell.size() ? "..." : "") + '"';
}

class ColumnReader {
  public:
    ColumnReader(const std::string& file, const ColumnRules& rules) : file_(file), rules_(rules) {}

    /// Takes the text line by line, without its comments and line ends.
    void line(std::string_view text) {
        ++line_;
        text = text.substr(0, text.find('#'));
        while (!text.empty() && is_blank(text.back()))
            text.remove_suffix(1);
        const auto first = std::find_if_not(text.begin(), text.end(), is_blank);
        if (first == text.end() || full()) return;
        if (separator_) return row(text);
        separator_ = separator_of(text);
        if (rules_.heading.empty()) return header(cells_of(text, *separator_));
        header(given_cells());
        if (!holds_words(text)) row(text);
    }

    Outcome<Columns> finish() {
        if (!separator_) {
            line_ = std::max(line_, 1);
            complain(1, "no-header", "there is no header", "the first line names the columns: " + wanted());
        }
        if (full()) complain(1, "too-many", "there are too many bad lines to list", "mend these first");
        if (!complaints_.empty()) return std::move(complaints_);
        return std::move(columns_);
    }

  private:
    static constexpr const char* passed_over = "-";

    [[nodiscard]] bool full() const { return complaints_.size() >= most_complaints; }

    [[nodiscard]] std::string wanted() const {
        std::string text;
        for (const std::string& name : rules_.required)
            text += (text.empty() ? "" : ",") + name;
        return text;
    }

    void complain(int column, std::string code, std::string what, std::string remedy) {
        complaints_.push_back({Fault::bad_input,
                               Severity::error,
                               std::move(code),
                               std::move(what),
                               std::move(remedy),
                               {file_, line_, column}});
    }

    [[nodiscard]] std::vector<Cell> given_cells() const {
        std::vector<Cell> cells;
        for (const std::string& name : rules_.heading)
            cells.push_back({name, 1});
        return cells;
    }

    void header(const std::vector<Cell>& cells) {
        const std::string cure = rules_.heading.empty() ? "the first line names the columns: " + wanted()
                                                        : "name the columns: " + wanted();
        for (const Cell& cell : cells) {
            const std::string name(cell.text);
            const bool passed = !rules_.heading.empty() && name == passed_over;
            if (!passed && columns_.find(name))
                complain(cell.column, "doubled-column", shown(name) + " is there twice", "keep one");
            columns_.names.push_back(name);
            const auto& known = rules_.known;
            if (passed || std::find(known.begin(), known.end(), name) != known.end()) continue;
            const std::string nearest = nearest_word(name, known);
            complain(cell.column, "unknown-column", shown(name) + " is no column that is known here",
                     nearest.empty() ? cure : "did you mean \"" + nearest + "\"?");
        }
        for (const std::string& name : rules_.required) {
            if (!columns_.find(name))
                complain(1, "missing-column", "there is no column \"" + name + '"', cure);
        }
        broken_header_ = !complaints_.empty();
    }

    [[nodiscard]] bool is_number(std::size_t column) const {
        return columns_.names[column] != rules_.words && columns_.names[column] != passed_over;
    }

    /// Whether a first line is the file's own heading: words where numbers should stand.
    [[nodiscard]] bool holds_words(std::string_view text) const {
        const std::vector<Cell> cells = cells_of(text, *separator_);
        for (std::size_t i = 0; i < std::min(cells.size(), columns_.names.size()); ++i) {
            if (is_number(i) && !number_in(cells[i].text) && !number_with_comma(cells[i].text)) return true;
        }
        return false;
    }

    void row(std::string_view text) {
        if (broken_header_) return;
        const std::vector<Cell> cells = cells_of(text, *separator_);
        if (cells.size() != columns_.names.size()) {
            return complain(1, "row-length",
                            "the line has " + std::to_string(cells.size()) +
                                (cells.size() == 1 ? " cell, " : " cells, ") +
                                (rules_.heading.empty() ? "the header " : "the columns named are ") +
                                std::to_string(columns_.names.size()),
                            separator_ == ','
                                ? "make them agree; with decimal commas, separate them by semicolons or tabs"
                                : "make them agree");
        }
        ColumnRow row{{file_, line_, cells.front().column}, {}};
        row.cells.reserve(cells.size());
        for (std::size_t i = 0; i < cells.size(); ++i) {
            if (!is_number(i)) {
                if (columns_.names[i] == rules_.words) row.words = std::string(cells[i].text);
                row.cells.push_back(0.0);
            } else if (const auto value = number(cells[i])) {
                row.cells.push_back(*value);
            }
        }
        if (row.cells.size() == cells.size()) columns_.rows.push_back(std::move(row));
    }

    /// Complains where there is none.
    std::optional<double> number(const Cell& cell) {
        const bool comma = cell.text.find(',') != std::string_view::npos;
        const bool allowed = comma && separator_ != ',';
        const auto value = allowed ? number_with_comma(cell.text) : number_in(cell.text);
        if (!value) {
            complain(
                cell.column, "not-a-number",
                cell.text.empty() ? "there is nothing in this cell" : shown(cell.text) + " is not a number",
                comma && !allowed ? "write the decimals with a point" : "give a number such as 1.25");
        } else if (comma || cell.text.find('.') != std::string_view::npos) {
            return with_one_mark(cell, comma ? ',' : '.', *value);
        }
        return value;
    }

    /// A comma may part thousands where others have decimal points: that is not guessed at.
    std::optional<double> with_one_mark(const Cell& cell, char mark, double value) {
        if (!decimal_mark_) decimal_mark_ = mark, marked_in_ = line_;
        if (decimal_mark_ == mark) return value;
        complain(cell.column, "mixed-decimals",
                 shown(cell.text) + " has a decimal " + (mark == ',' ? "comma" : "point") + ", line " +
                     std::to_string(marked_in_) + " a " + (mark == ',' ? "point" : "comma"),
                 "write all numbers alike");
        return std::nullopt;
    }

    const std::string& file_;
    const ColumnRules& rules_;
    Columns columns_;
    Diagnostics complaints_;
    int line_ = 0;
    std::optional<char> separator_;
    std::optional<char> decimal_mark_;
    int marked_in_ = 0;
    bool broken_header_ = false;
};

}  // namespace

std::optional<std::size_t> Columns::find(const std::string& name) const {
    const auto found = std::find(names.begin(), names.end(), name);
    return found == names.end() ? std::nullopt
                                : std::optional(static_cast<std::size_t>(found - names.begin()));
}

Outcome<Columns> read_columns(const std::string& text, const std::string& file, const ColumnRules& rules) {
    ColumnReader reader(file, rules);
    std::string_view rest = text;
    if (rest.starts_with("\xEF\xBB\xBF")) rest.remove_prefix(3);
    while (!rest.empty()) {
        const std::size_t end = std::min(rest.find_first_of("\r\n"), rest.size());
        reader.line(rest.substr(0, end));
        const std::size_t ended_by = rest.substr(end).starts_with("\r\n") ? 2 : 1;
        rest.remove_prefix(std::min(end + ended_by, rest.size()));
    }
    return reader.finish();
}

}  // namespace lobewright
