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

/// A file that one of these signals removes before it does what it would have done; where it is ignored it
/// stays so. `path` must stay where it is for as long.
class RemovedWhenInterrupted {
  public:
    explicit RemovedWhenInterrupted(const std::filesystem::path& path) : path_(path.c_str()) {}
    ~RemovedWhenInterrupted() { leave(); }
    RemovedWhenInterrupted(const RemovedWhenInterrupted&) = delete;
    RemovedWhenInterrupted& operator=(const RemovedWhenInterrupted&) = delete;

    /// From here on; and no more: the file is to stay, or is gone already.
    void enter();
    void leave();

  private:
    friend void remove_what_is_half_written() noexcept;
    const char* path_;
    RemovedWhenInterrupted* next_ = nullptr;
    bool entered_ = false;
};

/// All of them at once; safe within a signal's handler.
void remove_what_is_half_written() noexcept;

}  // namespace lobewright::cli
