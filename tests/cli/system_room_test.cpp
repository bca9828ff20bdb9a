// What knows the operating system stands in src/cli/system alone, and there in a room for each.
#include "catch.h"
#include "lines.h"
#include "program.h"

#include <algorithm>
#include <regex>

namespace fs = std::filesystem;

namespace {

/// "file: line" of every line under `folder` that holds the pattern, but for those in files that `spared`
/// begins.
std::vector<std::string> lines_with(const std::string& pattern, const fs::path& folder,
                                    const std::vector<std::string>& spared) {
    const std::regex wanted(pattern);
    std::vector<std::string> found;
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(source_folder() / folder)) {
        const std::string name = fs::relative(entry.path(), source_folder()).string();
        const bool is_source = name.ends_with(".cpp") || name.ends_with(".h");
        const auto begins = [&](const std::string& room) { return name.starts_with(room); };
        if (!is_source || std::any_of(spared.begin(), spared.end(), begins)) continue;
        for (const std::string& line : lines_of(file_text(entry.path()))) {
            if (std::regex_search(line, wanted)) found.push_back(name + ": " + line);
        }
    }
    return found;
}

const std::vector<std::string> none, rooms{"src/cli/system/posix/", "src/cli/system/windows/"};

}  // namespace

TEST_CASE("no stream of the library's writes a file, for it fails in silence") {
    CHECK(lines_with("fstream|fopen|freopen|fputs|fwrite", "src", none).empty());
    CHECK(lines_with("fstream", "include", none).empty());
}

TEST_CASE("the operating system is known in its rooms alone, and no line asks which one it is") {
    CHECK(lines_with("<(unistd|fcntl|poll|windows|shellapi)\\.h>|<sys/", "src", rooms).empty());
    CHECK(lines_with("\\bgetenv\\b|\\bisatty\\b", "src", rooms).empty());
    CHECK(lines_with("_WIN32|__linux__|__unix__|__APPLE__", "src", none).empty());
    CHECK_FALSE(lines_with("<unistd\\.h>", "src", none).empty());
}
