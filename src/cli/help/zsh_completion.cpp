#include "cli/command_table.h"
#include "cli/help/help.h"

namespace lobewright::cli {
namespace {

constexpr const char* beginning = R"zsh(#compdef lobewright
# Completion of lobewright for zsh, made by `lobewright help --as zsh`.

_lobewright_posts() {
    local -a posts
    posts=(${(f)"$(lobewright posts --names 2>/dev/null)"})
    compadd -a posts
    _files -g '*.toml'
}

_lobewright_commands() {
    local -a commands
    commands=(
)zsh";

constexpr const char* after_commands = R"zsh(    )
    _describe command commands
}

_lobewright() {
    if (( CURRENT == 2 )); then
        if [[ $words[2] == -* ]]; then
            _arguments -s \
)zsh";

constexpr const char* after_options = R"zsh(        else
            _lobewright_commands
        fi
        return
    fi
    local command=$words[2]
    shift words
    (( --CURRENT ))
    case $command in
)zsh";

constexpr const char* ending = R"zsh(    esac
}

if [[ $funcstack[1] == _lobewright ]]; then
    _lobewright "$@"
else
    compdef _lobewright lobewright
fi
)zsh";

/// In single quotes.
std::string quoted(const std::string& text) {
    std::string result = "'";
    for (const char c : text)
        result += c == '\'' ? "'\\''" : std::string(1, c);
    return result + '\'';
}

/// Words within a specification: brackets and colons would end them.
std::string within(const std::string& text) {
    std::string result;
    for (const char c : text) {
        if (c == '[' || c == ']' || c == ':' || c == '\\') result += '\\';
        result += c;
    }
    return result;
}

std::string action_of(Value kind, const std::vector<std::string>& words) {
    switch (kind) {
        case Value::nothing:
            return " ";
        case Value::word: {
            std::string list;
            for (const std::string& word : words)
                list += (list.empty() ? "" : " ") + word;
            return '(' + list + ')';
        }
        case Value::file:
            return "_files";
        case Value::toml_file:
            return "_files -g \"*.toml\"";
        case Value::post:
            return "_lobewright_posts";
        case Value::command:
            return "_lobewright_commands";
    }
    return {};
}

/// "'(-o --output)'{-o+,--output=}'[says]:FILE:_files'": a value may stand beside its option or after it.
std::string option_spec(const OptionRow& option) {
    const bool valued = !option.value.empty();
    const std::string tail =
        '[' + within(option.says) + ']' +
        (valued ? ':' + option.value + ':' + action_of(option.kind, option.words) : std::string());
    const std::string name = "--" + option.name;
    if (option.letter == '\0') return quoted(name + (valued ? "=" : "") + tail);
    const std::string letter{'-', option.letter};
    const std::string both = letter + (valued ? "+," : ",") + name + (valued ? "=" : "");
    return quoted('(' + letter + ' ' + name + ')') + '{' + both + '}' + quoted(tail);
}

std::string case_of(const CommandRow& row) {
    std::string text = "        " + row.name + ")\n            _arguments -s -S";
    for (const OptionRow& option : row.options)
        text += " \\\n                " + option_spec(option);
    for (const ArgumentRow& argument : row.arguments)
        text += " \\\n                " + quoted(":" + argument.name + ':' + action_of(argument.kind, {}));
    return text + "\n            ;;\n";
}

}  // namespace

std::string zsh_completion() {
    std::string text = beginning;
    for (const CommandRow& row : command_table())
        text += "        " + quoted(row.name + ':' + within(row.line)) + '\n';
    text += after_commands;
    const std::vector<OptionRow>& own = program_texts().options;
    for (const OptionRow& option : own)
        text += "                " + option_spec(option) + (&option == &own.back() ? "\n" : " \\\n");
    text += after_options;
    for (const CommandRow& row : command_table())
        text += case_of(row);
    return text + ending;
}

}  // namespace lobewright::cli
