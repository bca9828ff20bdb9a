#include "cli/system/standing.h"

#include <climits>

#include <array>
#include <cerrno>
#include <sys/stat.h>
#include <unistd.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr int most_links = 40;  // as many as Linux follows

Standing::Kind kind_of(mode_t mode) {
    if (S_ISREG(mode)) return Standing::Kind::file;
    return S_ISDIR(mode) ? Standing::Kind::folder : Standing::Kind::device;
}

/// Where a link leads; empty, with errno, where it can't be read.
fs::path led_to(const fs::path& link) {
    std::array<char, PATH_MAX> text{};
    const ssize_t size = ::readlink(link.c_str(), text.data(), text.size());
    if (size < 0) return {};
    return link.parent_path() / std::string(text.data(), static_cast<std::size_t>(size));
}

}  // namespace

Standing standing_at(const fs::path& path) {
    struct stat status {};
    Standing standing;
    if (::stat(path.c_str(), &status) != 0) {
        standing.error = errno == ENOENT ? 0 : errno;
        return standing;
    }
    standing.kind = kind_of(status.st_mode);
    standing.protection = ::access(path.c_str(), W_OK) == 0 ? 0 : errno;
    standing.user = status.st_uid;
    standing.group = status.st_gid;
    standing.permissions = status.st_mode & 07777u;
    return standing;
}

std::optional<fs::path> end_of_links(const fs::path& path) {
    fs::path end = path;
    for (int depth = 0; depth <= most_links; ++depth) {
        struct stat status {};
        const bool there = ::lstat(end.c_str(), &status) == 0;
        if (!there && errno != ENOENT) return std::nullopt;
        if (!there || !S_ISLNK(status.st_mode)) return end;
        end = led_to(end);
        if (end.empty()) return std::nullopt;
    }
    errno = ELOOP;
    return std::nullopt;
}

}  // namespace lobewright::cli
