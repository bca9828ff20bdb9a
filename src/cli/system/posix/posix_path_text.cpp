#include "cli/system/path_text.h"

namespace lobewright::cli {

// A path is bytes here, be they UTF-8 or not.
std::filesystem::path path_of(std::string_view text) {
    return text;
}

std::string text_of(const std::filesystem::path& path) {
    return path.native();
}

}  // namespace lobewright::cli
