#include "base/document.h"
#include "cli/help.h"
#include "cli/options.h"

#include <lobewright/number_text.h>

#include <CLI/CLI.hpp>

#include <algorithm>
#include <map>

namespace lobewright::cli {
namespace {

/// The options as CLI11 fills them: texts and switches alone. What they mean is checked here afterwards, for
/// CLI11 takes "nan" for a number in any range.
struct Words {
    Options options;
    std::string every, format;
    bool help = false, version = false;
};

const std::map<std::string, Command> commands{
    {"check", Command::check}, {"table", Command::table}, {"cut", Command::cut},
    {"prove", Command::prove}, {"index", Command::index}, {"start", Command::start},
    {"posts", Command::posts},
};

Diagnostic wrong(std::string code, std::string what, std::string remedy) {
    return {Fault::bad_input, Severity::error,   std::move(code),
            std::move(what),  std::move(remedy), {"lobewright"}};
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : ", ") + word;
    return text;
}

/// "did you mean X", or the whole list where nothing is near.
std::string hint(const std::string& word, const std::vector<std::string>& known,
                 const std::string& prefix = "") {
    const std::string nearest = nearest_word(word, known);
    if (!nearest.empty()) return "did you mean " + prefix + nearest + "?";
    std::vector<std::string> all;
    for (const std::string& each : known)
        all.push_back(prefix + each);
    return "there are " + joined(all);
}

std::string see_help(const std::string& command) {
    return "see lobewright " + command + " --help";
}

void common_options(CLI::App& app, Words& words) {
    app.set_help_flag();
    app.allow_extras();
    app.add_flag("-h,--help", words.help);
    app.add_flag("--quiet", words.options.quiet)->disable_flag_override();
    app.add_option("-o,--output", words.options.output);
}

void options_of(const std::string& command, CLI::App& app, Words& words) {
    Options& options = words.options;
    common_options(app, words);
    if (command != "posts") app.add_option("JOB", options.job);
    if (command == "prove") app.add_option("PROGRAM", options.program);
    if (command != "cut" && command != "start") app.add_flag("--json", options.json)->disable_flag_override();
    if (command == "table" || command == "index") app.add_option("--format", words.format);
    if (command == "table") app.add_option("--lobe", options.lobe);
    if (command == "table") app.add_option("--every", words.every);
    if (command == "index") app.add_option("--method", options.method);
    if (command == "cut" || command == "prove") app.add_option("--post", options.post);
    if (command == "cut") app.add_flag("--plan", options.plan)->disable_flag_override();
    if (command == "start") app.add_option("--for", options.purpose);
    if (command == "posts") app.add_option("--show", options.show);
}

/// The long names of a command's options, without the dashes.
std::vector<std::string> long_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options()) {
        const auto& longs = option->get_lnames();
        names.insert(names.end(), longs.begin(), longs.end());
    }
    return names;
}

Diagnostic unknown_argument(const std::string& command, const CLI::App& app, const std::string& argument) {
    if (argument.size() < 2 || argument.front() != '-') {
        return wrong("extra-argument", "\"" + argument + "\" is one argument too many for " + command,
                     see_help(command) + ", and put a name that holds spaces in quotes");
    }
    const std::string name = argument.substr(0, argument.find('='));
    const std::string bare = name.substr(std::min(name.find_first_not_of('-'), name.size()));
    return wrong("unknown-option", command + " has no option " + name, hint(bare, long_names(app), "--"));
}

std::optional<Diagnostic> read_every(const std::string& text, CamAngle& every) {
    if (text.empty()) return std::nullopt;
    const std::optional<double> degrees = parse_decimal(text);
    if (!degrees || !(*degrees >= 0.001 && *degrees <= 180.0)) {
        return wrong("bad-number",
                     "--every takes degrees of cam angle from 0.001 to 180, not \"" + text + "\"",
                     "give one such as --every 1 or --every 0.5");
    }
    every = CamAngle::from_degrees(*degrees);
    return std::nullopt;
}

