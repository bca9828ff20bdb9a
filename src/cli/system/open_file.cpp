#include "cli/system/open_file.h"

#include "base/text/characters.h"
#include "cli/system/reading.h"
#include "cli/system/system_reason.h"

#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr int patience_milliseconds = 1000;

Diagnostic not_read(const std::string& name, const std::string& reason,
                    const std::string& remedy = "check the name and the folder") {
    return {Fault::unreadable, Severity::error, "not-read", "can't be read (" + reason + ")", remedy, {name}};
}

bool is_named_pipe(int file) {
    struct stat status {};
    return ::fstat(file, &status) == 0 && S_ISFIFO(status.st_mode);
}

void say_that_it_waits(const std::string& name) {
    std::fprintf(stderr, "%s: nobody writes to this pipe yet: waiting (Ctrl-C gives up)\n",
                 printable(name).c_str());
}

/// Whether somebody writes to a named pipe that is open without waiting, or has done so; what is read on the
/// way to knowing it goes to `text`.
bool await_writer(int file, const std::string& name, std::string& text) {
    for (int patience = patience_milliseconds;;) {
        pollfd pipe{file, POLLIN, 0};
        const int ready = ::poll(&pipe, 1, patience);
        if (ready < 0 && errno == EINTR) continue;
        if (ready != 0) return true;
        // Nothing has come: read() tells one who has not written yet (EAGAIN) from nobody (0).
        char first = '\0';
        const ssize_t size = ::read(file, &first, 1);
        if (size > 0) text += first;
        if (size != 0) return true;
        if (::isatty(STDERR_FILENO) == 0) return false;
        say_that_it_waits(name);
        patience = -1;
    }
}

void let_it_wait(int file) {
    const int flags = ::fcntl(file, F_GETFL);
    if (flags >= 0) ::fcntl(file, F_SETFL, flags & ~O_NONBLOCK);
}

}  // namespace

OpenFile::~OpenFile() {
    if (own_ && number_ >= 0) ::close(number_);
}

Diagnostic cannot_read(const std::string& name, int error) {
    return not_read(name, system_reason(error));
}

Diagnostic too_large(const std::string& name, std::size_t most) {
    return not_read(name, "it is larger than " + std::to_string(most >> 20) + " MiB");
}

Outcome<OpenFile> open_to_read(const fs::path& path, std::string& begun) {
    const std::string name = path.string();
    // Without O_NONBLOCK a named pipe would keep us here until somebody writes to it.
    OpenFile file = OpenFile::own(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK));
    if (file.number() < 0) return cannot_read(name, errno);
    if (is_named_pipe(file.number()) && !await_writer(file.number(), name, begun))
        return not_read(name, "nobody writes to this pipe", "start what writes to it first");
    let_it_wait(file.number());
    return file;
}

Outcome<std::string> read_some(const OpenFile& file, const std::string& name, std::size_t bytes) {
    std::string piece(bytes, '\0');
    for (;;) {
        const ssize_t size = ::read(file.number(), piece.data(), piece.size());
        if (size < 0 && errno == EINTR) continue;
        if (size < 0) return cannot_read(name, errno);
        piece.resize(static_cast<std::size_t>(size));
        return piece;
    }
}

}  // namespace lobewright::cli
