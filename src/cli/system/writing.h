/// Writing that can't fail in silence.
#pragma once

#include <lobewright/diagnostic.h>

#include <filesystem>
#include <optional>
#include <string>

namespace lobewright::cli {

/// Puts `text` at `path`, whole or not at all: a temporary file in the same folder is written, flushed to the
/// disk and closed with every step checked, then renamed over the old one. A link is followed; an old file
/// keeps its permissions; one that is write-protected is refused. A device or a pipe is written to directly.
/// `must_be_new` refuses whatever stands there already (Fault::bad_input). On failure, and where the program
/// is interrupted, nothing is changed and no temporary file stays.
std::optional<Diagnostic> write_whole(const std::filesystem::path& path, const std::string& text,
                                      bool must_be_new);

/// Takes away the temporary files that runs have left which were killed while they wrote to `path`.
void sweep_beside(const std::filesystem::path& path);

/// Writes to standard output and flushes it. A reader that has gone away is a failure like any other.
std::optional<Diagnostic> write_standard_output(const std::string& text);

/// The complaint that a file can't be written; `reason`: the system's error number. And that one is there
/// already.
Diagnostic cannot_write(const std::string& name, int reason);
Diagnostic file_exists(const std::filesystem::path& path);

/// Whether both paths lead to one and the same existing file.
bool same_file(const std::filesystem::path& a, const std::filesystem::path& b);

}  // namespace lobewright::cli
