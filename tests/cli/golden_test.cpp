// Golden cases: each folder of golden/ holds a `command` as one would type it, the files that it works on,
// and what is `expected`: exit code, both outputs, and the files that it wrote. `cmake --build build --target
// renew_golden` writes `expected` anew, to be read before it is committed.
#include "catch.h"
#include "cli/text_run.h"
#include "program.h"

#include <cstdlib>
#include <set>

namespace fs = std::filesystem;

namespace {

/// Words at the spaces; a pair of double quotes holds one together.
std::vector<std::string> words_of(const std::string& line) {
    std::vector<std::string> words;
    bool quoted = false, inside = false;
    for (const char c : line) {
        if (c == '"') {
            quoted = !quoted;
            if (quoted && !inside) words.emplace_back();
            inside = true;
        } else if (!quoted && (c == ' ' || c == '\n')) {
            inside = false;
        } else {
            if (!inside) words.emplace_back();
            inside = true;
            words.back() += c;
        }
    }
    return words;
}

std::set<std::string> names_in(const fs::path& folder) {
    std::set<std::string> names;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder))
        names.insert(entry.path().filename());
    return names;
}

std::vector<std::string> arguments_of(const fs::path& folder) {
    std::vector<std::string> arguments = words_of(file_text(folder / "command"));
    REQUIRE_FALSE(arguments.empty());
    REQUIRE(arguments.front() == "lobewright");
    arguments.erase(arguments.begin());
    return arguments;
}

std::string told(int code, const std::string& out, const std::string& err,
                 const lobewright::cli::Texts& files) {
    std::string story = "exit code " + std::to_string(code) + "\n";
    story += "---- standard output\n" + out + "---- standard error\n" + err;
    for (const auto& [name, text] : files)
        story += "---- new file " + name + "\n" + text;
    return story;
}

/// The case's command run in a copy of its folder, told as `expected` tells it.
std::string story_of(const fs::path& folder) {
    const TemporaryFolder copy;
    fs::copy(folder, copy.path(), fs::copy_options::recursive);
    const std::set<std::string> before = names_in(copy.path());
    const Run run = run_program(arguments_of(folder), copy.path());
    lobewright::cli::Texts files;
    for (const std::string& name : names_in(copy.path())) {
        if (!before.contains(name)) files[name] = file_text(copy.path() / name);
    }
    return told(run.exit_code, run.out, run.err, files);
}

/// The same from the folder's texts, and without the post-processors of one's own, which no one has there.
std::string story_of_texts(const fs::path& folder) {
    lobewright::cli::Texts texts;
    for (const std::string& name : names_in(folder))
        texts[name] = file_text(folder / name);
    const auto [code, out, err, files] = lobewright::cli::run_on_texts(arguments_of(folder), texts);
    return told(code, out, err, files);
}

std::string without_own_posts(std::string story) {
    const std::string looked =
        "; looked in /no-such-folder/lobewright/postprocessors (there is no such folder) and inside";
    const std::size_t at = story.find(looked);
    return at == std::string::npos ? story : story.replace(at, looked.size(), "; looked inside");
}

}  // namespace

TEST_CASE("every golden case comes out as it stands", "[golden]") {
    const bool renew = std::getenv("LOBEWRIGHT_RENEW_GOLDEN") != nullptr;
    const fs::path golden = source_folder() / "tests" / "cli" / "golden";
    std::size_t cases = 0;
    for (const std::string& name : names_in(golden)) {
        const std::string story = story_of(golden / name);
        if (renew) write_file(golden / name / "expected", story);
        INFO(name);
        CHECK(story == file_text(golden / name / "expected"));
        ++cases;
    }
    CHECK(cases > 0);
}

TEST_CASE("every golden case comes out the same from texts in memory") {
    const fs::path golden = source_folder() / "tests" / "cli" / "golden";
    for (const std::string& name : names_in(golden)) {
        INFO(name);
        CHECK(story_of_texts(golden / name) == without_own_posts(file_text(golden / name / "expected")));
    }
}
