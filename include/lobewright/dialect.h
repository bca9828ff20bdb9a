/// A dialect of RS-274 as data: everything the writer obeys and the reader of the proof assumes.
///
/// A dialect is one TOML file (postprocessors/README.md explains it key by key). No code branches on a dialect's name.
#pragma once

#include <lobewright/job.h>
#include <lobewright/toolpath.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// One axis word.
struct AxisWord {
    char letter = 'X';
    int decimals_mm = 4;    ///< rotary: degrees' decimals in both
    int decimals_inch = 5;
    bool diameter = false;  ///< radial only: the word is a diameter
};

enum class RotaryRange {
    runs_on,  ///< any value; each move goes the plain difference
    folded,   ///< words lie in [0, 360): a block goes the shorter way round, so none may be longer than `longest_block`
};

enum class FeedMode { inverse_time, per_minute };
/// How F under per-minute feed counts the way of a block that moves linear and rotary axes.
enum class FeedCounts {
    linear_only,  ///< NIST IR 6556 2.1.2.5: linear axes alone if any moves, degrees if only rotary ones do
    mixed,        ///< sqrt(linear² + degrees²) in the program's units, a degree counting as a unit of length
};
/// What the number after F means in inverse time.
enum class InverseUnit { per_minute, seconds };

enum class CommentStyle { none, parentheses, semicolon };
enum class LineEnd { lf, crlf };

struct Dialect {
    std::string name;
    std::string file;     ///< for messages
    std::string summary;  ///< one line: what it is for

    AxisWord radial, axial, rotary;
    RotaryRange rotary_range = RotaryRange::runs_on;
    double longest_rotary_block = 0.0;  ///< degrees, 0 = no limit
    std::string word_order;             ///< letters in the order they are written within a line, e.g. "NGXZAF"

    /// Words for the modes; empty: the dialect has no word for it, and is always in that state.
    std::string rapid_word = "G0", feed_word = "G1";
    std::string mm_word = "G21", inch_word = "G20";
    std::string absolute_word = "G90";
    std::string diameter_word, radius_word;
    std::string plane_word;
    std::string inverse_time_word, per_minute_word = "G94";
    std::string blend_word;             ///< e.g. "G64 P{tolerance}"; empty: no blending with a tolerance
    std::string exact_path_word;        ///< e.g. "G61"
    std::vector<std::string> work_offset_words;

    FeedMode feed_mode = FeedMode::inverse_time;
    FeedCounts feed_counts = FeedCounts::linear_only;
    InverseUnit inverse_unit = InverseUnit::per_minute;
    int feed_decimals = 3;
    std::optional<double> feed_lowest, feed_highest;  ///< numbers that F may take
    bool repeat_modal_g = false;      ///< write G1 on every line
    bool repeat_axis_words = false;   ///< write axis words that did not change
    bool repeat_feed = true;          ///< inverse time always repeats, whatever this says

    CommentStyle comments = CommentStyle::parentheses;
    bool block_numbers = false;
    int first_number = 10, number_step = 10, largest_number = 99999;
    LineEnd line_end = LineEnd::lf;
    int longest_line = 255;           ///< characters without the line end
    bool percent_lines = false;
    std::string program_number;       ///< e.g. "O1001"; empty: none
    bool decimal_point_always = true; ///< "X1." or "X1.0" rather than "X1"

    std::string spindle_on_cw = "M3", spindle_on_ccw = "M4", spindle_off = "M5";
    std::string coolant_on, coolant_off;
    std::string tool_change;          ///< may hold {tool}
    std::string program_end = "M30";

    /// Lines before and after the moves, with named places in braces; see postprocessors/README.md for the names.
    std::vector<std::string> header, footer;
    /// G and M words that the controller does not have, and words that the reader may pass over as harmless.
    std::vector<std::string> lacks, harmless;
    /// Other notes for `posts`: what the controller cannot do.
    std::vector<std::string> cannot;
};

/// Reads a dialect's TOML text. Unknown keys, wrong types and contradictions are complaints with their places.
Outcome<Dialect> read_dialect(const std::string& text, const std::string& file);

/// The grid and the limits that a path must keep for this dialect in these units.
WordGrid word_grid(const Dialect& dialect, Units units);

}  // namespace lobewright
