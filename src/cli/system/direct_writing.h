/// Writing to what is there: devices, pipes and the standard streams.
#pragma once

#include <filesystem>
#include <string_view>

namespace lobewright::cli {

/// False with errno. A reader that has gone away is a failure like any other.
bool write_directly(const std::filesystem::path& path, std::string_view text);
bool write_to_standard_output(std::string_view text);

}  // namespace lobewright::cli
