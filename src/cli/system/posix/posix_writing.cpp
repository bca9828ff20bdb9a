#include "cli/system/direct_writing.h"
#include "cli/system/posix/posix_calls.h"
#include "cli/system/writing.h"

#include <fcntl.h>
#include <unistd.h>

namespace fs = std::filesystem;

namespace lobewright::cli {

bool write_all(int file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t written =
            until_through(file, POLLOUT, [&] { return ::write(file, text.data(), text.size()); });
        if (written < 0) return false;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

bool write_directly(const fs::path& path, std::string_view text) {
    const int file = until_through([&] { return ::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY); });
    if (file < 0) return false;
    const bool written = write_all(file, text);
    const int reason = errno;
    // Closing may tell of a failure that writing did not.
    const bool closed = ::close(file) == 0;
    if (!written) errno = reason;
    return written && closed;
}

bool write_to_standard_output(std::string_view text) {
    return write_all(STDOUT_FILENO, text);
}

void write_standard_error(std::string_view text) {
    // Where even that is gone, the exit code still speaks.
    static_cast<void>(write_all(STDERR_FILENO, text));
}

bool same_file(const fs::path& a, const fs::path& b) {
    std::error_code ignored;
    return fs::equivalent(a, b, ignored) && !ignored;
}

}  // namespace lobewright::cli
