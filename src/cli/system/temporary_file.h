/// A file that goes away again unless it is put in its place, however the program ends.
#pragma once

#include <array>
#include <filesystem>
#include <string>

namespace lobewright::cli {

/// What a new file takes from the one that it replaces.
struct Ownership {
    unsigned user = 0, group = 0, permissions = 0;
};

/// Lies beside its target, hidden, under a name that tells target and process. It holds a lock for as long as
/// it is being written: one that isn't locked was left behind by a run that was killed. On SIGINT, SIGTERM
/// and SIGHUP it is removed before the program ends as it would have ended.
class TemporaryFile {
  public:
    /// Failing leaves it unmade, with errno.
    explicit TemporaryFile(const std::filesystem::path& target);
    ~TemporaryFile();
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;

    /// Whatever can be kept: only root may give a file to someone else.
    void keep(const Ownership& old) const;
    /// Writes and flushes to the disk; false at the first step that fails, with errno.
    bool fill(const std::string& text);
    /// Takes the target's place.
    bool put_at(const std::filesystem::path& target);

  private:
    bool make(const std::filesystem::path& path);

    std::filesystem::path path_;
    int file_ = -1;
    bool placed_ = false;
};

/// Removes the temporary files that killed runs have left beside `target`: those of this user that no running
/// program holds.
void sweep_left_overs(const std::filesystem::path& target);

/// Every byte, whatever the number of pieces the system takes it in; false with errno.
bool write_all(int file, std::string_view text);

}  // namespace lobewright::cli
