/// The program's surroundings: signals that are no news, and the user's own folder.
#pragma once

#include <filesystem>
#include <optional>

namespace lobewright::cli {

/// To be called first. A file that grows too large makes writing fail, with its reason, instead of killing
/// the program.
void prepare_process();

/// Where the user's own files of this program lie: lobewright/ in $XDG_CONFIG_HOME, or in $HOME/.config where
/// that is unset, empty or relative (XDG Base Directory Specification 0.8). Nothing where neither is set. The
/// folder need not exist.
std::optional<std::filesystem::path> user_folder();

}  // namespace lobewright::cli
