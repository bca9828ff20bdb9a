/// What the user asked for on the command line, as plain data.
#pragma once

#include <lobewright/angle.h>
#include <lobewright/diagnostic.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright::cli {

enum class Command {
    start,
    check,
    table,
    compare,
    cut,
    prove,
    index,
    inspect,
    draw,
    sheet,
    posts,
    help,
    version
};
enum class DrawnThing { lobe, shaft, wheel, nose, degree_wheel, motion };
enum class TextFormat { csv, json, markdown, text };

/// Empty strings stand for options that weren't given.
struct Options {
    Command command = Command::help;

    std::string job;      ///< JOB.toml; for `start` the file to write
    std::string program;  ///< prove, sheet
    std::string topic;    ///< help: the command to explain; empty: all of them
    std::string output;   ///< -o
    bool json = false;
    bool quiet = false;
    bool help = false;
    bool version = false;

    std::string lobe;                ///< table, compare, inspect
    std::string every_words;         ///< table, inspect: `every` as it was given
    std::vector<std::string> lobes;  ///< cut, prove: these alone
    std::string from;                ///< cut, prove: this and those after it
    std::string operation;           ///< cut, prove, sheet: of a job with several
    CamAngle every = CamAngle::from_degrees(1.0);
    std::string laws;          ///< compare: the profile whose place all laws take
    std::string method;        ///< index, inspect
    std::string format_words;  ///< table, index, inspect: `format` as it was given
    TextFormat format = TextFormat::csv;
    bool format_given = false;
    std::string post;    ///< cut, prove: a name or a path
    bool plan = false;   ///< cut
    bool force = false;  ///< cut: whatever file stands at -o
    std::string what;    ///< draw: `thing` as it was given
    DrawnThing thing = DrawnThing::lobe;
    std::string drawing_format;  ///< draw: svg or dxf
    std::string scale_words;     ///< draw: `scale` as it was given
    std::optional<double> scale;
    std::string diameter_words, bore_words, screws_words;  ///< draw: as they were given
    std::optional<double> diameter, bore, screw_circle;    ///< in the job's units
    std::string crank;                                     ///< draw: cw or ccw
    std::string show;                                      ///< posts
    bool names = false;                                    ///< posts
    std::string purpose;                                   ///< start
    std::string readings;        ///< inspect, sheet; cut and prove (as --correct): a file, or "-"
    std::string most_words;      ///< cut, prove: `most` as it was given
    std::optional<double> most;  ///< cut, prove: below the design, in the job's units
    std::string comes_again_words;
    std::optional<double> comes_again;  ///< cut, prove: share of the error that the next cut makes again
    std::string columns_words;          ///< inspect: `columns` as they were given
    std::vector<std::string> columns;   ///< inspect: names in place of the file's heading
    std::string readings_unit;          ///< inspect: what one unit of a reading is; empty: the job's units
    bool reversed = false;              ///< inspect: the readings' angles count the other way
    std::vector<std::string> unknown_words;  ///< inspect: `unknown` as it was given
    bool zero_unknown = false;
    bool runout_unknown = false;
    std::string tolerance_words;      ///< inspect: `tolerance` as it was given
    std::optional<double> tolerance;  ///< inspect: in the job's units
    std::string fit;                  ///< inspect: "arcs" or "table"; empty: neither
    bool installed = false;           ///< inspect: in the engine, by crank degree
    std::string teeth_words;          ///< inspect: `teeth` as it was given
    std::string holes_words;          ///< inspect: `holes` as it was given
    std::optional<int> teeth;
    std::optional<int> holes;
    std::string as;  ///< help: what to make of the table of commands instead
};

/// Reads the arguments (the program's own name left out). A wrong one is Fault::bad_input, with the nearest
/// word that would have been right; the first complaint ends it.
Outcome<Options> parse_command_line(const std::vector<std::string>& arguments);

/// Whether arguments that may be wrong ask for JSON, so that the complaint about them is JSON too.
bool ask_for_json(const std::vector<std::string>& arguments);

/// Whether `path`, an argument or the value of -o, means standard input or standard output.
bool is_standard_stream(const std::string& path);

}  // namespace lobewright::cli
