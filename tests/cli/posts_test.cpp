// Post-processors: inside the program, in a folder of the user's own, or by path.
#include "catch.h"
#include "job_folder.h"
#include "small_job.h"

#include <lobewright/dialect.h>
#include <lobewright/shipped_dialects.h>

#include <algorithm>

using namespace lobewright;
namespace fs = std::filesystem;

namespace {

/// The dialect rs274ngc-xza with another summary.
std::string own_post(const std::string& summary) {
    const std::string text = file_text(source_folder() / "postprocessors" / "rs274ngc-xza.toml");
    const std::size_t at = text.find("summary = \"") + 11;
    return text.substr(0, at) + summary + text.substr(text.find('"', at));
}

/// A job's folder with a folder of post-processors, "own", beside it.
class OwnPosts : public JobFolder {
  public:
    OwnPosts() : JobFolder(small_job()) { fs::create_directory(*this / "own"); }
    void put(const std::string& file, const std::string& text) const {
        write_file(*this / "own" / file, text);
    }
    [[nodiscard]] Run with(const std::string& line) const {
        return shell("LOBEWRIGHT_POSTPROCESSORS=own lobewright " + line);
    }
};

}  // namespace

TEST_CASE("the dialects inside the program are the files of postprocessors/, byte by byte") {
    std::vector<std::string> names;
    for (const fs::directory_entry& entry : fs::directory_iterator(source_folder() / "postprocessors")) {
        if (entry.path().extension() == ".toml") names.push_back(entry.path().stem());
    }
    std::sort(names.begin(), names.end());
    std::vector<std::string> shipped;
    for (const ShippedDialect& each : shipped_dialects()) {
        INFO(each.name);
        shipped.emplace_back(each.name);
        CHECK(each.text == file_text(source_folder() / "postprocessors" / (shipped.back() + ".toml")));
        CHECK(read_dialect(std::string(each.text), shipped.back() + ".toml").ok());
    }
    CHECK(shipped == names);
}

TEST_CASE("a program that was copied alone has its post-processors") {
    const JobFolder folder(small_job());
    fs::copy_file(built_program(), folder / "copy");
    const Run posts = folder.shell("./copy posts");
    CHECK(posts.exit_code == 0);
    CHECK_THAT(posts.out, ContainsSubstring("rs274ngc-xza: "));
    CHECK(posts.out == folder.run({"posts"}).out);
    const Run cut = folder.shell("PATH=/no-such-folder; ./copy cut job.toml");
    CHECK(cut.exit_code == 0);
    CHECK(cut.out == folder.run({"cut", "job.toml"}).out);
}

TEST_CASE("--names lists the names alone, and --show prints what was shipped") {
    const JobFolder folder(small_job());
    CHECK(folder.run({"posts", "--names"}).out ==
          "iso6983-xzc\nplain-xa\nrs274ngc-xza\nrs274ngc-xzc\nrs274ngc-yxa\nrs274ngc-zxa\n");
    CHECK(folder.run({"posts", "--show", "plain-xa"}).out ==
          file_text(source_folder() / "postprocessors" / "plain-xa.toml"));
}

TEST_CASE("the user's own folder goes before what is inside the program") {
    const OwnPosts folder;
    folder.put("rs274ngc-xza.toml", own_post("the mill by the window"));
    folder.put("attic.toml", own_post("the mill in the attic"));
    folder.put("notes.txt", "no post-processor");
    const Run posts = folder.with("posts");
    CHECK(posts.exit_code == 0);
    CHECK_THAT(posts.out, ContainsSubstring("rs274ngc-xza: the mill by the window"));
    CHECK_THAT(posts.out, ContainsSubstring("attic: the mill in the attic"));
    CHECK_THAT(posts.out, ContainsSubstring("  your own: own/attic.toml\n"));
    CHECK_THAT(posts.out, ContainsSubstring("plain-xa: "));
    CHECK(folder.with("posts --names").out ==
          "attic\niso6983-xzc\nplain-xa\nrs274ngc-xza\nrs274ngc-xzc\nrs274ngc-yxa\nrs274ngc-zxa\n");
    CHECK_THAT(folder.with("posts --json").out,
               ContainsSubstring("\"file\": \"own/attic.toml\"") && ContainsSubstring("\"file\": null"));
    CHECK(folder.with("posts --show attic").out == own_post("the mill in the attic"));
    CHECK_THAT(folder.with("cut job.toml --post attic").out, ContainsSubstring(" for attic)"));
    CHECK(folder.with("posts --show attic -o own/attic.toml").exit_code == 2);
}

