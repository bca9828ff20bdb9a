/// Why a file is not written, in words.
#pragma once

#include <lobewright/diagnostic.h>

#include <filesystem>
#include <string>

namespace lobewright::cli {

Diagnostic not_written(const std::filesystem::path& path, const std::string& reason,
                       const std::string& remedy);
/// `error`: the system's error number.
Diagnostic cannot_write(const std::filesystem::path& path, int error);
Diagnostic already_there(const std::filesystem::path& path);
Diagnostic one_name_twice(const std::filesystem::path& path);

}  // namespace lobewright::cli
