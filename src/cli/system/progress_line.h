/// A word for someone who waits.
#pragma once

#include <condition_variable>
#include <mutex>
#include <thread>

namespace lobewright::cli {

/// While it lives, a line on standard error says how long the program has been at work: where that is a
/// terminal, after the first second. It is gone again when the object goes.
class ProgressLine {
  public:
    explicit ProgressLine(bool wanted);
    ~ProgressLine();
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

  private:
    void keep_telling();

    std::mutex mutex_;
    std::condition_variable changed_;
    bool done_ = false;
    std::thread teller_;
};

}  // namespace lobewright::cli
