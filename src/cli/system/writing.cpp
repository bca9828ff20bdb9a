#include "cli/system/writing.h"

#include "cli/system/system_reason.h"
#include "cli/system/temporary_file.h"

#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

std::optional<Diagnostic> write_directly(const fs::path& path, const std::string& text) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY);
    if (file < 0) return cannot_write(path.string(), errno);
    const int failed = write_all(file, text) ? 0 : errno;
    if (::close(file) != 0 && failed == 0) return cannot_write(path.string(), errno);
    if (failed != 0) return cannot_write(path.string(), failed);
    return std::nullopt;
}

constexpr int most_links = 40;  // as many as Linux follows

/// Where a chain of links ends, whether or not a file is there; nothing where they lead round in a circle.
std::optional<fs::path> end_of_links(fs::path path) {
    std::error_code failed;
    for (int depth = 0; depth <= most_links; ++depth) {
        if (!fs::is_symlink(path, failed)) return path;
        path = path.parent_path() / fs::read_symlink(path, failed);
    }
    return std::nullopt;
}

std::optional<Diagnostic> replace(const fs::path& path, const fs::path& target, const struct stat* old,
                                  const std::string& text) {
    TemporaryFile temporary(target);
    if (old != nullptr) temporary.keep({old->st_uid, old->st_gid, old->st_mode & 07777u});
    if (temporary.fill(text) && temporary.put_at(target)) return std::nullopt;
    return cannot_write(path.string(), errno);
}

}  // namespace

Diagnostic cannot_write(const std::string& name, int reason) {
    return {Fault::unreadable,
            Severity::error,
            "not-written",
            "can't be written (" + system_reason(reason) + ")",
            "nothing was changed there; name another file or folder with -o, or make room",
            {name}};
}

Diagnostic file_exists(const fs::path& path) {
    return {Fault::bad_input,
            Severity::error,
            "file-exists",
            "there is a file of that name already",
            "give another name, or move the old file away",
            {path.string()}};
}

std::optional<Diagnostic> write_whole(const fs::path& path, const std::string& text, bool must_be_new) {
    const std::optional<fs::path> target = end_of_links(path);
    if (!target) return cannot_write(path.string(), ELOOP);
    struct stat old {};
    const bool exists = ::stat(target->c_str(), &old) == 0;
    if (!exists && errno != ENOENT) return cannot_write(path.string(), errno);
    if (exists && must_be_new) return file_exists(path);
    if (exists && S_ISDIR(old.st_mode)) return cannot_write(path.string(), EISDIR);
    if (exists && !S_ISREG(old.st_mode)) return write_directly(*target, text);
    if (exists && ::access(target->c_str(), W_OK) != 0) return cannot_write(path.string(), errno);
    return replace(path, *target, exists ? &old : nullptr, text);
}

void sweep_beside(const fs::path& path) {
    if (const std::optional<fs::path> target = end_of_links(path)) sweep_left_overs(*target);
}

std::optional<Diagnostic> write_standard_output(const std::string& text) {
    if (write_all(STDOUT_FILENO, text)) return std::nullopt;
    Diagnostic failure = cannot_write("standard output", errno);
    failure.remedy = "make room, or name a file with -o";
    return failure;
}

bool same_file(const fs::path& a, const fs::path& b) {
    std::error_code ignored;
    return fs::equivalent(a, b, ignored) && !ignored;
}

}  // namespace lobewright::cli
