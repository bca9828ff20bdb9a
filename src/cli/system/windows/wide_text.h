/// Texts as Windows takes them. Inside, every text is UTF-8.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace lobewright::cli {

/// What is no UTF-8, or no UTF-16, becomes U+FFFD.
std::wstring wide(std::string_view text);
std::string narrow(std::wstring_view text);

/// A path that may be longer than 260 characters: absolute, beginning with \\?\; a device's stays \\.\NUL.
std::filesystem::path long_path(const std::filesystem::path& path);

}  // namespace lobewright::cli
