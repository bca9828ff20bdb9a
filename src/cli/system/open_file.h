/// A file that is open for reading.
#pragma once

#include <lobewright/diagnostic.h>

#include <filesystem>
#include <string>
#include <utility>

namespace lobewright::cli {

/// Closes the file when it goes, but for one that it was only lent.
class OpenFile {
  public:
    static OpenFile lent(int number) { return {number, false}; }
    static OpenFile own(int number) { return {number, true}; }
    OpenFile(OpenFile&& other) noexcept : number_(std::exchange(other.number_, -1)), own_(other.own_) {}
    OpenFile& operator=(OpenFile&&) = delete;
    ~OpenFile();

    [[nodiscard]] int number() const { return number_; }

  private:
    OpenFile(int number, bool own) : number_(number), own_(own) {}

    int number_;
    bool own_;
};

/// Opens a file. At a named pipe that nobody writes to it waits where standard error is a terminal, and says
/// so there; elsewhere it gives up after a second. `begun`: what was read of the file on the way to knowing
/// it.
Outcome<OpenFile> open_to_read(const std::filesystem::path& path, std::string& begun);

/// Of an open file at most that many bytes, waiting for them; none at its end.
Outcome<std::string> read_some(const OpenFile& file, const std::string& name, std::size_t bytes);

/// The complaint that a file holds more than that many bytes.
Diagnostic too_large(const std::string& name, std::size_t most);

}  // namespace lobewright::cli