TEST_CASE("the user's own folder is lobewright/postprocessors where settings lie") {
    const JobFolder folder(small_job());
    fs::create_directories(folder / "config/lobewright/postprocessors");
    fs::create_directories(folder / ".config/lobewright/postprocessors");
    write_file(folder / "config/lobewright/postprocessors/attic.toml", own_post("by XDG_CONFIG_HOME"));
    write_file(folder / ".config/lobewright/postprocessors/attic.toml", own_post("by HOME"));
    CHECK_THAT(folder.shell("XDG_CONFIG_HOME=$PWD/config lobewright posts").out,
               ContainsSubstring("attic: by XDG"));
    for (const char* unset : {"XDG_CONFIG_HOME=", "XDG_CONFIG_HOME=config", "env -u XDG_CONFIG_HOME"}) {
        INFO(unset);
        CHECK_THAT(folder.shell(std::string(unset) + " HOME=$PWD lobewright posts").out,
                   ContainsSubstring("attic: by HOME"));
    }
    CHECK(folder.shell("env -u XDG_CONFIG_HOME -u HOME lobewright posts").out == folder.run({"posts"}).out);
}

TEST_CASE("a post-processor that isn't there is told with where it was looked for") {
    const OwnPosts folder;
    const Run missing = folder.with("cut job.toml --post atic");
    CHECK(missing.exit_code == 2);
    CHECK_THAT(missing.err, ContainsSubstring("looked in own and inside the program"));
    const Run nowhere = folder.run({"cut", "job.toml", "--post", "atic"});
    CHECK(nowhere.exit_code == 2);
    CHECK_THAT(nowhere.err,
               ContainsSubstring("looked in /no-such-folder/lobewright/postprocessors (there is no such "
                                 "folder) and inside the program"));
    CHECK_THAT(folder.shell("env -u XDG_CONFIG_HOME -u HOME lobewright posts --show atic").err,
               ContainsSubstring("looked inside the program"));
    const Run path = folder.run({"cut", "job.toml", "--post", "other/mine.toml"});
    CHECK(path.exit_code == 3);
    CHECK_THAT(path.err,
               ContainsSubstring("other/mine.toml: can't be read (there is no such file or folder)"));
}

TEST_CASE("a post-processor that can't be got at is exit code 3 with the reason") {
    const OwnPosts folder;
    fs::create_symlink("round.toml", folder / "own" / "round.toml");
    const Run round = folder.with("cut job.toml --post round");
    CHECK(round.exit_code == 3);
    CHECK_THAT(round.err,
               ContainsSubstring("own/round.toml: can't be read (its links lead round in a circle)"));
    const Run by_path = folder.run({"cut", "job.toml", "--post", "own/round.toml"});
    CHECK(by_path.exit_code == 3);
    CHECK_THAT(by_path.err,
               ContainsSubstring("own/round.toml: can't be read (its links lead round in a circle)"));
    const Run too_long = folder.with("cut job.toml --post " + std::string(300, 'x'));
    CHECK(too_long.exit_code == 3);
    CHECK_THAT(too_long.err, ContainsSubstring("can't be read (the name is too long)"));
}

TEST_CASE("a broken post-processor of the user's own is told, and the others are listed") {
    const OwnPosts folder;
    folder.put("attic.toml", "summary = 1\n");
    const Run posts = folder.with("posts");
    CHECK(posts.exit_code == 2);
    CHECK_THAT(posts.err, ContainsSubstring("own/attic.toml:1:11: "));
    CHECK_THAT(posts.out, ContainsSubstring("plain-xa: "));
}
