// What README.md says is what happens.
#include "catch.h"
#include "cli/command_table.h"
#include "cli/help/help.h"
#include "program.h"

#include <lobewright/start.h>

#include <cstdlib>
#include <sstream>

namespace fs = std::filesystem;
using namespace lobewright;

namespace {

std::string readme() {
    return file_text(source_folder() / "README.md");
}

/// The lines of every fenced block whose opening fence is exactly `fence`, block after block.
std::vector<std::string> fenced_lines(const std::string& fence) {
    std::vector<std::string> found;
    bool inside = false, wanted = false;
    std::istringstream lines(readme());
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("```")) {
            wanted = !inside && line == fence;
            inside = !inside;
        } else if (inside && wanted) {
            found.push_back(line);
        }
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
    /// The README's own calls of the program, in its order; the outputs of all of them.
    [[nodiscard]] std::string run_all() const {
        std::string outputs;
        for (const std::string& line : fenced_lines("```sh")) {
            if (!line.starts_with("build/lobewright ")) continue;
            INFO(line);
            const Run run = run_command({"sh", "-c", line}, folder_.path());
            INFO(run.err);
            CHECK(run.exit_code == 0);
            outputs += run.out;
        }
        return outputs;
    }
    [[nodiscard]] fs::path operator/(const std::string& name) const { return folder_.path() / name; }

  private:
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

TEST_CASE("README's calls of the program all succeed, and its excerpts are what comes out") {
    const BuiltProject project;
    const std::string outputs = project.run_all();
    const std::string everything = outputs + file_text(project / "basalt-four.ngc");
    int excerpts = 0;
    for (const std::string& line : fenced_lines("```")) {
        if (line == "...") continue;
        INFO(line);
        CHECK(everything.find(line + "\n") != std::string::npos);
        ++excerpts;
    }
    CHECK(excerpts > 5);
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
