/// A dialect of RS-274 as data: everything the writer obeys and the reader of the proof assumes.
///
/// A dialect is one TOML file (postprocessors/README.md explains it key by key). No code branches on a
/// dialect's name.
#pragma once

#include <lobewright/job.h>
#include <lobewright/word_grid.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// One axis word.
struct AxisWord {
    char letter = 'X';
    int decimals_mm = 4;  ///< rotary: degrees' decimals in both
    int decimals_inch = 5;
    bool diameter = false;  ///< radial only: the word is a diameter
};

/// The axis that moves the cutter sideways past the shaft, and the way in which its word grows, seen from the
/// drive end with the cutter ahead: ccw is towards φ + 90°, the way in which cut.side_shift counts.
struct SideAxis {
    AxisWord word{'Y'};
    Sense positive = Sense::ccw;
};

enum class RotaryRange {
    runs_on,  ///< any value up to `largest_rotary`; each move goes the plain difference
    folded,   ///< the controller knows directions only: a move's way follows from `at_fold`
};
/// How a controller with a folded rotary axis gets to a direction.
enum class RotaryFold {
    shorter_way,  ///< words lie in [0, 360); the shorter way round; longest_rotary_block is below 180
    by_sign,  ///< words lie in [-360, 360], never 0: to the direction |word| (mod 360), in the + sense where
              ///< the word is positive, in the - sense where negative; to where it stands already: no motion
};

/// The binary fractions in which a controller reckons, as far as the dialect says.
enum class Reckoning { unknown, single_precision, double_precision };
/// Degrees up to which single precision (IEEE 754: 24 bits) holds a rotary word to 0.001 degrees: its steps
/// are 2^-10 below, and 2^-9 from there on.
inline constexpr double single_precision_reach = 16384.0;

enum class FeedMode { inverse_time, per_minute };
/// How F under per-minute feed counts the way of a block that moves linear and rotary axes. The radial axis
/// counts as a radius, also where its word is a diameter.
enum class FeedCounts {
    linear_only,  ///< NIST IR 6556 2.1.2.5: linear axes alone if any moves, degrees if only rotary ones do
    mixed,  ///< sqrt(linear² + degrees²) in the program's units, a degree counting as a unit of length
};
/// What the number after F means in inverse time.
enum class InverseUnit { per_minute, seconds };

enum class CommentStyle { none, parentheses, semicolon };
enum class LineEnd { lf, crlf };

struct Dialect {
    std::string name;     ///< the file's name without folder and ending
    std::string file;     ///< for messages
    std::string summary;  ///< one line: what it is for

    AxisWord radial{'X'}, axial{'Z'}, rotary{'A'};
    std::optional<SideAxis> side;  ///< none: that slide is set by hand, and locked
    RotaryRange rotary_range = RotaryRange::runs_on;
    RotaryFold at_fold = RotaryFold::shorter_way;  ///< folded only
    double longest_rotary_block =
        0.0;                      ///< degrees in one block, 0 = no limit; folded: below 180 (by_sign: 360)
    double largest_rotary = 0.0;  ///< degrees, running on: the largest word in size, 0 = no limit
    Reckoning reckoning = Reckoning::unknown;
    std::string word_order = "NGXZAFSTM";  ///< letters in the order they are written within a line

    /// Words for the modes; empty: the dialect has no word for it, and is always in that state.
    std::string rapid_word = "G0", feed_word = "G1";
    std::string mm_word = "G21", inch_word = "G20";
    std::optional<Units> only_units;  ///< the controller reads this unit alone (and may have no word for it)
    std::string absolute_word = "G90";
    std::string diameter_word, radius_word;
    std::string plane_word;
    std::vector<std::string> cancel_words;  ///< what the header puts out of action, e.g. G40 G49 G80
    std::string inverse_time_word, per_minute_word = "G94";
    std::string blend_word;       ///< e.g. "G64 P{tolerance}"; empty: no blending with a tolerance
    std::string exact_path_word;  ///< e.g. "G61"
    std::vector<std::string> work_offset_words;  ///< the header writes the first; the reader knows all

