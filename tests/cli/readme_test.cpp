// What README.md says is what happens.
#include "catch.h"
#include "cli/command_table.h"
#include "cli/help/help.h"
#include "program.h"

#include <lobewright/start.h>

#include <cstdlib>
#include <regex>
#include <set>
#include <sstream>

namespace fs = std::filesystem;
using namespace lobewright;

namespace {

std::string readme() {
    return file_text(source_folder() / "README.md");
}

/// What stands between two fences.
struct Fenced {
    std::string fence;
    std::vector<std::string> lines;
};

std::vector<Fenced> fenced_blocks() {
    std::vector<Fenced> found;
    bool inside = false;
    std::istringstream lines(readme());
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("```")) {
            inside = !inside;
            if (inside) found.push_back({line, {}});
        } else if (inside) {
            found.back().lines.push_back(line);
        }
    }
    return found;
}

/// The lines of every fenced block whose opening fence is exactly `fence`, block after block.
std::vector<std::string> fenced_lines(const std::string& fence) {
    std::vector<std::string> found;
    for (const Fenced& block : fenced_blocks()) {
        if (block.fence == fence) found.insert(found.end(), block.lines.begin(), block.lines.end());
    }
    return found;
}

/// A folder that looks like the project's top folder after a build.
class BuiltProject {
  public:
    BuiltProject() {
        fs::create_directory(folder_.path() / "build");
        fs::create_symlink(built_program(), folder_.path() / "build" / "lobewright");
        fs::create_symlink(source_folder() / "examples", folder_.path() / "examples");
    }
    /// What the program prints and writes in these lines of a shell, in their order.
    [[nodiscard]] std::string run(const std::vector<std::string>& lines) const {
        std::string outputs;
        for (const std::string& line : lines) {
            if (!line.starts_with("build/lobewright ")) continue;
            const std::set<fs::path> before = files();
            INFO(line);
            const Run run = run_command({"sh", "-c", line}, folder_.path());
            INFO(run.err);
            CHECK(run.exit_code == 0);
            outputs += run.out;
            for (const fs::path& file : files()) {
                if (!before.contains(file)) outputs += file_text(file);
            }
        }
        return outputs;
    }

  private:
    [[nodiscard]] std::set<fs::path> files() const {
        std::set<fs::path> found;
        for (const auto& entry : fs::directory_iterator(folder_.path())) {
            if (entry.is_regular_file()) found.insert(entry.path());
        }
        return found;
    }
    TemporaryFolder folder_;
};

std::string without_comment(std::string line) {
    line.erase(std::min(line.find('#'), line.size()));
    std::string bare;
    for (const char c : line) {
        if (c != ' ') bare += c;
    }
    return bare;
}

}  // namespace

TEST_CASE(
    "README's calls of the program all succeed, and what it shows below them comes out of them, in that "
    "order") {
    const BuiltProject project;
    std::string outputs;
    int excerpts = 0;
    for (const Fenced& block : fenced_blocks()) {
        if (block.fence == "```sh") outputs = project.run(block.lines);
        if (block.fence != "```") continue;
        ++excerpts;
        std::size_t from = 0;
        for (const std::string& line : block.lines) {
            if (line == "...") continue;
            INFO(line);
            const std::size_t at = outputs.find(line + "\n", from);
            CHECK(at != std::string::npos);
            if (at != std::string::npos) from = at + line.size();
        }
    }
    CHECK(excerpts >= 9);
}

TEST_CASE("README shows what each command that cuts, proves, measures or lists puts out") {
    std::string shown_by;
    std::set<std::string> shown;
    for (const Fenced& block : fenced_blocks()) {
        if (block.fence == "```sh") {
            shown_by.clear();
            for (const std::string& line : block.lines)
                shown_by += line + '\n';
        }
        const bool shows = block.fence == "```";
        for (const std::string& command : cli::command_names()) {
            if (shows && shown_by.find("lobewright " + command + ' ') != std::string::npos)
                shown.insert(command);
            if (shows && shown_by.find("lobewright " + command + '\n') != std::string::npos)
                shown.insert(command);
        }
    }
    for (const char* command :
         {"check", "compare", "table", "index", "cut", "prove", "inspect", "posts", "start"})
        CHECK(shown.contains(command));
}

