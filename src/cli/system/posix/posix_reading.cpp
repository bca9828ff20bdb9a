#include "base/text/characters.h"
#include "cli/system/open_file.h"
#include "cli/system/path_text.h"
#include "cli/system/posix/posix_calls.h"
#include "cli/system/process.h"
#include "cli/system/reading.h"
#include "cli/system/writing.h"

#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr int patience_milliseconds = 1000;

int descriptor(const OpenFile& file) {
    return static_cast<int>(file.number());
}

bool is_named_pipe(int file) {
    struct stat status {};
    return ::fstat(file, &status) == 0 && S_ISFIFO(status.st_mode);
}

void say_that_it_waits(const std::string& name) {
    write_standard_error(printable(name) + ": nobody writes to this pipe yet: waiting (Ctrl-C gives up)\n");
}

/// Whether somebody writes to a named pipe that is open without waiting, or has done so; what is read on the
/// way to knowing it goes to `text`.
bool await_writer(int file, const std::string& name, std::string& text) {
    for (int patience = patience_milliseconds;;) {
        pollfd pipe{file, POLLIN, 0};
        if (until_through([&] { return ::poll(&pipe, 1, patience); }) != 0) return true;
        // Nothing has come: read() tells one who has not written yet (EAGAIN) from nobody (0).
        char first = '\0';
        const ssize_t size = until_through([&] { return ::read(file, &first, 1); });
        if (size > 0) text += first;
        if (size != 0) return true;
        if (!speaks_to_terminal()) return false;
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
    if (own_ && number_ != none) ::close(static_cast<int>(number_));
}

Outcome<OpenFile> open_to_read(const fs::path& path, std::string& begun) {
    const std::string name = text_of(path);
    // Without O_NONBLOCK a named pipe would keep us here until somebody writes to it.
    const int number =
        until_through([&] { return ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK); });
    if (number < 0) return cannot_read(name, errno);
    OpenFile file = OpenFile::own(number);
    if (is_named_pipe(number) && !await_writer(number, name, begun))
        return not_read(name, "nobody writes to this pipe", "start what writes to it first");
    let_it_wait(number);
    return file;
}

OpenFile open_standard_input() {
    return OpenFile::lent(STDIN_FILENO);
}

Outcome<std::string> read_some(const OpenFile& file, const std::string& name, std::size_t bytes) {
    std::string piece(bytes, '\0');
    const ssize_t size = until_through(descriptor(file), POLLIN,
                                       [&] { return ::read(descriptor(file), piece.data(), piece.size()); });
    if (size < 0) return cannot_read(name, errno);
    piece.resize(static_cast<std::size_t>(size));
    return piece;
}

long long place_in(const OpenFile& file) {
    return ::lseek(descriptor(file), 0, SEEK_CUR);
}

bool return_to(const OpenFile& file, long long place) {
    return ::lseek(descriptor(file), place, SEEK_SET) == place;
}

}  // namespace lobewright::cli
