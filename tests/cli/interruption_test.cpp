// Runs that are interrupted or killed while they write.
#include "catch.h"
#include "cli/system/temporary_file.h"
#include "job_folder.h"
#include "small_job.h"

#include <chrono>
#include <csignal>
#include <fcntl.h>
#include <random>
#include <sys/wait.h>
#include <unistd.h>

using namespace lobewright;
using cli::TemporaryFile;
namespace fs = std::filesystem;

namespace {

std::size_t files_in(const fs::path& folder) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

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

/// A process of its own that does `work`, with the signals as a shell leaves them and not as the tests'
/// library does.
template <class Work>
pid_t process_for(Work work) {
    std::fflush(nullptr);
    const SignalsHeld held;
    const pid_t child = fork();
    REQUIRE(child >= 0);
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
    REQUIRE(waitpid(child, &status, 0) == child);
    return status;
}

/// How a process ends that does `work`.
template <class Work>
int status_of(Work work) {
    return end_of(process_for(work));
}

/// Starts the program in `folder` and sends it `signal` after so many microseconds.
void run_and_signal(const fs::path& folder, std::vector<std::string> arguments, int signal,
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

const std::vector<std::string> writing{"table",   "job.toml", "--lobe", "1 inlet",
                                       "--every", "0.02",     "-qo",    "out.csv"};

}  // namespace

TEST_CASE("an interruption while a file is being written leaves nothing, and ends the program as ever") {
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        INFO(signal);
        const TemporaryFolder folder;
        const int status = status_of([&] {
            TemporaryFile file(folder.path() / "out");
            file.fill("half of it");
            if (files_in(folder.path()) == 1) std::raise(signal);
        });
        CHECK(WIFSIGNALED(status));
        CHECK(WTERMSIG(status) == signal);
        CHECK(files_in(folder.path()) == 0);
    }
}

TEST_CASE("an interruption that is ignored, as nohup does it, is ignored while writing too") {
    const TemporaryFolder folder;
    const int status = status_of([&] {
        std::signal(SIGHUP, SIG_IGN);
        TemporaryFile file(folder.path() / "out");
        std::raise(SIGHUP);
        if (!file.fill("all of it") || !file.put_at(folder.path() / "out")) _exit(1);
    });
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    CHECK(file_text(folder.path() / "out") == "all of it");
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("after a file is in its place an interruption leaves it there") {
    const TemporaryFolder folder;
    const int status = status_of([&] {
        TemporaryFile file(folder.path() / "out");
        file.fill("all of it");
        file.put_at(folder.path() / "out");
        std::raise(SIGTERM);
    });
    CHECK(WIFSIGNALED(status));
    CHECK(file_text(folder.path() / "out") == "all of it");
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("what a killed run left is swept by the next one of the same target, and by no other") {
    const TemporaryFolder folder;
    const int status = status_of([&] {
        TemporaryFile file(folder.path() / "out");
        file.fill("half of it");
        std::raise(SIGKILL);
    });
    CHECK(WIFSIGNALED(status));
    REQUIRE(files_in(folder.path()) == 1);
    cli::sweep_left_overs(folder.path() / "other");
    cli::sweep_left_overs(folder.path() / "ou");
    CHECK(files_in(folder.path()) == 1);
    cli::sweep_left_overs(folder.path() / "out");
    CHECK(files_in(folder.path()) == 0);
}

TEST_CASE("a sweep leaves what another run is writing, and what only looks like ours") {
    const TemporaryFolder folder;
    const TemporaryFile alive(folder.path() / "out");
    for (const char* name : {".out.lobewright-notes.part", ".out.lobewright-1-0.party",
                             ".out.lobewright-1-.part", "out.lobewright-1-0.part", ".out.lobewright-.part"})
        write_file(folder.path() / name, "a user's own");
    fs::create_directory(folder.path() / ".out.lobewright-2-0.part");
    write_file(folder.path() / "precious", "a user's own");
    fs::create_symlink("precious", folder.path() / ".out.lobewright-3-0.part");
    CHECK(files_in(folder.path()) == 9);
    cli::sweep_left_overs(folder.path() / "out");
    CHECK(files_in(folder.path()) == 9);
}

TEST_CASE("names that are as long as a name may be have temporary files, and sweeps that find theirs") {
    const TemporaryFolder folder;
    const std::string name(255, 'n');
    const std::string other = name.substr(1) + 'm';
    status_of([&] {
        TemporaryFile file(folder.path() / name);
        file.fill("half of it");
        std::raise(SIGKILL);
    });
    REQUIRE(files_in(folder.path()) == 1);
    cli::sweep_left_overs(folder.path() / other);
    CHECK(files_in(folder.path()) == 1);
    cli::sweep_left_overs(folder.path() / name);
    CHECK(files_in(folder.path()) == 0);
}

TEST_CASE(
    "the program, interrupted at any moment, leaves the old file or the new one, and nothing beside it") {
    const JobFolder folder(small_job());
    const auto begin = std::chrono::steady_clock::now();
    REQUIRE(folder.run(writing).exit_code == 0);
    const auto taken =
        std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - begin);
    const std::string whole = file_text(folder / "out.csv");
    std::mt19937 random(20250711);
    INFO("seed 20250711");
    std::uniform_int_distribution<unsigned> moment(0, static_cast<unsigned>(taken.count()));
    for (int i = 0; i < 30; ++i) {
        const int signal = i % 3 == 0 ? SIGINT : i % 3 == 1 ? SIGTERM : SIGHUP;
        write_file(folder / "out.csv", "the old file");
        run_and_signal((folder / "").parent_path(), writing, signal, moment(random));
        const std::string text = file_text(folder / "out.csv");
        CHECK((text == "the old file" || text == whole));
        REQUIRE(folder.files() == 2);
    }
}

TEST_CASE(
    "the program, killed at any moment, leaves the old file or the new one, and the next run tidies up") {
    const JobFolder folder(small_job());
    const auto begin = std::chrono::steady_clock::now();
    REQUIRE(folder.run(writing).exit_code == 0);
    const auto taken =
        std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - begin);
    const std::string whole = file_text(folder / "out.csv");
    std::mt19937 random(20250712);
    INFO("seed 20250712");
    std::uniform_int_distribution<unsigned> moment(0, static_cast<unsigned>(taken.count()));
    for (int i = 0; i < 20; ++i) {
        write_file(folder / "out.csv", "the old file");
        run_and_signal((folder / "").parent_path(), writing, SIGKILL, moment(random));
        const std::string text = file_text(folder / "out.csv");
        CHECK((text == "the old file" || text == whole));
        CHECK(folder.files() <= 3);
    }
    // A run that is refused writes nothing, and tidies up all the same.
    CHECK(folder.run({"table", "job.toml", "--lobe", "none", "-o", "out.csv"}).exit_code == 2);
    CHECK(folder.files() == 2);
}
