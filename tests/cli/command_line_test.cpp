#include "catch.h"
#include "cli/command_table.h"

#include <lobewright/diagnostic.h>

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

}  // namespace

TEST_CASE("an unknown command gets the nearest one, or the list") {
    const Diagnostic near = complaint_about({"tabel", "job.toml"});
    CHECK(to_text(near) == "lobewright: there is no command \"tabel\": did you mean table?");
    CHECK(near.fault == Fault::bad_input);
    CHECK_THAT(complaint_about({"xylophone"}).remedy,
               ContainsSubstring(
                   "start, check, table, compare, cut, prove, index, inspect, draw, sheet, posts, help"));
    CHECK_THAT(complaint_about({"help", "tabel"}).remedy, ContainsSubstring("did you mean table?"));
    CHECK(to_text(complaint_about({"job.toml", "check"})) ==
          "lobewright: \"job.toml\" stands where a command should: say what to do with it, as in lobewright "
          "check job.toml");
}

TEST_CASE("an unknown option gets the nearest one of that command") {
    CHECK(to_text(complaint_about({"table", "job.toml", "--evry", "1"})) ==
          "lobewright: table has no option --evry: did you mean --every?");
    CHECK(to_text(complaint_about({"cut", "job.toml", "--pots=a"})) ==
          "lobewright: cut has no option --pots: did you mean --post?");
    CHECK(complaint_about({"check", "job.toml", "-x"}).code == "unknown-option");
    CHECK(complaint_about({"check", "job.toml", "--plan"}).code == "unknown-option");
    CHECK(complaint_about({"--quiet", "check", "job.toml"}).code == "unknown-option");
    CHECK_THAT(complaint_about({"--verson"}).remedy, ContainsSubstring("did you mean --version?"));
    CHECK_THAT(complaint_about({"check", "job.toml", "--out", "a"}).remedy,
               ContainsSubstring("did you mean --output?"));
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

TEST_CASE("draw says what it can draw, and takes figures above 0 alone") {
    CHECK(complaint_about({"draw"}).code == "missing-argument");
    CHECK_THAT(complaint_about({"draw", "job.toml"}).remedy,
               ContainsSubstring("--what lobe, shaft, wheel, nose, degree-wheel, motion"));
    CHECK(to_text(complaint_about({"draw", "job.toml", "--what", "shatf"})) ==
          "lobewright: --what doesn't take \"shatf\": did you mean shaft?");
    CHECK(to_text(complaint_about({"draw", "job.toml", "--what", "shaft", "--format", "dfx"})) ==
          "lobewright: --format doesn't take \"dfx\": did you mean dxf?");
    CHECK(complaint_about({"draw", "job.toml", "--what", "degree-wheel", "--crank", "left"}).code ==
          "unknown-word");
    for (const char* name : {"--scale", "--diameter", "--bore", "--screws"}) {
        for (const char* figure : {"0", "-1", "nan", "1e1", "9999"}) {
            CAPTURE(name, figure);
            CHECK(complaint_about({"draw", "job.toml", "--what", "wheel", name, figure}).code ==
                  "bad-number");
        }
    }
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

TEST_CASE("after -- nothing is an option any more") {
    CHECK(parse_command_line({"check", "--", "-job.toml"})->job == "-job.toml");
    CHECK(parse_command_line({"check", "--json", "--", "--quiet"})->job == "--quiet");
    CHECK(parse_command_line({"check", "job.toml", "--"})->job == "job.toml");
    CHECK(complaint_about({"check", "job.toml", "--", "-x"}).code == "extra-argument");
    CHECK(complaint_about({"check", "-x", "--", "job.toml"}).code == "unknown-option");
    CHECK(complaint_about({"check", "--", "job.toml", "--"}).code == "extra-argument");
}

TEST_CASE("standard input can't be two files at once, and a program is no JSON") {
    CHECK(complaint_about({"prove", "-", "-"}).code == "one-standard-input");
    CHECK(parse_command_line({"prove", "-", "./-"}).ok());
    CHECK(complaint_about({"cut", "job.toml", "--json"}).code == "no-json");
    CHECK(complaint_about({"cut", "job.toml", "--json", "-o", "-"}).code == "no-json");
    CHECK(parse_command_line({"cut", "job.toml", "--json", "--plan"}).ok());
    CHECK(parse_command_line({"cut", "job.toml", "--json", "-o", "job.ngc"}).ok());
}

TEST_CASE("wrong arguments that ask for JSON are known to do so") {
    CHECK(ask_for_json({"check", "--json", "--nonsense"}));
    CHECK(ask_for_json({"table", "--format=json"}));
    CHECK(ask_for_json({"table", "--format", "json", "-x"}));
    CHECK_FALSE(ask_for_json({"table", "--format", "csv"}));
    CHECK_FALSE(ask_for_json({"check", "--", "--json"}));
}

TEST_CASE("help is asked for with or without a command, and before anything else is complained about") {
    CHECK(parse_command_line({})->command == Command::help);
    CHECK(parse_command_line({"--help"})->topic.empty());
    CHECK(parse_command_line({"-h"})->command == Command::help);
    CHECK(parse_command_line({"cut", "-h"})->topic == "cut");
    CHECK(parse_command_line({"help", "cut"})->topic == "cut");
    CHECK(parse_command_line({"help"})->topic.empty());
    CHECK(parse_command_line({"cut", "--nonsense", "--help"})->command == Command::help);
    CHECK(parse_command_line({"help", "--as", "man", "--help"})->topic == "help");
    CHECK(complaint_about({"help", "--as", "mann"}).remedy == "did you mean man?");
    CHECK(complaint_about({"help", "cut", "--as", "man"}).code == "extra-argument");
}

TEST_CASE("the short options say what the long ones do") {
    CHECK(parse_command_line({"-V"})->command == Command::version);
    CHECK(parse_command_line({"--version"})->command == Command::version);
    CHECK(parse_command_line({"check", "job.toml", "-q"})->quiet);
    CHECK(parse_command_line({"check", "job.toml", "-qo", "out"})->output == "out");
}

TEST_CASE("lobes are chosen one after the other, and from one on") {
    const auto options = parse_command_line(
        {"cut", "job.toml", "--lobe", "1 inlet", "--lobe=2 inlet", "--from", "3 inlet", "--plan"});
    REQUIRE(options.ok());
    CHECK(options->lobes == std::vector<std::string>{"1 inlet", "2 inlet"});
    CHECK(options->from == "3 inlet");
    CHECK(parse_command_line({"prove", "job.toml", "--lobe", "1 inlet", "job.ngc"})->program == "job.ngc");
    CHECK(complaint_about({"cut", "job.toml", "--lobe", ""}).code == "empty-argument");
}
