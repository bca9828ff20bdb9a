// Disks that are full or write-protected, and folders that aren't ours: mounted for real, where the tests run
// as root.
#include "catch.h"
#include "job_folder.h"
#include "small_job.h"

#include <optional>

namespace {

/// A folder where `disk/out.ngc` is the program for another controller and `whole.ngc` the new one.
struct OldOnDisk {
    JobFolder folder{small_job()};

    OldOnDisk() {
        std::filesystem::create_directory(folder / "disk");
        REQUIRE(folder
                    .shell("lobewright cut job.toml --post iso6983-xzc -o old.ngc && "
                           "lobewright cut job.toml -o whole.ngc && cp old.ngc disk/out.ngc")
                    .exit_code == 0);
    }
    /// The lines as sh runs them with mounts of their own, cutting `cut` among them.
    [[nodiscard]] Run run(const std::string& lines) const {
        return folder.shell("unshare -m sh -ec '" + lines + "'");
    }
    [[nodiscard]] bool can_mount() const {
        return run("mount -t tmpfs -o size=64k none disk").exit_code == 0;
    }
};

/// What `cut` does over the old program on a disk that those lines mount and fill: exit code 3, and nothing
/// there but `names`. Nothing where the tests may not mount.
std::optional<Run> refused_on(const std::string& disk, const std::string& names) {
    const OldOnDisk on_disk;
    if (!on_disk.can_mount()) {
        WARN("nothing can be mounted here: no disk is filled");
        return std::nullopt;
    }
    Run run = on_disk.run(disk +
                          "code=0; lobewright cut job.toml -qo disk/out.ngc || code=$?; ls -A disk; "
                          "cmp old.ngc disk/out.ngc; exit $code");
    CHECK(run.exit_code == 3);
    CHECK(run.out == names);
    return run;
}

}  // namespace

TEST_CASE("a disk that is full to the last byte keeps the old program, and says that it is full") {
    const auto run = refused_on(
        "mount -t tmpfs -o size=64k none disk; cp old.ngc disk/out.ngc; "
        "head -c 100000 /dev/zero >disk/filler 2>/dev/null || true; ",
        "filler\nout.ngc\n");
    if (run)
        CHECK(run->err ==
              "disk/out.ngc: can't be written (the disk is full): nothing was changed there; name another "
              "file or folder with -o, or make room\n");
}

TEST_CASE("a disk that fills up within the program keeps the old one, and no piece of the new one") {
    const auto run = refused_on(
        "mount -t tmpfs -o size=64k none disk; cp old.ngc disk/out.ngc; "
        "free=$(df --output=avail -B1 disk | tail -n 1); "
        "head -c $((free - 4096)) /dev/zero >disk/filler; "
        "test $(stat -c %s whole.ngc) -gt 4096; ",
        "filler\nout.ngc\n");
    if (run) CHECK_THAT(run->err, ContainsSubstring("can't be written (the disk is full)"));
}

TEST_CASE("a disk without room for one more name keeps the old program") {
    const auto run =
        refused_on("mount -t tmpfs -o nr_inodes=2 none disk; cp old.ngc disk/out.ngc; ", "out.ngc\n");
    if (run) CHECK_THAT(run->err, ContainsSubstring("can't be written (the disk is full)"));
}

TEST_CASE("a write-protected disk keeps the old program, and is called so") {
    const auto run = refused_on("mount --bind disk disk; mount -o remount,ro,bind disk; ", "out.ngc\n");
    if (run)
        CHECK_THAT(run->err,
                   ContainsSubstring("disk/out.ngc: can't be written (the disk is write-protected)"));
}

TEST_CASE("what isn't ours to write stays as it is") {
    const OldOnDisk on_disk;
    const std::string somebody_else =
        "LOBEWRIGHT_POSTPROCESSORS=. setpriv --reuid=65534 --regid=65534 --clear-groups ";
    if (on_disk.folder.shell(somebody_else + "true").exit_code != 0) {
        WARN("the tests can't become somebody else here");
        return;
    }
    // The program too may lie where nobody else may go: a copy of it will do.
    std::filesystem::copy_file(built_program(), on_disk.folder / "lobewright");
    const auto cut_where = [&](const std::string& modes) {
        return on_disk.folder.shell(modes + "; code=0; " + somebody_else +
                                    "./lobewright cut job.toml -qo disk/out.ngc || code=$?; chmod 777 disk; "
                                    "ls -A disk; cmp old.ngc disk/out.ngc; exit $code");
    };
    const std::string refusal =
        "disk/out.ngc: can't be written (you may not): nothing was changed there; name "
        "another file or folder with -o, or make room\n";
    for (const char* modes :
         {"chmod 755 . disk; chmod 644 job.toml disk/out.ngc old.ngc; chmod 755 lobewright", "chmod 777 disk",
          "chmod 755 disk; chmod 666 disk/out.ngc"}) {
        INFO(modes);
        const Run run = cut_where(modes);
        CHECK(run.exit_code == 3);
        CHECK(run.err == refusal);
        CHECK(run.out == "out.ngc\n");
    }
    INFO("a folder that may not be read can't be flushed, and that is no failure");
    const Run run = cut_where("chmod 333 disk; chmod 666 disk/out.ngc");
    CHECK(run.exit_code == 0);
    CHECK(file_text(on_disk.folder / "disk/out.ngc") == file_text(on_disk.folder / "whole.ngc"));
}
