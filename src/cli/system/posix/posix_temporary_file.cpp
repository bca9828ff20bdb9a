#include "cli/system/left_over_names.h"
#include "cli/system/posix/interruption.h"
#include "cli/system/posix/posix_calls.h"
#include "cli/system/temporary_file.h"

#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

/// Whether the file is locked by us now; where the system has no locks, it is as good as locked.
bool lock(int file) {
    return ::flock(file, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK;
}

/// Unless its writer still lives: it holds the lock.
void remove_if_left(const fs::path& path) {
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY);
    if (file < 0) return;
    struct stat status {};
    const bool ours = ::fstat(file, &status) == 0 && S_ISREG(status.st_mode) && status.st_uid == ::geteuid();
    if (ours && ::flock(file, LOCK_EX | LOCK_NB) == 0) ::unlink(path.c_str());
    ::close(file);
}

/// Closes and fails, with errno as it is, or with another reason.
int not_open(int file, int reason) {
    ::close(file);
    errno = reason;
    return -1;
}

/// Makes the file and locks it. A sweep of another run may get hold of it before it is locked: then it counts
/// as one that was there.
int open_locked(const fs::path& path) {
    const int file =
        until_through([&] { return ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666); });
    if (file < 0) return file;
    if (!lock(file)) return not_open(file, EEXIST);
    struct stat status {};
    if (::fstat(file, &status) != 0) {
        const int reason = errno;
        ::unlink(path.c_str());
        return not_open(file, reason);
    }
    return status.st_nlink == 0 ? not_open(file, EEXIST) : file;
}

}  // namespace

struct TemporaryFile::InSystem {
    explicit InSystem(fs::path name) : path(std::move(name)), interruption(path) {}

    fs::path path;
    int file = -1;
    bool placed = false;
    RemovedWhenInterrupted interruption;
};

TemporaryFile::TemporaryFile(const fs::path& target) {
    const std::string beginning = left_over_beginning(target);
    const auto process = static_cast<unsigned long>(::getpid());
    for (int attempt = 0; attempt < most_attempts; ++attempt) {
        auto made = std::make_unique<InSystem>(target.parent_path() /
                                               (beginning + left_over_ending(process, attempt)));
        const InterruptionsHeld held;
        made->file = open_locked(made->path);
        if (made->file >= 0) made->interruption.enter();
        if (made->file >= 0) in_system_ = std::move(made);
        if (in_system_ || errno != EEXIST) return;
    }
}

TemporaryFile::~TemporaryFile() {
    if (!in_system_) return;
    const int reason = errno;
    {
        const InterruptionsHeld held;
        if (!in_system_->placed) ::unlink(in_system_->path.c_str());
        in_system_->interruption.leave();
    }
    ::close(in_system_->file);
    errno = reason;
}

void TemporaryFile::keep(const Standing& old) const {
    if (!in_system_) return;
    const int reason = errno;
    // Where one of these fails the file is ours, which is no failure.
    if (::fchown(in_system_->file, old.user, old.group) != 0) errno = reason;
    if (::fchmod(in_system_->file, static_cast<mode_t>(old.permissions)) != 0) errno = reason;
}

bool TemporaryFile::fill(std::string_view text) {
    if (!in_system_) return false;
    const int file = in_system_->file;
    return write_all(file, text) && until_through([&] { return ::fsync(file); }) == 0;
}

bool TemporaryFile::put_at(const fs::path& target, bool replace) {
    if (!in_system_) return false;
    const char* const from = in_system_->path.c_str();
    if (!replace && ::link(from, target.c_str()) == 0) {
        in_system_->placed = true;
        ::unlink(from);
        return true;
    }
    if (!replace && errno == EEXIST) return false;
    in_system_->placed = std::rename(from, target.c_str()) == 0;
    return in_system_->placed;
}

void sweep_left_overs(const fs::path& target) {
    const std::string beginning = left_over_beginning(target);
    std::error_code failed;
    for (fs::directory_iterator entry(folder_of(target), failed);
         !failed && entry != fs::directory_iterator(); entry.increment(failed)) {
        if (is_left_over(entry->path().filename().native(), beginning)) remove_if_left(entry->path());
    }
}

bool flush_folder(const fs::path& folder) {
    const int file =
        until_through([&] { return ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC); });
    if (file < 0) return errno == EACCES;
    const bool flushed = until_through([&] { return ::fsync(file); }) == 0 || errno == EINVAL ||
                         errno == ENOTSUP || errno == EROFS;
    const int reason = errno;
    ::close(file);
    errno = reason;
    return flushed;
}

}  // namespace lobewright::cli
