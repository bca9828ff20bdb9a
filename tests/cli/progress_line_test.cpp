// The one thread beside the work: the line that tells who waits. It must race with nothing, which is what
// sh tests/sanitize.sh thread asks of this program.
#include "cli/system/progress_line.h"

#include "catch.h"
#include "cli/system/writing.h"

#include <chrono>
#include <cstdlib>
#include <fcntl.h>
#include <unistd.h>

namespace {

/// Stands for standard error while it lives: a terminal, of which the test sits at the other end.
class Terminal {
  public:
    Terminal() : own_(dup(STDERR_FILENO)), far_(posix_openpt(O_RDWR | O_NOCTTY)) {
        REQUIRE(grantpt(far_) == 0);
        REQUIRE(unlockpt(far_) == 0);
        const int near = open(ptsname(far_), O_RDWR | O_NOCTTY);
        REQUIRE(near >= 0);
        dup2(near, STDERR_FILENO);
        close(near);
    }
    ~Terminal() {
        dup2(own_, STDERR_FILENO);
        close(own_);
        close(far_);
    }
    Terminal(const Terminal&) = delete;
    Terminal& operator=(const Terminal&) = delete;

    /// All that has been written so far.
    [[nodiscard]] std::string said() const {
        fcntl(far_, F_SETFL, O_NONBLOCK);
        std::string text(4096, '\0');
        const ssize_t size = read(far_, text.data(), text.size());
        text.resize(size > 0 ? static_cast<std::size_t>(size) : 0);
        return text;
    }

  private:
    int own_, far_;
};

}  // namespace

TEST_CASE("the line stands from the first second on, and is gone with the work") {
    const Terminal terminal;
    std::string said;
    {
        const lobewright::cli::ProgressLine line(true);
        for (int tries = 0; said.empty() && tries < 600; ++tries) {
            std::this_thread::sleep_for(std::chrono::milliseconds(50));
            said = terminal.said();
        }
    }
    said += terminal.said();
    const std::string line = "\rlobewright: at work, 1 s (Ctrl-C gives up)";
    CHECK(said.substr(0, line.size()) == line);
    const std::string gone = "\r" + std::string(line.size() - 1, ' ') + "\r";
    CHECK(said.substr(said.size() - std::min(said.size(), gone.size())) == gone);
}

TEST_CASE("of work that is soon done nothing is told, however often it is done") {
    const Terminal terminal;
    for (int i = 0; i < 200; ++i)
        const lobewright::cli::ProgressLine line(true);
    CHECK(terminal.said().empty());
}

TEST_CASE("who doesn't want the line isn't told") {
    const Terminal terminal;
    {
        const lobewright::cli::ProgressLine line(false);
        std::this_thread::sleep_for(std::chrono::milliseconds(1100));
    }
    CHECK(terminal.said().empty());
}
