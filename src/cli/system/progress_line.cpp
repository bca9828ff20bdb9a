#include "cli/system/progress_line.h"

#include "cli/system/process.h"
#include "cli/system/writing.h"

#include <chrono>
#include <string>
#include <system_error>

namespace lobewright::cli {

ProgressLine::ProgressLine(bool wanted) {
    if (!wanted || !speaks_to_terminal()) return;
    try {
        teller_ = thread_without_signals([this] { keep_telling(); });
    } catch (const std::system_error&) {
        // The work is done without a word, too.
    }
}

ProgressLine::~ProgressLine() {
    if (!teller_.joinable()) return;
    {
        const std::lock_guard lock(mutex_);
        done_ = true;
    }
    changed_.notify_one();
    teller_.join();
}

void ProgressLine::keep_telling() {
    std::string line;
    std::unique_lock lock(mutex_);
    for (int seconds = 1; !changed_.wait_for(lock, std::chrono::seconds(1), [this] { return done_; });
         ++seconds) {
        line = "lobewright: at work, " + std::to_string(seconds) + " s (Ctrl-C gives up)";
        write_standard_error('\r' + line);
    }
    if (!line.empty()) write_standard_error('\r' + std::string(line.size(), ' ') + '\r');
}

}  // namespace lobewright::cli
