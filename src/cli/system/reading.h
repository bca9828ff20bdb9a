/// Reading files and standard input, whole, and never more than is wanted.
#pragma once

#include <lobewright/diagnostic.h>

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lobewright::cli {

/// The whole of a file. Failures are Fault::unreadable with the reason: absent, a folder, larger than `most`
/// bytes (of which no more is read), or a named pipe that nobody writes to. At such a pipe it waits where
/// standard error is a terminal, and says so there; elsewhere it gives up after a second.
Outcome<std::string> read_whole(const std::filesystem::path& path, std::size_t most);

/// The whole of standard input, called so in messages.
Outcome<std::string> read_standard_input(std::size_t most);

class OpenFile;

/// A file, or standard input, piece by piece, so that little of it stands in memory at a time. Of what can't
/// be read twice, a pipe for instance, all pieces are kept for the second time.
class TextInPieces {
  public:
    /// Failures are those of read_whole and read_standard_input; more than `most` bytes are told when they
    /// come.
    static Outcome<TextInPieces> of_file(const std::filesystem::path& path, std::size_t most);
    static Outcome<TextInPieces> of_standard_input(std::size_t most);
    TextInPieces(TextInPieces&&) noexcept;
    TextInPieces& operator=(TextInPieces&&) = delete;
    ~TextInPieces();

    /// The next piece, which stays until the next call; empty at the end.
    Outcome<std::string_view> next();
    /// From the beginning again.
    void rewind();

  private:
    TextInPieces(std::unique_ptr<OpenFile> file, std::string name, std::size_t most);
    static Outcome<TextInPieces> open(OpenFile file, std::string name, std::size_t most, std::string begun);

    std::unique_ptr<OpenFile> file_;
    std::string name_;
    std::size_t most_, size_ = 0;       // bytes: allowed, and read so far
    long long start_;                   // where in the file it begins; -1: it can't be read twice
    std::optional<std::string> first_;  // read at once, so that what can't be read at all is told at once
    std::string piece_;
    std::vector<std::string> kept_;
    std::size_t next_kept_ = 0;
    bool lost_ = false;  // it did not come back to the beginning
};

/// The complaint that a file can't be read; `error`: the system's error number.
Diagnostic cannot_read(const std::string& name, int error);

/// What standard input is called wherever a file has a name.
inline constexpr const char* standard_input = "standard input";

}  // namespace lobewright::cli
