/// The texts of `--help`: one for the whole program, one a command, at most 80 columns wide.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lobewright::cli {

/// The commands' names in the order in which the help lists them.
const std::vector<std::string>& command_names();

/// `topic`: a command's name, or empty for the whole program.
std::string help_text(std::string_view topic);

}  // namespace lobewright::cli