std::optional<Diagnostic> read_format(const std::string& text, Options& options) {
    static const std::vector<std::string> names{"csv", "json", "markdown"};
    if (options.json) options.format = TextFormat::json, options.format_given = true;
    if (text.empty()) return std::nullopt;
    const auto found = std::find(names.begin(), names.end(), text);
    if (found == names.end())
        return wrong("unknown-format", "there is no format \"" + text + "\"", hint(text, names));
    options.format = static_cast<TextFormat>(found - names.begin());
    options.format_given = true;
    if (options.json && options.format != TextFormat::json) {
        return wrong("two-formats", "--json and --format " + text + " exclude each other",
                     "give one of them");
    }
    return std::nullopt;
}

/// What a command can't do without.
std::optional<Diagnostic> find_missing(const std::string& command, const Options& options) {
    if (options.command == Command::start && options.purpose.empty()) {
        return wrong("missing-argument", "start wants to know what the job is for",
                     "add --for offset-fixture, dividing-head, rotary-mill or lathe-c");
    }
    if (options.command == Command::start && !options.output.empty() && !options.job.empty()) {
        return wrong(
            "two-files",
            "start is given two files to write, \"" + options.job + "\" and \"" + options.output + "\"",
            "give one of them");
    }
    const bool needs_file =
        options.command != Command::posts && !(options.command == Command::start && !options.output.empty());
    if (needs_file && options.job.empty()) {
        return wrong("missing-argument", command + " wants a job file", see_help(command));
    }
    if (options.command == Command::prove && options.program.empty()) {
        return wrong("missing-argument", "prove wants a job file and a program", see_help(command));
    }
    return std::nullopt;
}

/// CLI11 says "--lobe: 1 required TEXT missing", or "json was given a disallowed flag override".
std::string mismatch(const std::string& text) {
    const std::string name = text.substr(0, text.find_first_of(": "));
    return name.starts_with('-') ? name + " takes one value, once" : "--" + name + " takes no value";
}

/// An option that is there but says nothing, as a script's empty variable makes it.
std::optional<Diagnostic> find_empty(const CLI::App& app) {
    for (const CLI::Option* option : app.get_options()) {
        for (const std::string& value : option->results()) {
            if (value.empty())
                return wrong("empty-argument", option->get_name() + " is empty", "say what it should be");
        }
    }
    return std::nullopt;
}

Outcome<Options> parse_one(const std::string& command, std::vector<std::string> arguments) {
    Words words;
    words.options.command = commands.at(command);
    CLI::App app;
    options_of(command, app, words);
    std::reverse(arguments.begin(), arguments.end());  // CLI11 takes them from the back
    try {
        app.parse(std::move(arguments));
    } catch (const CLI::ArgumentMismatch& error) {
        return wrong("bad-arguments", mismatch(error.what()), see_help(command));
    } catch (const CLI::ParseError& error) {
        return wrong("bad-arguments", error.what(), see_help(command));
    }
    if (words.help) words.options.command = Command::help, words.options.help_topic = command;
    if (words.help) return words.options;
    if (const auto extras = app.remaining(); !extras.empty())
        return unknown_argument(command, app, extras.front());
    if (auto complaint = find_empty(app)) return *complaint;
    if (auto complaint = read_every(words.every, words.options.every)) return *complaint;
    if (auto complaint = read_format(words.format, words.options)) return *complaint;
    if (auto complaint = find_missing(command, words.options)) return *complaint;
    return words.options;
}

}  // namespace

Outcome<Options> parse_command_line(const std::vector<std::string>& arguments) {
    if (arguments.empty()) return Options{};
    const std::string& first = arguments.front();
    if (commands.contains(first)) return parse_one(first, {arguments.begin() + 1, arguments.end()});
    Options options;
    if (first == "-h" || first == "--help") return options;
    options.command = Command::version;
    if (first == "--version") return options;
    if (first.starts_with('-')) {
        return wrong("unknown-option", first + " stands before any command",
                     "say the command first, as in lobewright check JOB.toml");
    }
    return wrong("unknown-command", "there is no command \"" + first + "\"", hint(first, command_names()));
}

}  // namespace lobewright::cli
