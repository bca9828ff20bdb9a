#include "cli/command_table.h"
#include "cli/help/help.h"

namespace lobewright::cli {
namespace {

constexpr const char* beginning = R"(# Completion of lobewright for bash, made by `lobewright help --as bash`.

_lobewright_words() {
    local IFS=$'\n'
    COMPREPLY=($(compgen -W "$1" -- "$word"))
}

_lobewright_files() {
    compopt -o filenames
    mapfile -t COMPREPLY < <(compgen -f -X "!*$1" -- "$word"; compgen -d -- "$word")
}

_lobewright() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}
    local command=${COMP_WORDS[1]} given=0 i
    COMPREPLY=()
    # bash takes --format=csv for three words.
    if [ "$word" = "=" ]; then
        word=""
    elif [ "$before" = "=" ]; then
        before=${COMP_WORDS[COMP_CWORD - 2]}
    fi
)";

constexpr const char* ending = R"(}

complete -F _lobewright lobewright
)";

/// Words as bash takes them in double quotes, a line each.
std::string quoted_lines(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : "\n") + word;
    return '"' + text + '"';
}

std::vector<std::string> option_names(const std::vector<OptionRow>& options) {
    std::vector<std::string> names;
    for (const OptionRow& option : options) {
        names.push_back("--" + option.name);
        if (option.letter != '\0') names.push_back({'-', option.letter});
    }
    return names;
}

/// The call that offers what may stand there; empty: nothing can be offered.
std::string offer(Value kind, const std::vector<std::string>& words) {
    switch (kind) {
        case Value::nothing:
            return {};
        case Value::word:
            return "_lobewright_words " + quoted_lines(words);
        case Value::file:
            return "_lobewright_files";
        case Value::toml_file:
            return "_lobewright_files .toml";
        case Value::post:
            return "_lobewright_files .toml; COMPREPLY+=($(compgen -W \"$(lobewright posts --names "
                   "2>/dev/null)\" -- \"$word\"))";
        case Value::command:
            return "_lobewright_words " + quoted_lines(command_names());
    }
    return {};
}

/// "-o | --output", each after the command, as patterns of a case.
std::string patterns_of(const CommandRow& row, const OptionRow& option) {
    const std::string at = row.name + ":";
    const std::string letter = option.letter != '\0' ? " | " + at + '-' + option.letter : "";
    return at + "--" + option.name + letter;
}

std::string values_of(const CommandRow& row) {
    std::string text;
    for (const OptionRow& option : row.options) {
        if (option.value.empty()) continue;
        const std::string call = offer(option.kind, option.words);
        text +=
            "        " + patterns_of(row, option) + ") " + call + (call.empty() ? "" : "; ") + "return ;;\n";
    }
    return text;
}

std::string arguments_of(const CommandRow& row) {
    std::string text;
    for (std::size_t i = 0; i < row.arguments.size(); ++i) {
        text += "        " + row.name + ":" + std::to_string(i) + ") " + offer(row.arguments[i].kind, {}) +
                " ;;\n";
    }
    return text;
}

/// The options with a value, as a pattern: what follows them is no argument.
std::string with_value() {
    std::string pattern;
    for (const CommandRow& row : command_table()) {
        for (const OptionRow& option : row.options) {
            if (option.value.empty()) continue;
            pattern += (pattern.empty() ? "" : " | ") + patterns_of(row, option);
        }
    }
    return pattern;
}

}  // namespace

std::string bash_completion() {
    std::vector<std::string> first = command_names();
    for (const std::string& name : option_names(program_texts().options))
        first.push_back(name);
    std::string text = beginning;
    text += "    if [ \"$COMP_CWORD\" -eq 1 ]; then\n        _lobewright_words " + quoted_lines(first) +
            "\n        return\n    fi\n";
    text += "    case $command:$before in\n";
    for (const CommandRow& row : command_table())
        text += values_of(row);
    text += "    esac\n    if [[ $word == -* ]]; then\n        case $command in\n";
    for (const CommandRow& row : command_table())
        text += "            " + row.name + ") _lobewright_words " + quoted_lines(option_names(row.options)) +
                " ;;\n";
    text += "        esac\n        return\n    fi\n";
    text +=
        "    for ((i = 2; i < COMP_CWORD; ++i)); do\n        case $command:${COMP_WORDS[i]} in\n           "
        " " +
        with_value() +
        ") ((++i)) ;;\n            *:-?*) ;;\n            *) ((++given)) ;;\n        esac\n    done\n";
    text += "    case $command:$given in\n";
    for (const CommandRow& row : command_table())
        text += arguments_of(row);
    return text + "    esac\n" + ending;
}

}  // namespace lobewright::cli
