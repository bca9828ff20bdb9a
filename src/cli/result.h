/// What a command hands back: its text, its complaints and its remarks. Commands print and write nothing
/// themselves.
#pragma once

#include "base/append_diagnostics.h"

#include <lobewright/diagnostic.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright::cli {

/// A file that a command makes beside, or in the place of, its text.
struct OutputFile {
    std::string path;
    std::string text;
};

struct Result {
    std::optional<std::string> text;   ///< for -o or standard output; nothing: no file is touched
    std::vector<OutputFile> files;     ///< where -o stands for several: each whole or not at all
    Diagnostics messages;              ///< for standard error; the errors among them settle the exit code
    std::vector<std::string> remarks;  ///< for standard error after all went well, but for --quiet
    bool must_be_new = false;          ///< an existing file at -o stays untouched (and is an error)
};

inline constexpr int exit_bug = 70;

/// 0 where `messages` holds no error, else the worst fault among the errors: 1, 2 or 3.
int exit_code(const Diagnostics& messages);

/// In the order of their places: files as they first appear, then lines and columns; those without a place
/// last.
void sort_by_place(Diagnostics& messages);

}  // namespace lobewright::cli
