/// What the user asked for on the command line, as plain data.
#pragma once

#include <lobewright/angle.h>
#include <lobewright/diagnostic.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright::cli {

enum class Command { start, check, table, cut, prove, index, draw, sheet, posts, help, version };
enum class DrawnThing { lobe, shaft, wheel, nose, degree_wheel, motion };
enum class TextFormat { csv, json, markdown };

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

    std::string lobe;         ///< table
    std::string every_words;  ///< table: `every` as it was given
    CamAngle every = CamAngle::from_degrees(1.0);
    std::string method;        ///< index
    std::string format_words;  ///< table, index: `format` as it was given
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
