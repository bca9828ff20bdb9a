#include "post/dialect/dialect_checks.h"

namespace lobewright {
namespace {

std::string name_of(const std::string& file) {
    const auto folder = file.find_last_of("/\\");
    std::string name = folder == std::string::npos ? file : file.substr(folder + 1);
    const std::string ending = ".toml";
    if (name.size() > ending.size() && name.ends_with(ending)) name.erase(name.size() - ending.size());
    return name;
}

void read_text(TableReader& table, std::string_view key, std::string& into) {
    if (auto text = table.string(key)) into = *text;
}

void read_flag(TableReader& table, std::string_view key, bool& into) {
    if (const auto flag = table.boolean(key)) into = *flag;
}

void read_count(TableReader& table, std::string_view key, int lowest, int highest, int& into) {
    if (const auto count = table.whole_number(key, lowest, highest)) into = *count;
}

void read_lines(TableReader& table, std::string_view key, std::vector<std::string>& into) {
    if (table.has(key)) into = table.strings(key);
}

/// The index of the word that stands there, turned into the enum whose values are in the order of `words`.
template <class Enum>
void read_choice(TableReader& table, std::string_view key, const std::vector<std::string>& words,
                 Enum& into) {
    if (const auto index = table.choice(key, words)) into = static_cast<Enum>(*index);
}

constexpr int most_decimals = 6;

void read_letter(TableReader& axis, AxisWord& word) {
    const auto letter = axis.string("letter");
    if (!letter) {
        if (!axis.has("letter")) axis.missing("letter");
        return;
    }
    if (letter->size() == 1 &&
        std::string_view("XYZUVWABC").find(letter->front()) != std::string_view::npos) {
        word.letter = letter->front();
        return;
    }
    axis.complain("letter", "not-an-axis", "\"" + *letter + "\" is not an axis letter",
                  "write one of X, Y, Z, U, V, W, A, B, C, in capitals");
}

void read_linear_axis(TableReader& axis, bool radial, AxisWord& word) {
    read_letter(axis, word);
    read_count(axis, "decimals_mm", 0, most_decimals, word.decimals_mm);
    read_count(axis, "decimals_inch", 0, most_decimals, word.decimals_inch);
    if (radial) read_flag(axis, "diameter", word.diameter);
    axis.finish();
}

void read_rotary_axis(TableReader& axis, Dialect& dialect) {
    read_letter(axis, dialect.rotary);
    read_count(axis, "decimals", 0, most_decimals, dialect.rotary.decimals_mm);
    dialect.rotary.decimals_inch = dialect.rotary.decimals_mm;
    read_choice(axis, "range", {"runs-on", "folded"}, dialect.rotary_range);
    read_choice(axis, "at_fold", {"shorter-way", "by-sign"}, dialect.at_fold);
    dialect.longest_rotary_block = axis.number_or("longest_block", 0.0, not_negative);
    dialect.largest_rotary = axis.number_or("largest", 0.0, not_negative);
    if (const auto index = axis.choice("precision", {"single", "double"}))
        dialect.reckoning = *index == 0 ? Reckoning::single_precision : Reckoning::double_precision;
    axis.finish();
}

void read_side_axis(TableReader& axes, Dialect& dialect, Diagnostics& complaints) {
    const Node* node = axes.table("side");
    if (node == nullptr) return;
    TableReader axis(*node, axes.path_of("side"), complaints);
    SideAxis side;
    if (!axis.has("positive"))
        axis.missing("positive",
                     "say which way its word grows, seen from the drive end with the cutter ahead: \"ccw\" "
                     "or \"cw\"");
    read_choice(axis, "positive", {"ccw", "cw"}, side.positive);
    read_linear_axis(axis, false, side.word);
    dialect.side = side;
}

void read_axes(TableReader& axes, Dialect& dialect, Diagnostics& complaints) {
    for (const char* key : {"radial", "axial", "rotary"}) {
        const Node* node = axes.table(key);
        if (node == nullptr) {
            if (!axes.has(key))
                axes.missing(key, "say its letter: " + std::string(key) + " = { letter = \"" +
                                      (key == std::string_view("rotary")  ? "A"
                                       : key == std::string_view("axial") ? "Z"
                                                                          : "X") +
                                      "\" }");
            continue;
        }
        TableReader axis(*node, axes.path_of(key), complaints);
        if (key == std::string_view("rotary")) {
            read_rotary_axis(axis, dialect);
        } else {
            const bool radial = key == std::string_view("radial");
            read_linear_axis(axis, radial, radial ? dialect.radial : dialect.axial);
        }
    }
    read_side_axis(axes, dialect, complaints);
    axes.finish();
}

void read_words(TableReader& words, Dialect& dialect) {
    read_text(words, "order", dialect.word_order);
    read_text(words, "rapid", dialect.rapid_word);
    read_text(words, "feed", dialect.feed_word);
    read_text(words, "mm", dialect.mm_word);
    read_text(words, "inch", dialect.inch_word);
    if (const auto index = words.choice("only_units", {"mm", "inch"})) {
        dialect.only_units = static_cast<Units>(*index);
    }
    read_text(words, "absolute", dialect.absolute_word);
    read_text(words, "diameter", dialect.diameter_word);
    read_text(words, "radius", dialect.radius_word);
    read_text(words, "plane", dialect.plane_word);
    read_lines(words, "cancel", dialect.cancel_words);
    read_lines(words, "work_offsets", dialect.work_offset_words);
    read_text(words, "blend", dialect.blend_word);
    read_text(words, "exact_path", dialect.exact_path_word);
    read_flag(words, "repeat_motion", dialect.repeat_modal_g);
    read_flag(words, "repeat_axes", dialect.repeat_axis_words);
    read_flag(words, "decimal_point_always", dialect.decimal_point_always);
    read_flag(words, "keep_zeros", dialect.keep_zeros);
    read_flag(words, "decimal_comma", dialect.decimal_comma);
    read_lines(words, "lacks", dialect.lacks);
    read_lines(words, "harmless", dialect.harmless);
    words.finish();
}

void read_feed(TableReader& feed, Dialect& dialect) {
    read_choice(feed, "mode", {"inverse-time", "per-minute"}, dialect.feed_mode);
    read_text(feed, "inverse_time", dialect.inverse_time_word);
    read_text(feed, "per_minute", dialect.per_minute_word);
    read_choice(feed, "inverse_unit", {"per-minute", "seconds"}, dialect.inverse_unit);
    if (const auto index = feed.choice("counts", {"linear-only", "mixed"})) {
        dialect.feed_counts = static_cast<FeedCounts>(*index);
    }
    read_count(feed, "decimals", 0, most_decimals, dialect.feed_decimals);
    dialect.feed_lowest = feed.number("lowest", positive);
    dialect.feed_highest = feed.number("highest", positive);
    dialect.least_linear_feed = feed.number_or("least_linear", 0.0, not_negative);
    read_flag(feed, "repeat", dialect.repeat_feed);
    feed.finish();
}

void read_layout_of_lines(TableReader& lines, Dialect& dialect) {
    read_choice(lines, "comments", {"none", "parentheses", "semicolon"}, dialect.comments);
    read_flag(lines, "upper_case", dialect.upper_case);
    read_flag(lines, "numbers", dialect.block_numbers);
    read_count(lines, "first_number", 0, 99999999, dialect.first_number);
    read_count(lines, "number_step", 1, 1000, dialect.number_step);
    read_count(lines, "largest_number", 1, 99999999, dialect.largest_number);
    read_choice(lines, "end", {"lf", "crlf"}, dialect.line_end);
    read_count(lines, "longest", 30, 10000, dialect.longest_line);
    read_count(lines, "longest_program", 1000, 1000000000, dialect.longest_program);
    read_flag(lines, "spaces", dialect.spaces);
    read_flag(lines, "percent", dialect.percent_lines);
    lines.finish();
}

void read_program_lines(TableReader& program, Dialect& dialect) {
    read_text(program, "number", dialect.program_number);
    read_text(program, "spindle_cw", dialect.spindle_on_cw);
    read_text(program, "spindle_ccw", dialect.spindle_on_ccw);
    read_text(program, "spindle_off", dialect.spindle_off);
    read_text(program, "spindle_wait", dialect.spindle_wait);
    read_text(program, "coolant_on", dialect.coolant_on);
    read_text(program, "coolant_off", dialect.coolant_off);
    read_text(program, "tool_change", dialect.tool_change);
    read_text(program, "stop", dialect.stop);
    read_text(program, "length_on", dialect.length_on);
    read_text(program, "length_off", dialect.length_off);
    read_lines(program, "home", dialect.home);
    read_text(program, "end", dialect.program_end);
    read_lines(program, "header", dialect.header);
    read_lines(program, "footer", dialect.footer);
    program.finish();
}

/// Calls `read` on the table `key`, where it is there; complains where it is missing and needed.
template <class Read>
void read_table(TableReader& top, std::string_view key, bool needed, Diagnostics& complaints, Read read) {
    if (const Node* node = top.table(key)) {
        TableReader table(*node, std::string(key), complaints);
        read(table);
    } else if (needed && !top.has(key)) {
        top.missing(key, "add the table [" + std::string(key) + "]");
    }
}

Dialect read_tables(const Node& document, const std::string& file, Diagnostics& complaints) {
    Dialect dialect;
    dialect.name = name_of(file);
    dialect.file = file;
    TableReader top(document, "", complaints);
    if (!top.has("layout")) top.missing("layout", "begin the file with layout = 1");
    const auto layout = top.number("layout");
    if (layout && *layout != 1.0)
        top.complain("layout", "layout", "this file's layout is not 1",
                     "this program reads layout = 1 alone");
    if (!top.has("summary")) top.missing("summary", "say in one line what the dialect is for");
    read_text(top, "summary", dialect.summary);
    read_lines(top, "cannot", dialect.cannot);
    read_table(top, "axes", true, complaints, [&](TableReader& t) { read_axes(t, dialect, complaints); });
    read_table(top, "words", false, complaints, [&](TableReader& t) { read_words(t, dialect); });
    read_table(top, "feed", true, complaints, [&](TableReader& t) { read_feed(t, dialect); });
    read_table(top, "lines", false, complaints, [&](TableReader& t) { read_layout_of_lines(t, dialect); });
    read_table(top, "program", false, complaints, [&](TableReader& t) { read_program_lines(t, dialect); });
    top.finish();
    return dialect;
}

}  // namespace

Outcome<Dialect> read_dialect(const std::string& text, const std::string& file) {
    auto [root, complaints] = parse_document(text, file);
    if (!root) return complaints;
    Dialect dialect = read_tables(*root, file, complaints);
    if (!has_errors(complaints)) post::check_dialect(dialect, *root, complaints);
    if (has_errors(complaints)) return complaints;
    return {std::move(dialect), std::move(complaints)};
}

}  // namespace lobewright
