/// A file that goes away again unless it is put in its place, however the program ends.
#pragma once

#include "cli/system/standing.h"

#include <filesystem>
#include <memory>
#include <string_view>

namespace lobewright::cli {

/// Lies beside its target, hidden, under a name that tells target and process. It is locked for as long as it
/// is being written: one that isn't was left behind by a run that was killed. On SIGINT, SIGTERM and SIGHUP
/// it is removed before the program ends as it would have ended; on Windows the system itself removes it,
/// even where the program is killed.
class TemporaryFile {
  public:
    /// Failing leaves it unmade, with errno.
    explicit TemporaryFile(const std::filesystem::path& target);
    ~TemporaryFile();
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;

    /// Whatever can be kept of the old file's owner and permissions: only root may give a file to someone
    /// else. On Windows the folder's hold.
    void keep(const Standing& old) const;
    /// Writes and flushes to the disk; false at the first step that fails, with errno.
    bool fill(std::string_view text);
    /// Takes the target's place; false with errno. Without `replace` it fails where anything stands there
    /// (but for file systems that can't tell). Needs no memory.
    bool put_at(const std::filesystem::path& target, bool replace = true);

  private:
    struct InSystem;
    std::unique_ptr<InSystem> in_system_;
};

/// Removes the temporary files that killed runs have left beside `target`: those of this user that no running
/// program holds.
void sweep_left_overs(const std::filesystem::path& target);

/// Flushes to the disk which files stand in a folder, so that a power cut doesn't bring an old one back;
/// false with errno. A system that has no way to do it, or not for us, has nothing to fail. Needs no memory.
bool flush_folder(const std::filesystem::path& folder);

/// The folder that a file lies in.
std::filesystem::path folder_of(const std::filesystem::path& file);

}  // namespace lobewright::cli
