#include "catch.h"
#include "cli/help.h"
#include "cli/options.h"

#include <lobewright/diagnostic.h>

#include <algorithm>
#include <set>
#include <sstream>

using namespace lobewright;
using namespace lobewright::cli;

namespace {

/// The one complaint about these arguments, whole.
Diagnostic complaint_about(const std::vector<std::string>& arguments) {
    const Outcome<Options> options = parse_command_line(arguments);
    REQUIRE_FALSE(options.ok());
    REQUIRE(options.diagnostics().size() == 1);
    return options.diagnostics().front();
}

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

}  // namespace

TEST_CASE("an unknown command gets the nearest one, or the list") {
    const Diagnostic near = complaint_about({"tabel", "job.toml"});
    CHECK(to_text(near) == "lobewright: there is no command \"tabel\": did you mean table?");
    CHECK(near.fault == Fault::bad_input);
    CHECK_THAT(complaint_about({"xylophone"}).remedy,
               ContainsSubstring("start, check, table, cut, prove, index, posts"));
}

TEST_CASE("an unknown option gets the nearest one of that command") {
    CHECK(to_text(complaint_about({"table", "job.toml", "--evry", "1"})) ==
          "lobewright: table has no option --evry: did you mean --every?");
    CHECK(to_text(complaint_about({"cut", "job.toml", "--pots=a"})) ==
          "lobewright: cut has no option --pots: did you mean --post?");
    CHECK(complaint_about({"check", "job.toml", "-x"}).code == "unknown-option");
    CHECK(complaint_about({"check", "job.toml", "--plan"}).code == "unknown-option");
    CHECK(complaint_about({"--quiet", "check", "job.toml"}).code == "unknown-option");
}

TEST_CASE("an argument too many, too few or empty is a complaint") {
    CHECK(complaint_about({"check", "job.toml", "other.toml"}).code == "extra-argument");
    CHECK(complaint_about({"check"}).code == "missing-argument");
    CHECK(complaint_about({"prove", "job.toml"}).code == "missing-argument");
    CHECK(complaint_about({"start", "new.toml"}).code == "missing-argument");
    CHECK(complaint_about({"start", "new.toml", "-o", "other.toml", "--for", "lathe-c"}).code == "two-files");
    CHECK(complaint_about({"check", "job.toml", "-o", ""}).code == "empty-argument");
    CHECK(complaint_about({"check", ""}).code == "empty-argument");
    CHECK_THAT(complaint_about({"table", "job.toml", "--lobe"}).what, ContainsSubstring("--lobe"));
    CHECK_THAT(complaint_about({"check", "job.toml", "-o", "a", "-o", "b"}).what,
               ContainsSubstring("--output"));
}

TEST_CASE("--every takes plain numbers of degrees alone") {
    for (const char* wrong : {"nan", "inf", "-inf", "0", "-1", "181", "1e1", "1,5", "one", "0x10", "1 "}) {
        INFO(wrong);
        CHECK(complaint_about({"table", "job.toml", "--every", wrong}).code == "bad-number");
    }
    const Outcome<Options> half = parse_command_line({"table", "job.toml", "--every", "0.5"});
    REQUIRE(half.ok());
    CHECK_NEAR(half->every.degrees(), 0.5, 1e-15);
    CHECK_NEAR(parse_command_line({"table", "job.toml"})->every.degrees(), 1.0, 1e-15);
}

TEST_CASE("formats are words, and --json is one of them") {
    CHECK(parse_command_line({"table", "job.toml", "--format", "markdown"})->format == TextFormat::markdown);
    CHECK(parse_command_line({"index", "job.toml", "--json"})->format == TextFormat::json);
    CHECK_FALSE(parse_command_line({"index", "job.toml"})->format_given);
    CHECK(to_text(complaint_about({"index", "job.toml", "--format", "cvs"})) ==
          "lobewright: there is no format \"cvs\": did you mean csv?");
    CHECK(complaint_about({"table", "job.toml", "--json", "--format", "csv"}).code == "two-formats");
}

TEST_CASE("options stand before or after the files, and names may hold spaces") {
    const Outcome<Options> options =
        parse_command_line({"table", "--lobe", "1 inlet", "job.toml", "-o", "out.csv"});
    REQUIRE(options.ok());
    CHECK(options->command == Command::table);
    CHECK(options->job == "job.toml");
    CHECK(options->lobe == "1 inlet");
    CHECK(options->output == "out.csv");
    CHECK_FALSE(options->quiet);
    CHECK(parse_command_line({"prove", "job.toml", "-"})->program == "-");
    CHECK(parse_command_line({"table", "job.toml", "--lobe=-x"})->lobe == "-x");
}

TEST_CASE("help is asked for with or without a command, and before anything else is complained about") {
    CHECK(parse_command_line({})->command == Command::help);
    CHECK(parse_command_line({"--help"})->help_topic.empty());
    CHECK(parse_command_line({"cut", "-h"})->help_topic == "cut");
    CHECK(parse_command_line({"cut", "--nonsense", "--help"})->command == Command::help);
    CHECK(parse_command_line({"--version"})->command == Command::version);
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

TEST_CASE("the help names exactly the options that there are") {
    for (const std::string& command : command_names()) {
        INFO(command);
        const std::string page = help_text(command);
        std::set<std::string> real = long_options(complaint_about({command, "--xxxxxxxxxxxxxxx"}).remedy);
        REQUIRE(real.contains("--quiet"));
        real.erase("--help");
        real.erase("--output");  // the help calls it -o
        CHECK(long_options(page) == real);
        CHECK_THAT(page, ContainsSubstring("  -o FILE"));
    }
}

TEST_CASE("the overview lists every command") {
    for (const std::string& command : command_names()) {
        CHECK_THAT(help_text(""), ContainsSubstring("\n  " + command + " "));
    }
}
