#include "cli/system/process.h"

#include <csignal>
#include <cstdlib>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

/// The folder that a variable of the environment names; nothing where it names none for sure.
std::optional<fs::path> folder_in(const char* variable) {
    const char* value = std::getenv(variable);
    if (value == nullptr || !fs::path(value).is_absolute()) return std::nullopt;
    return fs::path(value);
}

}  // namespace

void prepare_process() {
    std::signal(SIGXFSZ, SIG_IGN);
}

std::optional<fs::path> user_folder() {
    if (const auto config = folder_in("XDG_CONFIG_HOME")) return *config / "lobewright";
    if (const auto home = folder_in("HOME")) return *home / ".config" / "lobewright";
    return std::nullopt;
}

}  // namespace lobewright::cli
