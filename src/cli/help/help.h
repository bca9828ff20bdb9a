/// What the table of commands becomes: the texts of `--help`, the manual page, completions for shells.
#pragma once

#include <string>

namespace lobewright::cli {

/// At most 80 columns wide. `topic`: a command's name, or empty for the whole program.
std::string help_text(const std::string& topic);

/// lobewright(1), in the man macros of roff.
std::string manual_page();

/// Scripts that complete commands, options and their values.
std::string bash_completion();
std::string zsh_completion();
std::string fish_completion();

}  // namespace lobewright::cli
