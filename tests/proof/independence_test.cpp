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

/// The project's own file behind an include of a file, or nothing for a library's. As the compiler looks:
/// beside the file itself first, then in the project's folders.
fs::path own_file(const std::string& name, const fs::path& from) {
    for (const fs::path& folder :
         {from.parent_path(), source_folder() / "include", source_folder() / "src"}) {
        const fs::path path = folder / name;
        if (fs::exists(path)) return fs::canonical(path);
    }
    return {};
}

/// Everything of ours that the files of a folder, and of the folders in it, see through any number of
/// includes; as names from the project's own folder on: "src/proof/...", "include/lobewright/...".
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
            const fs::path next = own_file(name, file);
            if (next.empty()) continue;
            const std::string own = fs::relative(next, fs::canonical(source_folder())).generic_string();
            if (seen.insert(own).second) open.push_back(next);
        }
    }
    return seen;
}

/// Those of the files seen that lie in one of the folders, or are one of the files.
std::vector<std::string> forbidden(const std::set<std::string>& seen,
                                   const std::vector<std::string>& places) {
    std::vector<std::string> found;
    for (const std::string& name : seen) {
        for (const std::string& place : places) {
            if (name == place || (place.back() == '/' && name.rfind(place, 0) == 0)) found.push_back(name);
        }
    }
    return found;
}

}  // namespace

TEST_CASE("the proof sees nothing of the toolpath or of the writer, through any number of includes") {
    const auto seen = seen_from(source_folder() / "src/proof");
    for (const char* own : {"include/lobewright/lobe.h", "include/lobewright/dialect.h",
                            "src/proof/reader/controller.h", "src/proof/section/cutter_section.h"})
        REQUIRE(seen.count(own) == 1);
    const std::vector<std::string> none;
    CHECK(forbidden(seen, {"src/toolpath/", "src/post/", "src/hand/", "src/ways/", "src/cli/",
                           "include/lobewright/toolpath.h", "include/lobewright/program_writer.h"}) == none);
}

TEST_CASE("the toolpath sees nothing of dialects, programs or the proof") {
    const auto seen = seen_from(source_folder() / "src/toolpath");
    REQUIRE(seen.count("include/lobewright/toolpath.h") == 1);
    const std::vector<std::string> none;
    CHECK(forbidden(seen, {"src/post/", "src/proof/", "include/lobewright/dialect.h",
                           "include/lobewright/program_writer.h", "include/lobewright/program_reader.h",
                           "include/lobewright/proof.h"}) == none);
}

TEST_CASE("an include without its folder is followed, too") {
    const TemporaryFolder folder;
    write_file(folder.path() / "beside.h", "#include <lobewright/toolpath.h>\n");
    write_file(folder.path() / "sly.cpp", "#include \"beside.h\"\n");
    const auto seen = seen_from(folder.path());
    CHECK(seen.count("include/lobewright/toolpath.h") == 1);
}
