#include "cli/system/open_file.h"
#include "cli/system/path_text.h"
#include "cli/system/reading.h"
#include "cli/system/windows/wide_text.h"
#include "cli/system/windows/windows_error.h"

#include <cerrno>
#include <windows.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

HANDLE handle(const OpenFile& file) {
    return reinterpret_cast<HANDLE>(file.number());
}

bool is_folder(const fs::path& path) {
    const DWORD attributes = ::GetFileAttributesW(path.c_str());
    return attributes != INVALID_FILE_ATTRIBUTES && (attributes & FILE_ATTRIBUTE_DIRECTORY) != 0;
}

}  // namespace

OpenFile::~OpenFile() {
    if (own_ && number_ != none) ::CloseHandle(reinterpret_cast<HANDLE>(number_));
}

Outcome<OpenFile> open_to_read(const fs::path& path, std::string&) {
    const fs::path name = long_path(path);
    const HANDLE file =
        ::CreateFileW(name.c_str(), GENERIC_READ, FILE_SHARE_READ | FILE_SHARE_WRITE | FILE_SHARE_DELETE,
                      nullptr, OPEN_EXISTING, FILE_ATTRIBUTE_NORMAL, nullptr);
    if (file != INVALID_HANDLE_VALUE) return OpenFile::own(reinterpret_cast<OpenFile::Number>(file));
    failed();
    const int reason = errno;
    return cannot_read(text_of(path), is_folder(name) ? EISDIR : reason);
}

OpenFile open_standard_input() {
    return OpenFile::lent(reinterpret_cast<OpenFile::Number>(::GetStdHandle(STD_INPUT_HANDLE)));
}

Outcome<std::string> read_some(const OpenFile& file, const std::string& name, std::size_t bytes) {
    std::string piece(bytes, '\0');
    DWORD size = 0;
    if (::ReadFile(handle(file), piece.data(), static_cast<DWORD>(bytes), &size, nullptr) == 0) {
        const DWORD error = ::GetLastError();
        // The writer of a pipe has gone: that is the end.
        if (error != ERROR_BROKEN_PIPE && error != ERROR_HANDLE_EOF)
            return cannot_read(name, errno_of(error));
    }
    piece.resize(size);
    return piece;
}

long long place_in(const OpenFile& file) {
    LARGE_INTEGER place{};
    if (::GetFileType(handle(file)) != FILE_TYPE_DISK) return -1;
    return ::SetFilePointerEx(handle(file), {}, &place, FILE_CURRENT) != 0 ? place.QuadPart : -1;
}

bool return_to(const OpenFile& file, long long place) {
    LARGE_INTEGER wanted{};
    wanted.QuadPart = place;
    return ::SetFilePointerEx(handle(file), wanted, nullptr, FILE_BEGIN) != 0;
}

}  // namespace lobewright::cli
