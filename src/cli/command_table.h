/// The one table of commands and options. The parser, --help, the manual page and the shells' completions are
/// made from it: what isn't here isn't anywhere.
#pragma once

#include "cli/options.h"

#include <string>
#include <variant>
#include <vector>

namespace lobewright::cli {

/// What a value or an argument is, so that a shell can complete it.
enum class Value { nothing, word, file, toml_file, post, command };

/// A switch, an option with one value, or one that may be given several times; `says` in a few words.
struct OptionRow {
    char letter = '\0';  ///< none where it is 0
    std::string name;    ///< without its dashes
    std::string value;   ///< what stands for the value in the help, as FILE; empty: a switch
    std::string says;
    /// A list may be given more than once.
    std::variant<bool Options::*, std::string Options::*, std::vector<std::string> Options::*> field;
    Value kind = Value::nothing;
    std::vector<std::string> words;  ///< all that a Value::word can be
};

struct ArgumentRow {
    std::string name;  ///< as the help writes it: JOB.toml
    std::string Options::*field;
    Value kind = Value::nothing;
};

/// A word and what it means, for a list in a command's help.
struct Meaning {
    std::string word;
    std::string says;
};

struct CommandRow {
    Command command = Command::help;
    std::string name;
    std::string usage;                    ///< what follows the name
    std::string line;                     ///< for the list of all commands
    std::vector<std::string> about = {};  ///< paragraphs
    std::vector<ArgumentRow> arguments = {};
    std::string list_title = {};  ///< empty: there is no list
    std::vector<Meaning> list = {};
    std::vector<OptionRow> options = {};  ///< those of every command are among them
    std::string caution = {};
    std::vector<std::string> examples = {};  ///< what follows "lobewright "
};

/// In the order in which the help lists them.
const std::vector<CommandRow>& command_table();
/// Nothing if there is no command of that name.
const CommandRow* find_command(const std::string& name);
std::vector<std::string> command_names();

/// What is said of the program as a whole.
struct ProgramTexts {
    std::string line;  ///< what it is, for the manual's first line
    std::string about;
    std::vector<OptionRow> common;   ///< of every command
    std::vector<OptionRow> options;  ///< of the program itself, where no command is given
    std::vector<Meaning> exit_codes;
    std::vector<Meaning> environment;
    std::vector<Meaning> files;
    std::string caution;
    std::vector<std::string> examples;
};
const ProgramTexts& program_texts();

/// "-o, --output FILE", "--plan".
std::string option_words(const OptionRow& option);

}  // namespace lobewright::cli
