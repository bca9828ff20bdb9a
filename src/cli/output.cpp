#include "cli/output.h"

#include "cli/system_reason.h"

#include <cerrno>
#include <fcntl.h>
#include <string_view>
#include <sys/stat.h>
#include <unistd.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

Diagnostic cannot_write(const std::string& path, int reason) {
    return {Fault::unreadable,
            Severity::error,
            "not-written",
            "can't be written (" + system_reason(reason) + ")",
            "nothing was changed there; name another file or folder with -o, or make room",
            {path}};
}

/// Every byte, whatever the number of pieces the system takes it in.
bool write_all(int file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(file, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return false;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

/// A file that goes away again unless it was put in its place.
class TemporaryFile {
  public:
    TemporaryFile(const fs::path& target, const struct stat* old) {
        for (int attempt = 0; attempt < 100 && file_ < 0; ++attempt) {
            path_ = target.parent_path() /
                    (".lobewright-" + std::to_string(::getpid()) + "-" + std::to_string(attempt) + ".part");
            file_ = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
            if (file_ < 0 && errno != EEXIST) return;
        }
        made_ = file_ >= 0;
        if (made_ && old != nullptr) keep_permissions(*old);
    }
    ~TemporaryFile() {
        if (file_ >= 0) ::close(file_);
        if (made_ && !placed_) ::unlink(path_.c_str());
    }
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;

    /// False at the first step that fails, with errno.
    bool fill(const std::string& text) {
        return made_ && write_all(file_, text) && ::fsync(file_) == 0 && close();
    }
    bool put_at(const fs::path& target) {
        placed_ = std::rename(path_.c_str(), target.c_str()) == 0;
        return placed_;
    }

  private:
    bool close() {
        const int file = file_;
        file_ = -1;
        return ::close(file) == 0;
    }
    void keep_permissions(const struct stat& old) const {
        // Only root may give a file to someone else; where that fails the file is ours, which is no failure.
        if (::fchown(file_, old.st_uid, old.st_gid) != 0) errno = 0;
        if (::fchmod(file_, old.st_mode & 07777) != 0) errno = 0;
    }

    fs::path path_;
    int file_ = -1;
    bool made_ = false;
    bool placed_ = false;
};

std::optional<Diagnostic> write_directly(const fs::path& path, const std::string& text) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY);
    if (file < 0) return cannot_write(path.string(), errno);
    const int failed = write_all(file, text) ? 0 : errno;
    if (::close(file) != 0 && failed == 0) return cannot_write(path.string(), errno);
    if (failed != 0) return cannot_write(path.string(), failed);
    return std::nullopt;
}

/// Where a chain of links ends, whether or not a file is there.
fs::path end_of_links(fs::path path) {
    std::error_code ignored;
    for (int depth = 0; depth < 40 && fs::is_symlink(path, ignored); ++depth) {
        path = path.parent_path() / fs::read_symlink(path, ignored);
    }
    return path;
}

}  // namespace

std::optional<Diagnostic> write_whole(const fs::path& path, const std::string& text, bool must_be_new) {
    const fs::path target = end_of_links(path);
    struct stat old {};
    const bool exists = ::stat(target.c_str(), &old) == 0;
    if (exists && must_be_new) {
        return Diagnostic{Fault::bad_input,
                          Severity::error,
                          "file-exists",
                          "there is a file of that name already",
                          "give another name, or move the old file away",
                          {path.string()}};
    }
    if (exists && S_ISDIR(old.st_mode)) return cannot_write(path.string(), EISDIR);
    if (exists && !S_ISREG(old.st_mode)) return write_directly(target, text);
    if (exists && ::access(target.c_str(), W_OK) != 0) return cannot_write(path.string(), errno);
    TemporaryFile temporary(target, exists ? &old : nullptr);
    if (temporary.fill(text) && temporary.put_at(target)) return std::nullopt;
    const int reason = errno;
    return cannot_write(path.string(), reason);
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
