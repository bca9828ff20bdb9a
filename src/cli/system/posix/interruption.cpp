#include "cli/system/posix/interruption.h"

#include <array>
#include <unistd.h>

namespace lobewright::cli {
namespace {

constexpr std::array interruptions{SIGINT, SIGTERM, SIGHUP};

// A signal's handler may touch nothing that is not there from the start, and it never comes while this chain
// is changed.
RemovedWhenInterrupted* first = nullptr;
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
    remove_what_is_half_written();
    for (std::size_t i = 0; i < interruptions.size(); ++i) {
        if (interruptions[i] == signal) ::sigaction(signal, &before[i], nullptr);
    }
    ::raise(signal);
}

void take_the_signals() {
    struct sigaction ours {};
    ours.sa_handler = lobewright_remove_and_go_on;
    ours.sa_mask = set_of_interruptions();
    for (std::size_t i = 0; i < interruptions.size(); ++i) {
        ::sigaction(interruptions[i], nullptr, &before[i]);
        if (before[i].sa_handler != SIG_IGN) ::sigaction(interruptions[i], &ours, nullptr);
    }
}

void give_back_the_signals() {
    for (std::size_t i = 0; i < interruptions.size(); ++i)
        ::sigaction(interruptions[i], &before[i], nullptr);
}

}  // namespace

InterruptionsHeld::InterruptionsHeld() {
    const sigset_t set = set_of_interruptions();
    ::pthread_sigmask(SIG_BLOCK, &set, &before_);
}
InterruptionsHeld::~InterruptionsHeld() {
    ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

void RemovedWhenInterrupted::enter() {
    const InterruptionsHeld held;
    if (first == nullptr) take_the_signals();
    next_ = first;
    first = this;
    entered_ = true;
}

void RemovedWhenInterrupted::leave() {
    if (!entered_) return;
    const InterruptionsHeld held;
    RemovedWhenInterrupted** link = &first;
    while (*link != this)
        link = &(*link)->next_;
    *link = next_;
    entered_ = false;
    if (first == nullptr) give_back_the_signals();
}

void remove_what_is_half_written() noexcept {
    for (const RemovedWhenInterrupted* each = first; each != nullptr; each = each->next_)
        ::unlink(each->path_);
}

}  // namespace lobewright::cli
