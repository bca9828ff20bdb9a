#include "cli/system/last_words.h"
#include "cli/system/posix/interruption.h"
#include "cli/system/process.h"
#include "cli/system/writing.h"

#include <csignal>
#include <cstdlib>
#include <unistd.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

/// The folder that a variable of the environment names; nothing where it names none for sure.
std::optional<fs::path> folder_in(const char* variable) {
    const auto value = environment(variable);
    if (!value || !fs::path(*value).is_absolute()) return std::nullopt;
    return fs::path(*value);
}

}  // namespace

void prepare_process() {
    std::signal(SIGXFSZ, SIG_IGN);
    end_at_once_when_lost();
}

void end_with(std::string_view words, int exit_code) noexcept {
    write_standard_error(words);
    remove_what_is_half_written();
    ::_exit(exit_code);
}

std::vector<std::string> arguments_of(int count, char** words) {
    return {words + (count > 0 ? 1 : 0), words + count};
}

std::optional<std::string> environment(const char* variable) {
    const char* value = std::getenv(variable);
    if (value == nullptr || *value == '\0') return std::nullopt;
    return value;
}

std::optional<fs::path> user_folder() {
    if (const auto config = folder_in("XDG_CONFIG_HOME")) return *config / "lobewright";
    if (const auto home = folder_in("HOME")) return *home / ".config" / "lobewright";
    return std::nullopt;
}

bool speaks_to_terminal() {
    return ::isatty(STDERR_FILENO) != 0;
}

}  // namespace lobewright::cli
