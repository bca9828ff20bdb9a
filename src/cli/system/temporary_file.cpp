#include "cli/system/temporary_file.h"

#include "cli/system/interruption.h"

#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <fcntl.h>
#include <string_view>
#include <sys/file.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr int most_attempts = 100;
constexpr const char* ending = ".part";

/// FNV-1a: tells long names apart that begin alike.
std::string number_for(std::string_view name) {
    std::uint64_t hash = 14695981039346656037u;
    for (const char c : name)
        hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211u;
    return std::to_string(hash);
}

/// ".job.ngc.lobewright-", and so that process and attempt still fit into the 255 bytes of a file's name.
std::string beginning_for(const fs::path& target) {
    constexpr std::size_t longest = 180;
    std::string name = target.filename().native();
    if (name.size() > longest) name = name.substr(0, longest) + number_for(name);
    return '.' + name + ".lobewright-";
}

/// "123-0": process and attempt.
bool is_mark(std::string_view text) {
    const std::size_t dash = text.find('-');
    const auto digits = [](std::string_view part) {
        return !part.empty() && part.find_first_not_of("0123456789") == std::string_view::npos;
    };
    return dash != std::string_view::npos && digits(text.substr(0, dash)) && digits(text.substr(dash + 1));
}

bool is_left_over(std::string_view name, std::string_view beginning) {
    const std::string_view end = ending;
    if (!name.starts_with(beginning) || !name.ends_with(end)) return false;
    name.remove_prefix(beginning.size());
    return name.size() > end.size() && is_mark(name.substr(0, name.size() - end.size()));
}

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

}  // namespace

bool write_all(int file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(file, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return false;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

TemporaryFile::TemporaryFile(const fs::path& target) {
    const std::string beginning = beginning_for(target) + std::to_string(::getpid()) + '-';
    for (int attempt = 0; attempt < most_attempts && file_ < 0; ++attempt) {
        if (!make(target.parent_path() / (beginning + std::to_string(attempt) + ending)) && errno != EEXIST)
            return;
    }
}

/// A sweep of another run may get hold of it before it is locked: then it counts as one that was there.
bool TemporaryFile::make(const fs::path& path) {
    const InterruptionsHeld held;
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0) return false;
    struct stat status {};
    if (!lock(file) || ::fstat(file, &status) != 0 || status.st_nlink == 0) {
        ::close(file);
        errno = EEXIST;
        return false;
    }
    path_ = path;
    file_ = file;
    remove_when_interrupted(path_);
    return true;
}

TemporaryFile::~TemporaryFile() {
    if (file_ < 0) return;
    const int reason = errno;
    {
        const InterruptionsHeld held;
        if (!placed_) ::unlink(path_.c_str());
        remove_no_more();
    }
    ::close(file_);
    errno = reason;
}

void TemporaryFile::keep(const Ownership& old) const {
    if (file_ < 0) return;
    // Where one of these fails the file is ours, which is no failure.
    if (::fchown(file_, old.user, old.group) != 0) errno = 0;
    if (::fchmod(file_, static_cast<mode_t>(old.permissions)) != 0) errno = 0;
}

bool TemporaryFile::fill(const std::string& text) {
    return file_ >= 0 && write_all(file_, text) && ::fsync(file_) == 0;
}

bool TemporaryFile::put_at(const fs::path& target) {
    placed_ = std::rename(path_.c_str(), target.c_str()) == 0;
    return placed_;
}

void sweep_left_overs(const fs::path& target) {
    const std::string beginning = beginning_for(target);
    std::error_code failed;
    const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
    for (fs::directory_iterator entry(folder, failed); !failed && entry != fs::directory_iterator();
         entry.increment(failed)) {
        if (is_left_over(entry->path().filename().native(), beginning)) remove_if_left(entry->path());
    }
}

}  // namespace lobewright::cli
