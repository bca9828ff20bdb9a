/// What the user asked for on the command line, as plain data.
#pragma once

#include <lobewright/angle.h>
#include <lobewright/diagnostic.h>

#include <string>
#include <vector>

namespace lobewright::cli {

enum class Command { help, version, check, table, cut, prove, index, start, posts };
enum class TextFormat { csv, json, markdown };

/// Empty strings stand for options that weren't given.
struct Options {
    Command command = Command::help;
    std::string help_topic;  ///< help: the command to explain; empty: all of them

    std::string job;      ///< JOB.toml; for `start` the file to write
    std::string program;  ///< prove
    std::string output;   ///< -o
    bool json = false;
    bool quiet = false;

    std::string lobe;  ///< table
    CamAngle every = CamAngle::from_degrees(1.0);
    std::string method;  ///< index
    TextFormat format = TextFormat::csv;
    bool format_given = false;
    std::string post;     ///< cut, prove: a name or a path
    bool plan = false;    ///< cut
    std::string show;     ///< posts
    std::string purpose;  ///< start
};

/// Reads the arguments (the program's own name left out). A wrong one is Fault::bad_input, with the nearest
/// word that would have been right; the first complaint ends it.
Outcome<Options> parse_command_line(const std::vector<std::string>& arguments);

}  // namespace lobewright::cli
