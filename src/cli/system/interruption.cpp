#include "cli/system/interruption.h"

#include <climits>

#include <array>
#include <cstring>
#include <unistd.h>

namespace lobewright::cli {
namespace {

constexpr std::array interruptions{SIGINT, SIGTERM, SIGHUP};

// A signal's handler may touch nothing that is not there from the start.
std::array<char, PATH_MAX> doomed{};
volatile std::sig_atomic_t armed = 0;
std::array<struct sigaction, interruptions.size()> before{};

sigset_t set_of_interruptions() {
    sigset_t set;
    sigemptyset(&set);
    for (const int signal : interruptions)
        sigaddset(&set, signal);
    return set;
}

/// Only calls that are safe within a handler (POSIX 2.4.3). The signal raised comes when the handler returns.
extern "C" void lobewright_remove_and_go_on(int signal) {
    if (armed != 0) ::unlink(doomed.data());
    armed = 0;
    for (std::size_t i = 0; i < interruptions.size(); ++i) {
        if (interruptions[i] == signal) ::sigaction(signal, &before[i], nullptr);
    }
    ::raise(signal);
}

}  // namespace

InterruptionsHeld::InterruptionsHeld() {
    const sigset_t set = set_of_interruptions();
    ::sigprocmask(SIG_BLOCK, &set, &before_);
}
InterruptionsHeld::~InterruptionsHeld() {
    ::sigprocmask(SIG_SETMASK, &before_, nullptr);
}

void remove_when_interrupted(const std::filesystem::path& path) {
    const std::string& name = path.native();
    if (name.size() >= doomed.size()) return;
    std::memcpy(doomed.data(), name.c_str(), name.size() + 1);
    struct sigaction ours {};
    ours.sa_handler = lobewright_remove_and_go_on;
    ours.sa_mask = set_of_interruptions();
    for (std::size_t i = 0; i < interruptions.size(); ++i) {
        ::sigaction(interruptions[i], nullptr, &before[i]);
        if (before[i].sa_handler != SIG_IGN) ::sigaction(interruptions[i], &ours, nullptr);
    }
    armed = 1;
}

void remove_no_more() {
    if (armed == 0) return;
    armed = 0;
    for (std::size_t i = 0; i < interruptions.size(); ++i)
        ::sigaction(interruptions[i], &before[i], nullptr);
}

}  // namespace lobewright::cli
