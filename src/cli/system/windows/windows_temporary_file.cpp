#include "cli/system/left_over_names.h"
#include "cli/system/path_text.h"
#include "cli/system/temporary_file.h"
#include "cli/system/windows/file_handle.h"
#include "cli/system/windows/wide_text.h"
#include "cli/system/windows/windows_error.h"

#include <cerrno>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

/// As long as this is on, the system removes the file when it is closed, be it that we are killed.
bool remove_when_closed(HANDLE file, bool on) {
    FILE_DISPOSITION_INFO disposition{};
    disposition.DeleteFile = on ? TRUE : FALSE;
    return ::SetFileInformationByHandle(file, FileDispositionInfo, &disposition, sizeof disposition) != 0;
}

/// Readers of the old file, programs that look for viruses among them, are given this long to let it go.
constexpr int most_tries = 20;
constexpr DWORD milliseconds_between = 50;

bool is_in_use(DWORD error) {
    return error == ERROR_SHARING_VIOLATION || error == ERROR_ACCESS_DENIED || error == ERROR_LOCK_VIOLATION;
}

bool move_to(const fs::path& from, const fs::path& to, DWORD flags) {
    for (int tries = 1;; ++tries) {
        if (::MoveFileExW(from.c_str(), to.c_str(), flags | MOVEFILE_WRITE_THROUGH) != 0) return true;
        if (tries == most_tries || !is_in_use(::GetLastError())) return failed();
        ::Sleep(milliseconds_between);
    }
}

}  // namespace

struct TemporaryFile::InSystem {
    fs::path path;
    FileHandle file;
    bool placed = false;
};

TemporaryFile::TemporaryFile(const fs::path& target) {
    const std::string beginning = left_over_beginning(target);
    for (int attempt = 0; attempt < most_attempts; ++attempt) {
        const std::string name = beginning + left_over_ending(::GetCurrentProcessId(), attempt);
        const fs::path path = long_path(target.parent_path() / path_of(name));
        FileHandle file(::CreateFileW(path.c_str(), GENERIC_WRITE | DELETE, 0, nullptr, CREATE_NEW,
                                      FILE_ATTRIBUTE_NORMAL, nullptr));
        if (file.is_open()) {
            remove_when_closed(file.handle(), true);  // where it can't be, the next run sweeps it
            in_system_ = std::make_unique<InSystem>(InSystem{path, std::move(file), false});
            return;
        }
        failed();
        if (errno != EEXIST) return;
    }
}

TemporaryFile::~TemporaryFile() {
    if (!in_system_) return;
    const int reason = errno;
    in_system_->file.close();
    if (!in_system_->placed) ::DeleteFileW(in_system_->path.c_str());
    errno = reason;
}

void TemporaryFile::keep(const Standing&) const {}

bool TemporaryFile::fill(std::string_view text) {
    if (!in_system_) return false;
    const HANDLE file = in_system_->file.handle();
    return write_all(file, text) && (::FlushFileBuffers(file) != 0 || failed());
}

bool TemporaryFile::put_at(const fs::path& target, bool replace) {
    if (!in_system_) return false;
    remove_when_closed(in_system_->file.handle(), false);
    in_system_->file.close();
    in_system_->placed = move_to(in_system_->path, target, replace ? MOVEFILE_REPLACE_EXISTING : 0);
    return in_system_->placed;
}

void sweep_left_overs(const fs::path& target) {
    const std::string beginning = left_over_beginning(target);
    const fs::path folder = long_path(folder_of(target));
    WIN32_FIND_DATAW found{};
    const HANDLE search = ::FindFirstFileW((folder / L"*").c_str(), &found);
    if (search == INVALID_HANDLE_VALUE) return;
    do {
        constexpr DWORD others = FILE_ATTRIBUTE_DIRECTORY | FILE_ATTRIBUTE_REPARSE_POINT;
        // One that is being written is open, and can't be removed.
        if ((found.dwFileAttributes & others) == 0 && is_left_over(narrow(found.cFileName), beginning))
            ::DeleteFileW((folder / found.cFileName).c_str());
    } while (::FindNextFileW(search, &found) != 0);
    ::FindClose(search);
}

bool flush_folder(const fs::path&) {
    return true;  // the move itself is written through
}

}  // namespace lobewright::cli
