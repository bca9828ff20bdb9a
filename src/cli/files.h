/// What a run reads and writes: the files and standard streams of a process, or texts in memory.
#pragma once

#include "cli/system/writing.h"

#include <lobewright/diagnostic.h>
#include <lobewright/known_shapes.h>

#include <cstddef>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lobewright::cli {

/// A text that comes piece by piece.
class TextSource {
  public:
    virtual ~TextSource() = default;
    /// The next piece, which stays until the next call; empty at the end.
    virtual Outcome<std::string_view> next() = 0;
    /// From the beginning again.
    virtual void rewind() = 0;
};

/// All that the commands know of the outside. Reading fails with Fault::unreadable and the reason: absent, a
/// folder, more than `most` bytes.
class Files {
  public:
    virtual ~Files() = default;

    virtual Outcome<std::string> read(const std::filesystem::path& path, std::size_t most) = 0;
    virtual Outcome<std::string> read_standard_input(std::size_t most) = 0;
    virtual Outcome<std::unique_ptr<TextSource>> open(const std::filesystem::path& path,
                                                      std::size_t most) = 0;
    virtual Outcome<std::unique_ptr<TextSource>> open_standard_input(std::size_t most) = 0;

    virtual bool is_file(const std::filesystem::path& path) = 0;
    virtual bool is_folder(const std::filesystem::path& path) = 0;
    /// Whether anything stands there; what keeps us from knowing is a failure.
    virtual Outcome<bool> exists(const std::filesystem::path& path) = 0;
    /// Whether both lead to one and the same file, which is there.
    virtual bool same_file(const std::filesystem::path& a, const std::filesystem::path& b) = 0;
    /// The folder of the user's own post-processors, which need not be there; nothing where nobody says where
    /// it is. `in_folder`: what lies in a folder, in any order.
    virtual std::optional<std::filesystem::path> posts_folder() = 0;
    virtual std::vector<std::filesystem::path> in_folder(const std::filesystem::path& folder) = 0;

    /// Puts all of them in their places, each whole or not at all. Two of one name are refused, and by
    /// `must_be_new` whatever is there (Fault::bad_input).
    virtual std::optional<Diagnostic> write(const std::vector<FileToWrite>& files, bool must_be_new) = 0;
    virtual std::optional<Diagnostic> write_standard_output(std::string_view text) = 0;
    /// To standard error. It can't fail: the exit code still speaks.
    virtual void say(std::string_view lines) = 0;
    /// Does `work`; whoever waits for it is told so where it takes long, if `told`.
    virtual void at_work(bool told, const std::function<void()>& work) = 0;
    /// Takes away what killed runs have left beside `path`.
    virtual void sweep_beside(const std::filesystem::path& path) = 0;
};

/// Where a run reads, what is known from runs before, and which files it has read: -o must be none of them.
struct Inputs {
    Files& files;
    KnownShapes& shapes;
    std::vector<std::filesystem::path> read{};
};

}  // namespace lobewright::cli
