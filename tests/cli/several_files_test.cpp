// Several programs of one run: what stands there when one of them can't be written.
#include "catch.h"
#include "cli/system/writing.h"
#include "three_operations.h"
#include "traced_run.h"

using namespace lobewright;
using namespace lobewright::cli;
namespace fs = std::filesystem;

namespace {

const std::vector<std::string> cutting{"cut", "job.toml", "-qo", "{operation}.ngc"};

/// A job's folder with a program of another controller for each operation.
struct OldPrograms {
    JobFolder folder{three_operations()};
    std::string old;

    OldPrograms() {
        REQUIRE(
            folder.run({"cut", "job.toml", "--post", "iso6983-xzc", "-qo", "{operation}.ngc"}).err.empty());
        old = said("rough") + said("again") + said("finish");
    }
    [[nodiscard]] std::string said(const std::string& name) const {
        return file_text(folder / (name + ".ngc"));
    }
    [[nodiscard]] bool are_as_before() const {
        return said("rough") + said("again") + said("finish") == old && folder.files() == 4;
    }
};

}  // namespace

TEST_CASE("all programs of a run are there, or none is written because one has no room") {
    const OldPrograms programs;
    fs::remove(programs.folder / "finish.ngc");
    fs::create_directory(programs.folder / "finish.ngc");
    const std::string rough = programs.said("rough"), again = programs.said("again");
    const Run in_the_way = programs.folder.run(cutting);
    CHECK(in_the_way.exit_code == 3);
    CHECK(in_the_way.err ==
          "finish.ngc: can't be written (it is a folder): nothing was changed there; name "
          "another file or folder with -o, or make room\n");
    CHECK(programs.said("rough") == rough);
    CHECK(programs.said("again") == again);
    CHECK(programs.folder.files() == 4);
    fs::remove(programs.folder / "finish.ngc");
    CHECK(programs.folder.run(cutting).exit_code == 0);
    CHECK(programs.said("rough") != rough);
    CHECK(programs.folder.files() == 4);
}

TEST_CASE("a disk that fills up at the third program leaves all three as they were") {
    if (!can_trace()) {
        WARN("strace can't be had here: the disk stays as it is");
        return;
    }
    const OldPrograms programs;
    const Run run = traced_run(programs.folder, cutting, {"fsync", 3}, "error=ENOSPC");
    CHECK(run.exit_code == 3);
    CHECK_THAT(run.err,
               ContainsSubstring("finish.ngc: can't be written (the disk is full): nothing was changed"));
    CHECK(programs.are_as_before());
}

TEST_CASE("where the third program can't take its place, it is told which are the new ones") {
    if (!can_trace()) {
        WARN("strace can't be had here: no place is refused");
        return;
    }
    const OldPrograms programs;
    const std::string finish = programs.said("finish");
    const Run run = traced_run(programs.folder, cutting, {"rename", 3}, "error=EACCES");
    CHECK(run.exit_code == 3);
    CHECK(run.err ==
          "finish.ngc: can't be written (you may not): rough.ngc, again.ngc are the new ones already, this "
          "is as before: run it again once there is room\n");
    CHECK(programs.said("finish") == finish);
    CHECK(programs.said("rough") == programs.folder.run({"cut", "job.toml", "--operation", "rough"}).out);
    CHECK(programs.folder.files() == 4);
    const Run second = traced_run(programs.folder, cutting, {"rename", 2}, "error=EACCES");
    CHECK_THAT(second.err,
               ContainsSubstring("again.ngc: can't be written (you may not): rough.ngc is the new one "
                                 "already, this and those after it are as before: "));
}

TEST_CASE("an interruption while one of several is written leaves none of them half") {
    if (!can_trace()) {
        WARN("strace can't be had here: nothing is interrupted");
        return;
    }
    const OldPrograms programs;
    traced_run(programs.folder, cutting, {"fsync", 3}, "signal=SIGINT");
    CHECK(programs.are_as_before());
}

TEST_CASE("two files of one name are refused, and neither is written") {
    const TemporaryFolder folder;
    write_file(folder.path() / "a", "before");
    const auto failure = write_together(
        {{folder.path() / "a", "first"}, {folder.path() / "b", "second"}, {folder.path() / "a", "third"}},
        false);
    REQUIRE(failure.has_value());
    CHECK(failure->fault == Fault::bad_input);
    CHECK(failure->code == "one-name-twice");
    CHECK(file_text(folder.path() / "a") == "before");
    CHECK_FALSE(fs::exists(folder.path() / "b"));
}
