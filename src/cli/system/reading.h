/// Reading files and standard input, whole, and never more than is wanted.
#pragma once

#include <lobewright/diagnostic.h>

#include <cstddef>
#include <filesystem>
#include <string>

namespace lobewright::cli {

/// The whole of a file. Failures are Fault::unreadable with the reason: absent, a folder, larger than `most`
/// bytes (of which no more is read), or a named pipe that nobody writes to. At such a pipe it waits where
/// standard error is a terminal, and says so there; elsewhere it gives up after a second.
Outcome<std::string> read_whole(const std::filesystem::path& path, std::size_t most);

/// The whole of standard input, called so in messages.
Outcome<std::string> read_standard_input(std::size_t most);

/// The complaint that a file can't be read; `error`: the system's error number.
Diagnostic cannot_read(const std::string& name, int error);

/// What standard input is called wherever a file has a name.
inline constexpr const char* standard_input = "standard input";

}  // namespace lobewright::cli
