#include "cli/system/direct_writing.h"
#include "cli/system/windows/file_handle.h"
#include "cli/system/windows/wide_text.h"
#include "cli/system/windows/windows_error.h"
#include "cli/system/writing.h"

#include <algorithm>
#include <string>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr std::size_t piece_size = std::size_t{1} << 20;

bool is_console(HANDLE stream) {
    DWORD mode = 0;
    return ::GetConsoleMode(stream, &mode) != 0;
}

/// A console shows characters, whatever its own encoding.
bool write_to_console(HANDLE console, std::string_view text) {
    constexpr std::size_t units_at_once = 8192;
    const std::wstring all = wide(text);
    for (std::size_t begin = 0; begin < all.size(); begin += units_at_once) {
        const auto units = static_cast<DWORD>(std::min(units_at_once, all.size() - begin));
        DWORD written = 0;
        if (::WriteConsoleW(console, all.data() + begin, units, &written, nullptr) == 0) return failed();
    }
    return true;
}

bool write_to_stream(DWORD stream, std::string_view text) {
    const HANDLE handle = ::GetStdHandle(stream);
    return is_console(handle) ? write_to_console(handle, text) : write_all(handle, text);
}

}  // namespace

bool write_all(HANDLE file, std::string_view text) {
    while (!text.empty()) {
        const auto size = static_cast<DWORD>(std::min(text.size(), piece_size));
        DWORD written = 0;
        if (::WriteFile(file, text.data(), size, &written, nullptr) == 0) return failed();
        text.remove_prefix(written);
    }
    return true;
}

bool write_directly(const fs::path& path, std::string_view text) {
    const FileHandle file(::CreateFileW(long_path(path).c_str(), GENERIC_WRITE,
                                        FILE_SHARE_READ | FILE_SHARE_WRITE, nullptr, OPEN_EXISTING,
                                        FILE_ATTRIBUTE_NORMAL, nullptr));
    return file.is_open() ? write_all(file.handle(), text) : failed();
}

bool write_to_standard_output(std::string_view text) {
    return write_to_stream(STD_OUTPUT_HANDLE, text);
}

void write_standard_error(std::string_view text) {
    // Where even that is gone, the exit code still speaks.
    static_cast<void>(write_to_stream(STD_ERROR_HANDLE, text));
}

}  // namespace lobewright::cli
