#include "signalled_run.h"

#include "program.h"

#include <chrono>
#include <csignal>
#include <cstdio>
#include <stdexcept>
#include <sys/wait.h>
#include <unistd.h>

namespace {

/// While it lives, the signals wait: a process that begins meanwhile isn't hit before it is ready for them.
class SignalsHeld {
  public:
    SignalsHeld() {
        sigset_t all;
        sigfillset(&all);
        sigprocmask(SIG_BLOCK, &all, &before_);
    }
    ~SignalsHeld() { release(); }
    SignalsHeld(const SignalsHeld&) = delete;
    SignalsHeld& operator=(const SignalsHeld&) = delete;
    void release() const { sigprocmask(SIG_SETMASK, &before_, nullptr); }

  private:
    sigset_t before_;
};

pid_t process_for(const std::function<void()>& work) {
    std::fflush(nullptr);
    const SignalsHeld held;
    const pid_t child = fork();
    if (child < 0) throw std::runtime_error("can't start a process");
    if (child == 0) {
        for (const int signal : {SIGINT, SIGTERM, SIGHUP})
            std::signal(signal, SIG_DFL);
        held.release();
        work();
        _exit(0);
    }
    return child;
}

int end_of(pid_t child) {
    int status = 0;
    if (waitpid(child, &status, 0) != child) throw std::runtime_error("lost a process");
    return status;
}

}  // namespace

int status_of(const std::function<void()>& work) {
    return end_of(process_for(work));
}

void run_and_signal(const std::filesystem::path& folder, std::vector<std::string> arguments, int signal,
                    unsigned microseconds) {
    arguments.insert(arguments.begin(), built_program());
    std::vector<char*> argv;
    for (std::string& argument : arguments)
        argv.push_back(argument.data());
    argv.push_back(nullptr);
    const pid_t child = process_for([&] {
        if (chdir(folder.c_str()) != 0) _exit(126);
        execv(argv.front(), argv.data());
        _exit(127);
    });
    usleep(microseconds);
    kill(child, signal);
    end_of(child);
}

unsigned microseconds_for(const std::function<void()>& work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    const auto taken = std::chrono::steady_clock::now() - begin;
    return static_cast<unsigned>(std::chrono::duration_cast<std::chrono::microseconds>(taken).count());
}