TEST_CASE("every test that DEVELOPERS.md calls a promise's witness is there") {
    const std::string text = file_text(source_folder() / "DEVELOPERS.md");
    const std::size_t from = text.find("\n## What is promised"), to = text.find("\n## ", from + 1);
    REQUIRE(from != std::string::npos);
    const std::string tables = text.substr(from, to - from);
    const std::regex file(R"(`([a-z_]+/[a-z_]+\.(?:cpp|cmake|py|h)|[a-z_]+\.sh)`)");
    int witnesses = 0;
    for (std::sregex_iterator at(tables.begin(), tables.end(), file), end; at != end; ++at) {
        INFO((*at)[1].str());
        CHECK(fs::exists(source_folder() / "tests" / (*at)[1].str()));
        ++witnesses;
    }
    CHECK(witnesses > 60);
    for (int row = 1; row <= 23; ++row) {
        INFO(row);
        if (row <= 20) CHECK_THAT(tables, ContainsSubstring("\n| R" + std::to_string(row) + " | "));
        CHECK_THAT(tables, ContainsSubstring("\n| " + std::to_string(row) + " | "));
    }
}

TEST_CASE("README's excerpt of a job stands in the example that it is taken from") {
    std::string job = "\n";
    std::istringstream lines(file_text(source_folder() / "examples" / "basalt-four.toml"));
    for (std::string line; std::getline(lines, line);)
        job += without_comment(line) + "\n";
    int keys = 0;
    for (const std::string& line : fenced_lines("```toml")) {
        const std::string bare = without_comment(line);
        if (bare.empty()) continue;
        INFO(line);
        CHECK(job.find("\n" + bare + "\n") != std::string::npos);
        ++keys;
    }
    CHECK(keys > 5);
}

TEST_CASE("README and the help know the same commands, purposes and exit codes") {
    const std::string text = readme();
    for (const std::string& command : cli::command_names()) {
        INFO(command);
        CHECK_THAT(text, ContainsSubstring("lobewright " + command));
    }
    for (const std::string& purpose : starting_purposes()) {
        CHECK_THAT(text, ContainsSubstring("`" + purpose + "`"));
        CHECK_THAT(cli::help_text("start"), ContainsSubstring("\n  " + purpose + " "));
    }
    for (const char* code : {"0", "1", "2", "3", "70"}) {
        CHECK_THAT(text, ContainsSubstring("\n| " + std::string(code) + " | "));
        CHECK_THAT(cli::help_text(""), ContainsSubstring("\n  " + std::string(code) + " "));
    }
}

TEST_CASE("README's scripts are there and are good shell") {
    int scripts = 0;
    for (const std::string& line : fenced_lines("```sh")) {
        if (!line.starts_with("sh ")) continue;
        const std::string script = line.substr(3, line.find_first_of(" #", 3) - 3);
        INFO(script);
        CHECK(run_command({"sh", "-n", script}, source_folder()).exit_code == 0);
        ++scripts;
    }
    CHECK(scripts == 2);
}

TEST_CASE("the README's pictures are what the program draws of the examples", "[golden]") {
    const fs::path examples = source_folder() / "examples";
    const std::string four = examples / "basalt-four.toml", single = examples / "basalt-single-lathe.toml";
    const std::vector<std::pair<std::string, std::vector<std::string>>> pictures{
        {"lobe.svg", {"draw", four, "--what", "lobe", "--lobe", "1 inlet"}},
        {"shaft.svg", {"draw", four, "--what", "shaft"}},
        {"wheel.svg", {"draw", single, "--what", "wheel", "--diameter", "120", "--bore", "16"}}};
    for (const auto& [name, arguments] : pictures) {
        const Run run = run_program(arguments);
        CHECK(run.exit_code == 0);
        const fs::path file = examples / "pictures" / name;
        if (std::getenv("LOBEWRIGHT_RENEW_GOLDEN") != nullptr) write_file(file, run.out);
        CHECK(run.out == file_text(file));
        CHECK_THAT(readme(), ContainsSubstring("examples/pictures/" + name));
    }
}
