#include "cli/system/standing.h"
#include "cli/system/windows/file_handle.h"
#include "cli/system/windows/wide_text.h"
#include "cli/system/windows/windows_error.h"
#include "cli/system/writing.h"

#include <cerrno>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

/// Opens whatever is there to be asked what it is, and for nothing else.
FileHandle open_to_ask(const fs::path& path) {
    return FileHandle(::CreateFileW(long_path(path).c_str(), FILE_READ_ATTRIBUTES,
                                    FILE_SHARE_READ | FILE_SHARE_WRITE | FILE_SHARE_DELETE, nullptr,
                                    OPEN_EXISTING, FILE_FLAG_BACKUP_SEMANTICS, nullptr));
}

void tell_of_file(const BY_HANDLE_FILE_INFORMATION& file, Standing& standing) {
    const bool is_folder = (file.dwFileAttributes & FILE_ATTRIBUTE_DIRECTORY) != 0;
    standing.kind = is_folder ? Standing::Kind::folder : Standing::Kind::file;
    if (!is_folder && (file.dwFileAttributes & FILE_ATTRIBUTE_READONLY) != 0) standing.protection = EACCES;
}

}  // namespace

Standing standing_at(const fs::path& path) {
    Standing standing;
    const FileHandle file = open_to_ask(path);
    if (!file.is_open()) {
        const int reason = errno_of(::GetLastError());
        standing.error = reason == ENOENT ? 0 : reason;
        return standing;
    }
    BY_HANDLE_FILE_INFORMATION information{};
    if (::GetFileType(file.handle()) != FILE_TYPE_DISK) {
        standing.kind = Standing::Kind::device;
    } else if (::GetFileInformationByHandle(file.handle(), &information) != 0) {
        tell_of_file(information, standing);
    } else {
        standing.error = errno_of(::GetLastError());
    }
    return standing;
}

std::optional<fs::path> end_of_links(const fs::path& path) {
    const FileHandle file = open_to_ask(path);
    std::wstring end(32768, L'\0');
    const DWORD size = file.is_open() ? ::GetFinalPathNameByHandleW(file.handle(), end.data(),
                                                                    static_cast<DWORD>(end.size()), 0)
                                      : 0;
    // A drive that has no such names has no links either.
    if (size == 0 || size >= end.size()) return long_path(path);
    end.resize(size);
    return end;
}

bool same_file(const fs::path& a, const fs::path& b) {
    const FileHandle first = open_to_ask(a), second = open_to_ask(b);
    BY_HANDLE_FILE_INFORMATION one{}, other{};
    return first.is_open() && second.is_open() && ::GetFileInformationByHandle(first.handle(), &one) != 0 &&
           ::GetFileInformationByHandle(second.handle(), &other) != 0 &&
           one.dwVolumeSerialNumber == other.dwVolumeSerialNumber &&
           one.nFileIndexHigh == other.nFileIndexHigh && one.nFileIndexLow == other.nFileIndexLow;
}

}  // namespace lobewright::cli
