// The one table of commands and options, and all that is made from it: they know the same words.
#include "cli/help/help.h"

#include "catch.h"
#include "cli/command_table.h"
#include "lines.h"
#include "program.h"

#include <lobewright/start.h>

#include <algorithm>
#include <set>
#include <sstream>

using namespace lobewright;
using namespace lobewright::cli;
namespace fs = std::filesystem;

namespace {

/// Every "--word" in a text.
std::set<std::string> long_options(const std::string& text) {
    std::set<std::string> found;
    for (std::size_t at = text.find("--"); at != std::string::npos; at = text.find("--", at + 2)) {
        std::size_t end = at + 2;
        while (end < text.size() && std::islower(static_cast<unsigned char>(text[end])) != 0)
            ++end;
        if (end > at + 2) found.insert(text.substr(at, end - at));
        at = end - 2;
    }
    return found;
}

std::set<std::string> long_options(const CommandRow& row) {
    std::set<std::string> names;
    for (const OptionRow& option : row.options)
        names.insert("--" + option.name);
    return names;
}

bool can_be_tried(const std::string& program) {
    if (is_installed(program)) return true;
    WARN(program << " is not installed: not tried");
    return false;
}

std::vector<std::string> sorted_lines(const std::string& text) {
    std::vector<std::string> lines = lines_of(text);
    std::sort(lines.begin(), lines.end());
    return lines;
}

/// What bash offers where the last of `words` is being typed, in a folder with some files, sorted.
std::vector<std::string> offered_by_bash(const std::vector<std::string>& words) {
    const TemporaryFolder folder;
    for (const char* name : {"engine.toml", "engine.ngc"})
        write_file(folder.path() / name, "");
    fs::create_directory(folder.path() / "jobs");
    std::string list;
    for (const std::string& word : words)
        list += " '" + word + "'";
    write_file(folder.path() / "complete", bash_completion());
    const std::string script = "compopt() { :; }; . ./complete; rm complete; COMP_WORDS=(lobewright" + list +
                               "); COMP_CWORD=" + std::to_string(words.size()) +
                               "; _lobewright; printf '%s\\n' \"${COMPREPLY[@]}\"";
    const Run run = run_command({"bash", "-c", script}, folder.path());
    INFO(run.err);
    CHECK(run.err.empty());
    return sorted_lines(run.out);
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("no two commands, and no two options of one, have a name or a letter in common") {
    std::set<std::string> commands;
    for (const CommandRow& row : command_table()) {
        INFO(row.name);
        CHECK(commands.insert(row.name).second);
        CHECK(long_options(row).size() == row.options.size());
        std::set<char> letters;
        for (const OptionRow& option : row.options) {
            if (option.letter != '\0') CHECK(letters.insert(option.letter).second);
            CHECK(option.value.empty() == std::holds_alternative<bool Options::*>(option.field));
            CHECK((option.kind == Value::word) == !option.words.empty());
        }
        for (const ArgumentRow& argument : row.arguments)
            CHECK_THAT(row.usage, ContainsSubstring(argument.name));
    }
}

TEST_CASE("help fits into 80 columns and ends with examples") {
    std::vector<std::string> topics = command_names();
    topics.emplace_back("");
    for (const std::string& topic : topics) {
        INFO(topic);
        std::istringstream lines(help_text(topic));
        for (std::string line; std::getline(lines, line);) {
            INFO(line);
            CHECK(line.size() <= 80);
            CHECK((line.empty() || line.back() != ' '));
        }
        CHECK_THAT(help_text(topic), ContainsSubstring("\nexample"));
    }
}

TEST_CASE("a command's help names exactly the options that there are") {
    for (const CommandRow& row : command_table()) {
        INFO(row.name);
        std::set<std::string> named = long_options(help_text(row.name));
        const std::set<std::string> real = long_options(row);
        // The text for --json may speak of --format, that of help of --as.
        CHECK(named == real);
    }
}

TEST_CASE("the examples of the help are command lines that the parser takes") {
    std::vector<std::string> examples = program_texts().examples;
    for (const CommandRow& row : command_table())
        examples.insert(examples.end(), row.examples.begin(), row.examples.end());
    for (const std::string& example : examples) {
        INFO(example);
        const Run words =
            run_command({"bash", "-c", "printf '%s\\n' " + example.substr(0, example.find(" >"))});
        std::istringstream stream(words.out);
        std::vector<std::string> arguments;
        for (std::string word; std::getline(stream, word);)
            arguments.push_back(word);
        const Outcome<Options> options = parse_command_line(arguments);
        CHECK(options.ok());
    }
}

TEST_CASE("the overview lists every command and every exit code") {
    for (const CommandRow& row : command_table())
        CHECK_THAT(help_text(""), ContainsSubstring("\n  " + row.name + " "));
    for (const Meaning& code : program_texts().exit_codes)
        CHECK_THAT(help_text(""), ContainsSubstring("\n  " + code.word + " "));
}

TEST_CASE("the manual page holds all that the help says, and roff takes every line of it") {
    const std::string page = manual_page();
    for (const CommandRow& row : command_table()) {
        INFO(row.name);
        CHECK_THAT(page, ContainsSubstring("\n.SS lobewright " + row.name));
        for (const OptionRow& option : row.options) {
            std::string name = "\\-\\-" + option.name;
            CHECK_THAT(page, ContainsSubstring(name));
        }
    }
    if (!can_be_tried("man")) return;
    const TemporaryFolder folder;
    write_file(folder.path() / "lobewright.1", page);
    const Run run =
        run_command({"sh", "-c", "MANWIDTH=80 LC_ALL=C man --warnings -l ./lobewright.1"}, folder.path());
    CHECK(run.exit_code == 0);
    CHECK(run.err.empty());
    for (const char* words : {"EXIT STATUS", "--quiet", "lobewright cut JOB.toml", "offset-fixture"})
        CHECK_THAT(run.out, ContainsSubstring(words));
}

TEST_CASE("bash completes commands, options, their values and files") {
    CHECK(offered_by_bash({"po"}) == Words{"posts"});
    CHECK(offered_by_bash({"--v"}) == Words{"--version"});
    CHECK(offered_by_bash({"help", "st"}) == Words{"start"});
    CHECK(offered_by_bash({"table", "--f"}) == Words{"--format"});
    CHECK(offered_by_bash({"table", "--format", "c"}) == Words{"csv"});
    CHECK(offered_by_bash({"table", "--format", "="}) == Words{"csv", "json", "markdown"});
    CHECK(offered_by_bash({"table", "--format", "=", "m"}) == Words{"markdown"});
    CHECK(offered_by_bash({"start", "new.toml", "--for", "l"}) == Words{"lathe-c"});
    CHECK(offered_by_bash({"check", ""}) == Words{"engine.toml", "jobs"});
    CHECK(offered_by_bash({"check", "-q", "e"}) == Words{"engine.toml"});
    CHECK(offered_by_bash({"prove", "engine.toml", "engine.n"}) == Words{"engine.ngc"});
    CHECK(offered_by_bash({"prove", "--post", "x", "engine"}) == Words{"engine.toml"});
    CHECK(offered_by_bash({"cut", "-o", "engine"}) == (Words{"engine.ngc", "engine.toml"}));
    CHECK(offered_by_bash({"cut", "engine.toml", "--post", "plain"}) == Words{"plain-xa"});
    CHECK(offered_by_bash({"cut", "engine.toml", "--post", "e"}) == Words{"engine.toml"});
}

TEST_CASE("bash, zsh and fish are offered every option of every command") {
    const std::string bash = bash_completion(), zsh = zsh_completion(), fish = fish_completion();
    for (const CommandRow& row : command_table()) {
        INFO(row.name);
        std::string letters;
        for (const OptionRow& option : row.options) {
            CHECK_THAT(fish,
                       ContainsSubstring("from " + row.name + "'" +
                                         (option.letter != '\0' ? std::string(" -s ") + option.letter : "") +
                                         " -l " + option.name));
        }
        const std::vector<std::string> offered = offered_by_bash({row.name, "--"});
        CHECK(std::set<std::string>(offered.begin(), offered.end()) == long_options(row));
        const std::string part = zsh.substr(zsh.find("        " + row.name + ")\n"));
        const std::string own = part.substr(0, part.find(";;"));
        CHECK(long_options(own) == long_options(row));
    }
    CHECK_FALSE(bash.empty());
}

TEST_CASE("zsh takes the completions as they are") {
    if (!can_be_tried("zsh")) return;
    const TemporaryFolder folder;
    write_file(folder.path() / "_lobewright", zsh_completion());
    const Run run = run_command({"zsh", "-f", "-n", "_lobewright"}, folder.path());
    CHECK(run.exit_code == 0);
    CHECK(run.err.empty());
}

TEST_CASE("fish completes commands, options and their values") {
    if (!can_be_tried("fish")) return;
    const TemporaryFolder folder;
    write_file(folder.path() / "lobewright.fish", fish_completion());
    const auto offered = [&](const std::string& line) {
        const Run run =
            run_command({"fish", "--no-config", "-c", "source lobewright.fish; complete -C '" + line + "'"},
                        folder.path());
        CHECK(run.err.empty());
        return run.out;
    };
    CHECK_THAT(offered("lobewright po"), ContainsSubstring("posts"));
    CHECK_THAT(offered("lobewright table --for"), ContainsSubstring("--format"));
    CHECK_THAT(offered("lobewright table --format c"), ContainsSubstring("csv"));
}
