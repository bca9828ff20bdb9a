#include "cli/command_table.h"
#include "cli/help/help.h"

namespace lobewright::cli {
namespace {

constexpr const char* beginning = R"(# Completion of lobewright for fish, made by `lobewright help --as fish`.

complete -c lobewright -f
)";

/// In single quotes.
std::string quoted(const std::string& text) {
    std::string result = "'";
    for (const char c : text) {
        if (c == '\'' || c == '\\') result += '\\';
        result += c;
    }
    return result + '\'';
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : " ") + word;
    return text;
}

/// What may stand there, as options of fish's own command; a value is always needed.
std::string offer(Value kind, const std::vector<std::string>& words) {
    switch (kind) {
        case Value::nothing:
            return {};
        case Value::word:
            return " -a " + quoted(joined(words));
        case Value::file:
            return " -F";
        case Value::toml_file:
            return " -k -a '(__fish_complete_suffix .toml)'";
        case Value::post:
            return " -k -a '(lobewright posts --names 2>/dev/null; __fish_complete_suffix .toml)'";
        case Value::command:
            return " -a " + quoted(joined(command_names()));
    }
    return {};
}

std::string option_line(const std::string& condition, const OptionRow& option) {
    std::string line = "complete -c lobewright -n " + quoted(condition);
    if (option.letter != '\0') line += std::string(" -s ") + option.letter;
    line += " -l " + option.name;
    if (!option.value.empty())
        line += (option.kind == Value::file ? " -r" : " -x") + offer(option.kind, option.words);
    return line + " -d " + quoted(option.says) + '\n';
}

std::string lines_of(const CommandRow& row) {
    const std::string within = "__fish_seen_subcommand_from " + row.name;
    std::string text =
        "\ncomplete -c lobewright -n __fish_use_subcommand -a " + row.name + " -d " + quoted(row.line) + '\n';
    for (const OptionRow& option : row.options)
        text += option_line(within, option);
    for (const ArgumentRow& argument : row.arguments)
        text += "complete -c lobewright -n " + quoted(within) + offer(argument.kind, {}) + '\n';
    return text;
}

}  // namespace

std::string fish_completion() {
    std::string text = beginning;
    for (const OptionRow& option : program_texts().options)
        text += option_line("__fish_use_subcommand", option);
    for (const CommandRow& row : command_table())
        text += lines_of(row);
    return text;
}

}  // namespace lobewright::cli
