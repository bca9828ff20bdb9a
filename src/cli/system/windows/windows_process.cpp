#include "cli/system/last_words.h"
#include "cli/system/path_text.h"
#include "cli/system/process.h"
#include "cli/system/windows/wide_text.h"

#include <utility>
#include <windows.h>

// needs windows.h
#include <shellapi.h>

namespace fs = std::filesystem;

namespace lobewright::cli {

void prepare_process() {
    // A drive that isn't there is told like any other failure, not asked for in a window.
    ::SetErrorMode(SEM_FAILCRITICALERRORS | SEM_NOOPENFILEERRORBOX);
    end_at_once_when_lost();
}

void end_with(std::string_view words, int exit_code) noexcept {
    DWORD written = 0;
    ::WriteFile(::GetStdHandle(STD_ERROR_HANDLE), words.data(), static_cast<DWORD>(words.size()), &written,
                nullptr);
    // What is half written goes when the system closes it.
    ::TerminateProcess(::GetCurrentProcess(), static_cast<UINT>(exit_code));
    for (;;)
        ::Sleep(INFINITE);
}

std::vector<std::string> arguments_of(int, char**) {
    // The words that main gets have lost whatever the system's own encoding has no letters for.
    int count = 0;
    wchar_t** const words = ::CommandLineToArgvW(::GetCommandLineW(), &count);
    std::vector<std::string> arguments;
    for (int i = 1; words != nullptr && i < count; ++i)
        arguments.push_back(narrow(words[i]));
    ::LocalFree(words);
    return arguments;
}

std::optional<std::string> environment(const char* variable) {
    const std::wstring name = wide(variable);
    std::wstring value(32768, L'\0');
    const DWORD size =
        ::GetEnvironmentVariableW(name.c_str(), value.data(), static_cast<DWORD>(value.size()));
    if (size == 0 || size >= value.size()) return std::nullopt;
    return narrow({value.data(), size});
}

std::optional<fs::path> user_folder() {
    const auto data = environment("APPDATA");
    if (!data) return std::nullopt;
    return path_of(*data) / "lobewright";
}

bool speaks_to_terminal() {
    DWORD mode = 0;
    return ::GetConsoleMode(::GetStdHandle(STD_ERROR_HANDLE), &mode) != 0;
}

std::thread thread_without_signals(std::function<void()> work) {
    return std::thread(std::move(work));
}

}  // namespace lobewright::cli
