/// What the user's Ctrl-C, a closed terminal or the system's shutdown must not leave behind.
#pragma once

#include <csignal>
#include <filesystem>

namespace lobewright::cli {

/// While it lives, SIGINT, SIGTERM and SIGHUP wait.
class InterruptionsHeld {
  public:
    InterruptionsHeld();
    ~InterruptionsHeld();
    InterruptionsHeld(const InterruptionsHeld&) = delete;
    InterruptionsHeld& operator=(const InterruptionsHeld&) = delete;

  private:
    sigset_t before_;
};

/// From here on one of these signals removes the file at `path` first, and then does what it would have done;
/// where it is ignored it stays so. One file at a time.
void remove_when_interrupted(const std::filesystem::path& path);
/// The file is to stay, or is gone already; the signals do again what they did before.
void remove_no_more();

}  // namespace lobewright::cli
