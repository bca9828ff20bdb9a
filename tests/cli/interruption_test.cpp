// Runs that are interrupted or killed while they write.
#include "catch.h"
#include "cli/system/temporary_file.h"
#include "job_folder.h"
#include "signalled_run.h"
#include "small_job.h"

#include <csignal>
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
    const unsigned taken = microseconds_for([&] { REQUIRE(folder.run(writing).exit_code == 0); });
    const std::string whole = file_text(folder / "out.csv");
    std::mt19937 random(20250711);
    INFO("seed 20250711");
    std::uniform_int_distribution<unsigned> moment(0, taken);
    for (int i = 0; i < 30; ++i) {
        const int signal = i % 3 == 0 ? SIGINT : i % 3 == 1 ? SIGTERM : SIGHUP;
        write_file(folder / "out.csv", "the old file");
        run_and_signal((folder / "").parent_path(), writing, signal, moment(random));
        const std::string text = file_text(folder / "out.csv");
        CHECK((text == "the old file" || text == whole));
        REQUIRE(folder.files() == 2);
    }
}
