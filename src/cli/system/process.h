/// The program's surroundings: its arguments and variables, signals that are no news, and the user's own
/// folder.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace lobewright::cli {

/// To be called first. A file that grows too large makes writing fail, with its reason, instead of killing
/// the program. An exception that can't get out (of a function that promises not to throw) ends the program
/// with exit code 70 and a message.
void prepare_process();

/// What stands on the command line after the program's name, as UTF-8, whatever the system's own encoding.
std::vector<std::string> arguments_of(int count, char** words);

/// The value of a variable of the environment, as UTF-8; nothing where it is unset or empty.
std::optional<std::string> environment(const char* variable);

/// Where the user's own files of this program lie, which need not be there: lobewright/ in $XDG_CONFIG_HOME,
/// or in $HOME/.config where that is unset, empty or relative (XDG Base Directory Specification 0.8); on
/// Windows lobewright\ in %APPDATA%. Nothing where none of them is set.
std::optional<std::filesystem::path> user_folder();

/// Whether standard error is a terminal, at which somebody sits.
bool speaks_to_terminal();

}  // namespace lobewright::cli
