#include "cli/system/path_text.h"
#include "cli/system/windows/wide_text.h"

namespace lobewright::cli {

std::filesystem::path path_of(std::string_view text) {
    return wide(text);
}

std::string text_of(const std::filesystem::path& path) {
    return narrow(path.native());
}

}  // namespace lobewright::cli
