#include "catch.h"
#include "program.h"

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

namespace fs = std::filesystem;

namespace {

std::string text_of(const fs::path& path) {
    std::ostringstream text;
    text << std::ifstream(path).rdbuf();
    return text.str();
}

std::string all_sources_of_the_reader() {
    std::string all;
    for (const auto& entry : fs::directory_iterator(source_folder() / "src/job")) {
        if (entry.path().extension() == ".cpp" && entry.path().filename() != "start.cpp")
            all += text_of(entry.path());
    }
    return all;
}

std::set<std::string> matches(const std::string& text, const std::regex& pattern) {
    std::set<std::string> found;
    for (std::sregex_iterator it(text.begin(), text.end(), pattern), end; it != end; ++it)
        found.insert((*it)[1]);
    return found;
}

/// Keys that the reader asks a table for: table.length("z", ...), read_ramp(table, "opening_ramp").
std::set<std::string> keys_asked_for(const std::string& sources) {
    static const std::regex call(
        R"re(\b(?:read_|required_)?(?:length|number|numbers|whole_number|whole_numbers|angle|choice|choose|string|any|array|table|named|list|material|ramp|timing)(?:_or)?(?:<\w+>)?\((?:\w+, )?"([a-z_]+)")re");
    return matches(sources, call);
}

/// Keys of the page's tables: what stands in backticks in a row's first cell.
std::set<std::string> keys_of_the_tables(const std::string& page) {
    std::set<std::string> keys;
    std::istringstream lines(page);
    for (std::string line; std::getline(lines, line);) {
        if (!line.starts_with("| `")) continue;
        const std::string cell = line.substr(2, line.find(" |", 2) - 2);
        keys.merge(matches(cell, std::regex("`(?:\\[\\[shaft\\.)?([a-z_]+)(?:\\]\\])?`")));
    }
    return keys;
}

}  // namespace

TEST_CASE("every key that the reader knows stands in the page on the job file") {
    const std::string page = text_of(source_folder() / "examples/job-file.md");
    const auto asked = keys_asked_for(all_sources_of_the_reader());
    REQUIRE(asked.size() > 80);
    for (const std::string& key : asked) {
        INFO(key);
        const bool stands = page.find('`' + key + '`') != std::string::npos ||
                            page.find('[' + key) != std::string::npos ||
                            std::regex_search(page, std::regex("`[^`]*\\b" + key + "\\b[^`]*`"));
        CHECK(stands);
    }
}

TEST_CASE("the page on the job file names no key that the reader doesn't know") {
    const std::string sources = all_sources_of_the_reader();
    const auto keys = keys_of_the_tables(text_of(source_folder() / "examples/job-file.md"));
    REQUIRE(keys.size() > 80);
    for (const std::string& key : keys) {
        INFO(key);
        CHECK(sources.find('"' + key + '"') != std::string::npos);
    }
}
