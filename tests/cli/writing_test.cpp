#include "cli/system/writing.h"

#include "catch.h"
#include "program.h"

#include <csignal>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

using namespace lobewright;
using namespace lobewright::cli;
namespace fs = std::filesystem;

namespace {

std::size_t files_in(const fs::path& folder) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

/// While it lives, no file can grow past `bytes`: writing fails in the middle, as on a full disk.
class SmallDisk {
  public:
    explicit SmallDisk(rlim_t bytes) {
        getrlimit(RLIMIT_FSIZE, &old_);
        handler_ = std::signal(SIGXFSZ, SIG_IGN);
        const rlimit small{bytes, old_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &small);
    }
    ~SmallDisk() {
        setrlimit(RLIMIT_FSIZE, &old_);
        std::signal(SIGXFSZ, handler_);
    }
    SmallDisk(const SmallDisk&) = delete;
    SmallDisk& operator=(const SmallDisk&) = delete;

  private:
    rlimit old_{};
    void (*handler_)(int) = nullptr;
};

}  // namespace

TEST_CASE("a new file holds the whole text, and nothing lies beside it") {
    const TemporaryFolder folder;
    const std::string text(100000, 'x');
    CHECK_FALSE(write_whole(folder.path() / "new", text, false).has_value());
    CHECK(file_text(folder.path() / "new") == text);
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("a new file has the permissions that the user's mask leaves") {
    const TemporaryFolder folder;
    const mode_t old_mask = umask(027);
    const auto failure = write_whole(folder.path() / "new", "text", false);
    umask(old_mask);
    CHECK_FALSE(failure.has_value());
    CHECK((fs::status(folder.path() / "new").permissions() & fs::perms::all) == fs::perms(0640));
}

TEST_CASE("an old file is replaced and keeps its permissions") {
    const TemporaryFolder folder;
    const fs::path file = folder.path() / "old";
    write_file(file, "before");
    fs::permissions(file, fs::perms(0604));
    CHECK_FALSE(write_whole(file, "after", false).has_value());
    CHECK(file_text(file) == "after");
    CHECK((fs::status(file).permissions() & fs::perms::all) == fs::perms(0604));
}

TEST_CASE("a link stays a link, and what it leads to is replaced") {
    const TemporaryFolder folder;
    fs::create_directory(folder.path() / "elsewhere");
    write_file(folder.path() / "elsewhere" / "real", "before");
    fs::create_symlink("elsewhere/real", folder.path() / "link");
    fs::create_symlink("elsewhere/absent", folder.path() / "dangling");
    CHECK_FALSE(write_whole(folder.path() / "link", "after", false).has_value());
    CHECK(fs::is_symlink(folder.path() / "link"));
    CHECK(file_text(folder.path() / "elsewhere" / "real") == "after");
    CHECK_FALSE(write_whole(folder.path() / "dangling", "made", false).has_value());
    CHECK(file_text(folder.path() / "elsewhere" / "absent") == "made");
}

TEST_CASE("where writing fails in the middle, the old file stays and no piece of the new one does") {
    const TemporaryFolder folder;
    const fs::path file = folder.path() / "old";
    write_file(file, "before");
    std::optional<Diagnostic> failure;
    {
        const SmallDisk disk(1000);
        failure = write_whole(file, std::string(5000, 'x'), false);
    }
    REQUIRE(failure.has_value());
    CHECK(failure->fault == Fault::unreadable);
    CHECK(failure->place.file == file.string());
    CHECK(file_text(file) == "before");
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE("a folder, a path through a file and an absent folder can't be written to") {
    const TemporaryFolder folder;
    write_file(folder.path() / "file", "before");
    for (const fs::path& path :
         {folder.path(), folder.path() / "file" / "below", folder.path() / "absent" / "below"}) {
        INFO(path);
        const auto failure = write_whole(path, "text", false);
        REQUIRE(failure.has_value());
        CHECK(failure->fault == Fault::unreadable);
        CHECK_FALSE(failure->remedy.empty());
    }
    CHECK(files_in(folder.path()) == 1);
    CHECK(file_text(folder.path() / "file") == "before");
}

TEST_CASE("a full device is a failure") {
    const auto failure = write_whole("/dev/full", "text", false);
    REQUIRE(failure.has_value());
    CHECK(failure->fault == Fault::unreadable);
    CHECK_FALSE(write_whole("/dev/null", "text", false).has_value());
}

TEST_CASE("what must be new never replaces anything") {
    const TemporaryFolder folder;
    write_file(folder.path() / "old", "before");
    const auto failure = write_whole(folder.path() / "old", "after", true);
    REQUIRE(failure.has_value());
    CHECK(failure->fault == Fault::bad_input);
    CHECK(file_text(folder.path() / "old") == "before");
    CHECK_FALSE(write_whole(folder.path() / "new", "made", true).has_value());
    CHECK(file_text(folder.path() / "new") == "made");
}

TEST_CASE("one file is the same by every name that it has") {
    const TemporaryFolder folder;
    write_file(folder.path() / "a", "text");
    write_file(folder.path() / "b", "text");
    fs::create_symlink("a", folder.path() / "soft");
    fs::create_hard_link(folder.path() / "a", folder.path() / "hard");
    CHECK(same_file(folder.path() / "a", folder.path() / "." / "a"));
    CHECK(same_file(folder.path() / "a", folder.path() / "soft"));
    CHECK(same_file(folder.path() / "a", folder.path() / "hard"));
    CHECK_FALSE(same_file(folder.path() / "a", folder.path() / "b"));
    CHECK_FALSE(same_file(folder.path() / "a", folder.path() / "absent"));
}
