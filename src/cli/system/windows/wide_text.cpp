#include "cli/system/windows/wide_text.h"

#include <windows.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr std::wstring_view verbatim = L"\\\\?\\", device = L"\\\\.\\", share = L"\\\\";

std::wstring absolute(const std::wstring& path) {
    std::wstring full(32768, L'\0');
    const DWORD size =
        ::GetFullPathNameW(path.c_str(), static_cast<DWORD>(full.size()), full.data(), nullptr);
    full.resize(size < full.size() ? size : 0);
    return full.empty() ? path : full;
}

}  // namespace

std::wstring wide(std::string_view text) {
    if (text.empty()) return {};
    const int size = static_cast<int>(text.size());
    std::wstring result(text.size(), L'\0');  // never more units than bytes
    const int units =
        ::MultiByteToWideChar(CP_UTF8, 0, text.data(), size, result.data(), static_cast<int>(result.size()));
    result.resize(static_cast<std::size_t>(units));
    return result;
}

std::string narrow(std::wstring_view text) {
    if (text.empty()) return {};
    const int size = static_cast<int>(text.size());
    std::string result(3 * text.size(), '\0');  // never more than three bytes a unit
    const int bytes = ::WideCharToMultiByte(CP_UTF8, 0, text.data(), size, result.data(),
                                            static_cast<int>(result.size()), nullptr, nullptr);
    result.resize(static_cast<std::size_t>(bytes));
    return result;
}

fs::path long_path(const fs::path& path) {
    const std::wstring full = absolute(path.native());
    const std::wstring_view view = full;
    if (view.starts_with(verbatim) || view.starts_with(device)) return full;
    if (view.starts_with(share)) return std::wstring(verbatim) + L"UNC\\" + full.substr(share.size());
    return std::wstring(verbatim) + full;
}

}  // namespace lobewright::cli
