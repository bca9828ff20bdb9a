/// Writing that can't fail in silence.
#pragma once

#include <lobewright/diagnostic.h>

#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

namespace lobewright::cli {

/// Puts `text` at `path`, whole or not at all: a temporary file in the same folder is written and flushed to
/// the disk with every step checked, then renamed over the old one, and the folder flushed. A link is
/// followed; an old file keeps its permissions; one that is write-protected is refused. A device or a pipe is
/// written to directly. `must_be_new` refuses whatever stands there already (Fault::bad_input). On failure,
/// and where the program is interrupted, nothing is changed and no temporary file stays; where only the
/// folder can't be flushed, that is told.
std::optional<Diagnostic> write_whole(const std::filesystem::path& path, std::string_view text,
                                      bool must_be_new);

struct FileToWrite {
    std::filesystem::path path;
    std::string_view text;
};

/// Several files so: all are written beside their places before the first of them takes its own. Two of one
/// name are refused (Fault::bad_input). Where one can't take its place all the same, the complaint tells
/// which are the new ones already.
std::optional<Diagnostic> write_together(const std::vector<FileToWrite>& files, bool must_be_new);

/// Takes away the temporary files that runs have left which were killed while they wrote to `path`.
void sweep_beside(const std::filesystem::path& path);

/// Writes to standard output and flushes it. A reader that has gone away is a failure like any other.
std::optional<Diagnostic> write_standard_output(std::string_view text);

/// To standard error, where failing can't be told any more.
void write_standard_error(std::string_view text);

/// Whether both paths lead to one and the same existing file.
bool same_file(const std::filesystem::path& a, const std::filesystem::path& b);

}  // namespace lobewright::cli
