/// A handle of Windows that closes itself.
#pragma once

#include <string_view>
#include <utility>
#include <windows.h>

namespace lobewright::cli {

class FileHandle {
  public:
    FileHandle() = default;
    explicit FileHandle(HANDLE handle) : handle_(handle) {}
    FileHandle(FileHandle&& other) noexcept : handle_(std::exchange(other.handle_, INVALID_HANDLE_VALUE)) {}
    FileHandle& operator=(FileHandle&& other) noexcept {
        std::swap(handle_, other.handle_);
        return *this;
    }
    ~FileHandle() { close(); }

    [[nodiscard]] HANDLE handle() const { return handle_; }
    [[nodiscard]] bool is_open() const { return handle_ != INVALID_HANDLE_VALUE; }
    void close() {
        if (is_open()) ::CloseHandle(std::exchange(handle_, INVALID_HANDLE_VALUE));
    }

  private:
    HANDLE handle_ = INVALID_HANDLE_VALUE;
};

/// Every byte; false with errno.
bool write_all(HANDLE file, std::string_view text);

}  // namespace lobewright::cli
