/// A file that is open for reading.
#pragma once

#include <lobewright/diagnostic.h>

#include <cstdint>
#include <filesystem>
#include <string>
#include <utility>

namespace lobewright::cli {

/// Closes the file when it goes, but for standard input, which it was only lent.
class OpenFile {
  public:
    /// What the system knows an open file by: a descriptor, or a handle.
    using Number = std::intptr_t;
    static constexpr Number none = -1;

    static OpenFile lent(Number number) { return {number, false}; }
    static OpenFile own(Number number) { return {number, true}; }
    OpenFile(OpenFile&& other) noexcept : number_(std::exchange(other.number_, none)), own_(other.own_) {}
    OpenFile& operator=(OpenFile&&) = delete;
    ~OpenFile();

    [[nodiscard]] Number number() const { return number_; }

  private:
    OpenFile(Number number, bool own) : number_(number), own_(own) {}

    Number number_;
    bool own_;
};

/// Opens a file. At a named pipe that nobody writes to it waits where standard error is a terminal, and says
/// so there; elsewhere it gives up after a second. `begun`: what was read of the file on the way to knowing
/// it.
Outcome<OpenFile> open_to_read(const std::filesystem::path& path, std::string& begun);
OpenFile open_standard_input();

/// Of an open file at most that many bytes, waiting for them; none at its end.
Outcome<std::string> read_some(const OpenFile& file, const std::string& name, std::size_t bytes);

/// Where an open file stands, if it can be read from there again, else -1; and whether it is back there.
long long place_in(const OpenFile& file);
bool return_to(const OpenFile& file, long long place);

/// The complaints that a file can't be read, and that it holds more than that many bytes.
Diagnostic not_read(const std::string& name, const std::string& reason,
                    const std::string& remedy = "check the name and the folder");
Diagnostic too_large(const std::string& name, std::size_t most);

}  // namespace lobewright::cli
