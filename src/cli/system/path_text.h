/// Paths as texts.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace lobewright::cli {

/// Inside, every text is UTF-8, whatever the system's own encoding; so a path comes of a text, and its name
/// in a message of the path, by these two alone. The library's own conversions take each byte for a letter on
/// Windows.
std::filesystem::path path_of(std::string_view text);
std::string text_of(const std::filesystem::path& path);

}  // namespace lobewright::cli
