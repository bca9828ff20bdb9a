// The proof can only disprove what it does not share: these tests read the includes of the source files
// themselves.

#include "catch.h"
#include "program.h"

#include <filesystem>
#include <set>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace {

/// The names that a file includes, as written between the quotes or angle brackets.
std::vector<std::string> includes_of(const fs::path& file) {
    const std::string text = file_text(file);
    std::vector<std::string> names;
    for (std::size_t at = text.find("#include "); at != std::string::npos;
         at = text.find("#include ", at + 1)) {
        const std::size_t open = text.find_first_of("\"<", at);
        const std::size_t close = text.find_first_of("\">", open + 1);
        names.push_back(text.substr(open + 1, close - open - 1));
    }
    return names;
}

/// The project's own file behind an include, or nothing for a library's.
fs::path own_file(const std::string& name) {
    for (const char* folder : {"include", "src"}) {
        const fs::path path = source_folder() / folder / name;
        if (fs::exists(path)) return path;
    }
    return {};
}

/// Everything of ours that the files of a folder see, through any number of includes.
std::set<std::string> seen_from(const fs::path& folder) {
    std::set<std::string> seen;
    std::vector<fs::path> open;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        const auto ending = entry.path().extension();
        if (ending == ".cpp" || ending == ".h") open.push_back(entry.path());
    }
    while (!open.empty()) {
        const fs::path file = open.back();
        open.pop_back();
        for (const std::string& name : includes_of(file)) {
            const fs::path next = own_file(name);
            if (!next.empty() && seen.insert(name).second) open.push_back(next);
        }
    }
    return seen;
}

}  // namespace

TEST_CASE("the proof sees nothing of the toolpath or of the writer, through any number of includes") {
    const auto seen = seen_from(source_folder() / "src/proof");
    REQUIRE(seen.count("lobewright/lobe.h") == 1);
    REQUIRE(seen.count("lobewright/dialect.h") == 1);
    for (const std::string& name : seen) {
        INFO(name);
        CHECK(name.rfind("toolpath/", 0) != 0);
        CHECK(name.rfind("post/", 0) != 0);
        CHECK(name.rfind("hand/", 0) != 0);
        CHECK(name.rfind("cli/", 0) != 0);
        CHECK(name != "lobewright/toolpath.h");
        CHECK(name != "lobewright/program_writer.h");
    }
}

TEST_CASE("the toolpath sees nothing of dialects, programs or the proof") {
    const auto seen = seen_from(source_folder() / "src/toolpath");
    REQUIRE(seen.count("lobewright/toolpath.h") == 1);
    for (const std::string& name : seen) {
        INFO(name);
        CHECK(name.rfind("post/", 0) != 0);
        CHECK(name.rfind("proof/", 0) != 0);
        CHECK(name != "lobewright/dialect.h");
        CHECK(name != "lobewright/program_writer.h");
        CHECK(name != "lobewright/program_reader.h");
        CHECK(name != "lobewright/proof.h");
    }
}
