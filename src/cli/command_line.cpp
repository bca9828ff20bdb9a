#include "base/document.h"
#include "cli/argument_complaints.h"
#include "cli/command_table.h"
#include "cli/option_words.h"

#include <lobewright/number_text.h>

#include <CLI/CLI.hpp>

#include <algorithm>

namespace lobewright::cli {
namespace {

constexpr const char* end_of_options = "--";
std::vector<std::string> long_names(const std::vector<OptionRow>& options) {
    std::vector<std::string> names;
    for (const OptionRow& option : options)
        names.push_back(option.name);
    return names;
}

/// CLI11 fills texts and switches alone. What they mean is checked here afterwards, for it takes "nan" for a
/// number in any range.
void add_options(CLI::App& app, const std::vector<OptionRow>& rows, Options& options) {
    app.set_help_flag();
    app.allow_extras();
    for (const OptionRow& row : rows) {
        const std::string names =
            (row.letter != '\0' ? std::string{'-', row.letter, ','} : std::string()) + "--" + row.name;
        if (const auto* field = std::get_if<bool Options::*>(&row.field)) {
            app.add_flag(names, options.**field)->disable_flag_override();
        } else if (const auto* several = std::get_if<std::vector<std::string> Options::*>(&row.field)) {
            app.add_option(names, options.**several)->allow_extra_args(false);
        } else {
            app.add_option(names, options.*std::get<std::string Options::*>(row.field));
        }
    }
}

Diagnostic too_many(const std::string& command, const std::string& argument) {
    return wrong("extra-argument", "\"" + argument + "\" is one argument too many for " + command,
                 see_help(command) + ", and put a name that holds spaces in quotes");
}

Diagnostic unknown_option(const CommandRow& row, const std::string& argument) {
    const std::string name = argument.substr(0, argument.find('='));
    const std::string bare = name.substr(std::min(name.find_first_not_of('-'), name.size()));
    return wrong("unknown-option", row.name + " has no option " + name,
                 hint(bare, long_names(row.options), "--"));
}

/// What is left over when the command has taken its own.
std::optional<Diagnostic> find_left_over(const CommandRow& row, const std::vector<std::string>& left) {
    bool options_ended = false;
    for (const std::string& argument : left) {
        if (argument == end_of_options && !options_ended) {
            options_ended = true;
        } else if (options_ended || argument.size() < 2 || argument.front() != '-') {
            return too_many(row.name, argument);
        } else {
            return unknown_option(row, argument);
        }
    }
    return std::nullopt;
}

std::optional<Diagnostic> read_topic(const Options& options) {
    static const std::vector<std::string> forms{"man", "bash", "zsh", "fish"};
    if (!options.topic.empty() && find_command(options.topic) == nullptr) {
        return wrong("unknown-command", "there is no command \"" + options.topic + "\"",
                     hint(options.topic, command_names()));
    }
    if (options.as.empty()) return std::nullopt;
    if (std::find(forms.begin(), forms.end(), options.as) == forms.end())
        return wrong("unknown-form", "there is no form \"" + options.as + "\"", hint(options.as, forms));
    if (!options.topic.empty()) {
        return wrong("extra-argument", "--as gives all commands, not " + options.topic + " alone",
                     "leave one of them out");
    }
    return std::nullopt;
}

/// What start can't do without, or has too much of.
std::optional<Diagnostic> find_missing_for_start(const Options& options) {
    if (options.purpose.empty()) {
        return wrong("missing-argument", "start wants to know what the job is for",
                     "add --for offset-fixture, dividing-head, rotary-mill or lathe-c");
    }
    if (options.output.empty() == options.job.empty()) {
        if (options.job.empty())
            return wrong("missing-argument", "start wants a file to write", see_help("start"));
        return wrong(
            "two-files",
            "start is given two files to write, \"" + options.job + "\" and \"" + options.output + "\"",
            "give one of them");
    }
    return std::nullopt;
}

/// What a command can't do without.
std::optional<Diagnostic> find_missing(const CommandRow& row, const Options& options) {
    if (row.command == Command::start) return find_missing_for_start(options);
    if (row.command == Command::help || row.command == Command::posts) return std::nullopt;
    if (row.command == Command::prove && options.program.empty()) {
        return wrong("missing-argument", "prove wants a job file and a program", see_help(row.name));
    }
    if (options.job.empty())
        return wrong("missing-argument", row.name + " wants a job file", see_help(row.name));
    return std::nullopt;
}

/// What is understood, but can't be done together.
std::optional<Diagnostic> find_contradiction(const Options& options) {
    if (options.job == "-" && options.program == "-") {
        return wrong("one-standard-input", "job and program can't both come from standard input",
                     "name a file for one of them");
    }
    if (options.job == "-" && options.readings == "-") {
        return wrong("one-standard-input", "job and readings can't both come from standard input",
                     "name a file for one of them");
    }
    if (!options.program.empty() && options.program == "-" && options.readings == "-") {
        return wrong("one-standard-input", "program and readings can't both come from standard input",
                     "name a file for one of them");
    }
    const bool program_wanted = options.command == Command::cut && !options.plan;
    if (program_wanted && options.json && is_standard_stream(options.output)) {
        return wrong("no-json", "a program can't be had as JSON",
                     "add --plan, or -o FILE for the program: then its complaints are JSON");
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

/// Lets CLI11 take the arguments apart; the complaint, where it can't.
std::optional<Diagnostic> take_apart(CLI::App& app, std::vector<std::string> arguments,
                                     const std::string& command) {
    std::reverse(arguments.begin(), arguments.end());  // CLI11 takes them from the back
    try {
        app.parse(std::move(arguments));
    } catch (const CLI::ArgumentMismatch& error) {
        return wrong("bad-arguments", mismatch(error.what()), see_help(command));
    } catch (const CLI::ParseError& error) {
        return wrong("bad-arguments", error.what(), see_help(command));
    }
    return std::nullopt;
}

/// What the options of a command mean.
std::optional<Diagnostic> read_meaning(const CommandRow& row, Options& options) {
    if (auto complaint = read_option_words(options)) return complaint;
    if (auto complaint = read_topic(options)) return complaint;
    if (auto complaint = find_missing(row, options)) return complaint;
    return find_contradiction(options);
}

Outcome<Options> parse_command(const CommandRow& row, std::vector<std::string> arguments) {
    Options options;
    options.command = row.command;
    CLI::App app;
    add_options(app, row.options, options);
    for (const ArgumentRow& argument : row.arguments)
        app.add_option(argument.name, options.*argument.field);
    if (auto complaint = take_apart(app, std::move(arguments), row.name)) return *complaint;
    if (options.help) {
        options.command = Command::help;
        options.topic = row.name;
        options.as.clear();
        return options;
    }
    if (auto complaint = find_left_over(row, app.remaining())) return *complaint;
    if (auto complaint = find_empty(app)) return *complaint;
    if (auto complaint = read_meaning(row, options)) return *complaint;
    return options;
}

/// What stands there in place of a command.
Diagnostic no_command(const std::string& word) {
    if (word.starts_with('-')) {
        const std::vector<std::string> own = long_names(program_texts().options);
        const std::string nearest =
            meant(word.substr(std::min(word.find_first_not_of('-'), word.size())), own);
        return wrong("unknown-option", word + " stands before any command",
                     nearest.empty() ? "say the command first, as in lobewright check JOB.toml"
                                     : "did you mean --" + nearest + "?");
    }
    if (word.ends_with(".toml")) {
        return wrong("unknown-command", "\"" + word + "\" stands where a command should",
                     "say what to do with it, as in lobewright check " + word);
    }
    return wrong("unknown-command", "there is no command \"" + word + "\"", hint(word, command_names()));
}

/// The program's own options, where no command is given.
Outcome<Options> parse_without_command(const std::vector<std::string>& arguments) {
    Options options;
    CLI::App app;
    add_options(app, program_texts().options, options);
    if (auto complaint = take_apart(app, arguments, "")) return *complaint;
    if (!app.remaining().empty()) return no_command(app.remaining().front());
    options.command = options.version && !options.help ? Command::version : Command::help;
    return options;
}

}  // namespace

Outcome<Options> parse_command_line(const std::vector<std::string>& arguments) {
    const CommandRow* row = arguments.empty() ? nullptr : find_command(arguments.front());
    if (row == nullptr) return parse_without_command(arguments);
    return parse_command(*row, {arguments.begin() + 1, arguments.end()});
}

bool ask_for_json(const std::vector<std::string>& arguments) {
    for (std::size_t i = 0; i < arguments.size() && arguments[i] != end_of_options; ++i) {
        if (arguments[i] == "--json" || arguments[i] == "--format=json") return true;
        if (arguments[i] == "--format" && i + 1 < arguments.size() && arguments[i + 1] == "json") return true;
    }
    return false;
}

bool is_standard_stream(const std::string& path) {
    return path.empty() || path == "-";
}

}  // namespace lobewright::cli