    FeedMode feed_mode = FeedMode::inverse_time;
    std::optional<FeedCounts>
        feed_counts;  ///< none: unknown, so that a block of linear and rotary has no known time
    InverseUnit inverse_unit = InverseUnit::per_minute;
    int feed_decimals = 3;
    std::optional<double> feed_lowest, feed_highest;  ///< numbers that F may take
    /// Inverse time: where a block's length of linear motion times F lies below this, the controller raises F
    /// until it doesn't; in units of length by the minute. 0: it never does, and a block without linear
    /// motion is never touched.
    double least_linear_feed = 0.0;
    bool repeat_modal_g = false;     ///< write G1 on every line
    bool repeat_axis_words = false;  ///< write axis words that did not change
    bool repeat_feed = true;         ///< inverse time always repeats, whatever this says

    CommentStyle comments = CommentStyle::parentheses;
    bool upper_case = false;  ///< comments in capitals only
    bool block_numbers = false;
    int first_number = 10, number_step = 10,
        largest_number = 99999;  ///< past the largest, from the first again
    LineEnd line_end = LineEnd::lf;
    int longest_line = 252;  ///< characters without the line end
    int longest_program =
        0;               ///< characters, line ends included, that the controller's memory holds; 0 = no limit
    bool spaces = true;  ///< between the words of a line
    bool percent_lines = false;
    std::string program_number;        ///< e.g. "O1001"; empty: none
    bool decimal_point_always = true;  ///< axis words and F: "X1." rather than "X1"
    bool keep_zeros = false;           ///< axis words and F: "X1.5000" rather than "X1.5"
    bool decimal_comma = false;        ///< "X1,5" rather than "X1.5"

    std::string spindle_on_cw = "M3", spindle_on_ccw = "M4", spindle_off = "M5";
    std::string spindle_wait;  ///< a line after the start, e.g. "G4 P2"; empty: none
    std::string coolant_on, coolant_off;
    /// Lines that may hold {tool} and {offset}, and {tool2} and {offset2} with two digits at least.
    std::string tool_change;            ///< empty: the controller changes no tool
    std::string stop;                   ///< where the cutter is put in by hand; empty: the program runs on
    std::string length_on, length_off;  ///< of the tool's length; empty: the zeros are set with the cutter
    /// The machine's own way home, in lines whose places the text doesn't hold: straight away from the shaft
    /// first. Empty: the dialect knows none.
    std::vector<std::string> home;
    std::string program_end = "M30";

    /// Lines before and after the moves, with named places in braces; see postprocessors/README.md for the
    /// names.
    std::vector<std::string> header, footer;
    /// G and M words that the controller does not have, and words that the reader may pass over as harmless.
    std::vector<std::string> lacks, harmless;
    /// Other notes for `posts`: what the controller cannot do.
    std::vector<std::string> cannot;
};

/// Reads a dialect's TOML text. Unknown keys, wrong types and contradictions are complaints with their
/// places, all of them in one go. `file` is for messages; the dialect's name is its last part without the
/// ending.
Outcome<Dialect> read_dialect(const std::string& text, const std::string& file);

/// mm of the last decimal of a word in these units (of a diameter: of that, not of its half).
double last_decimal(const AxisWord& word, Units units);

/// The grid and the limits that a path must keep for this dialect in these units. `blend` (mm) is what the
/// job gives to path blending; it counts only where the dialect has a word for it, and as that tells it: to
/// whole 0.0001 mm or 0.000001 in, never more.
WordGrid word_grid(const Dialect& dialect, Units units, double blend = 0.0);

/// What the dialect is for and can do, a few lines of plain text, for `posts`.
std::string dialect_summary(const Dialect& dialect);

}  // namespace lobewright
