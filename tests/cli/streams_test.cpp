// Files that are none: pipes, devices, links that lead nowhere, and files that are too large.
#include "catch.h"
#include "job_folder.h"
#include "small_job.h"

#include <sys/stat.h>

namespace fs = std::filesystem;

TEST_CASE("a stream without an end is given up after 4 MiB") {
    const JobFolder folder(small_job());
    for (const char* line : {"lobewright check /dev/zero", "lobewright check - </dev/zero",
                             "lobewright cut job.toml --post ./zero.toml"}) {
        INFO(line);
        fs::remove(folder / "zero.toml");
        fs::create_symlink("/dev/zero", folder / "zero.toml");
        const Run run = folder.shell(line);
        CHECK(run.exit_code == 3);
        CHECK_THAT(run.err, ContainsSubstring("can't be read (it is larger than 4 MiB)"));
    }
}

TEST_CASE("a pipe that nobody writes to is refused where no terminal is") {
    const JobFolder folder(small_job());
    REQUIRE(mkfifo((folder / "pipe").c_str(), 0600) == 0);
    const Run run = folder.run({"check", "pipe"});
    CHECK(run.exit_code == 3);
    CHECK(run.err == "pipe: can't be read (nobody writes to this pipe): start what writes to it first\n");
}

TEST_CASE("a pipe is read to its end, however late its writer begins") {
    const JobFolder folder(small_job());
    REQUIRE(mkfifo((folder / "pipe").c_str(), 0600) == 0);
    const std::string table = folder.run({"table", "job.toml", "--lobe", "1 inlet"}).out;
    CHECK(folder.shell("cat job.toml >pipe & lobewright table pipe --lobe '1 inlet'").out == table);
    CHECK(folder.shell("{ sleep 1.2; cat job.toml; } >pipe & lobewright table pipe --lobe '1 inlet'").out ==
          table);
    CHECK(folder.shell("cat job.toml | lobewright table /dev/stdin --lobe '1 inlet'").out == table);
}

TEST_CASE("at a terminal a pipe is waited for, and that is said") {
    if (!is_installed("script") || !is_installed("timeout")) return;
    const JobFolder folder(small_job());
    REQUIRE(mkfifo((folder / "pipe").c_str(), 0600) == 0);
    const Run run = folder.shell(
        "timeout 60 script -qefc 'lobewright table pipe --lobe \"1 inlet\" -o out' said </dev/null "
        ">/dev/null & "
        "until grep -q waiting said 2>/dev/null; do sleep 0.1; done; cat job.toml >pipe; wait $!");
    CHECK(run.exit_code == 0);
    CHECK_THAT(file_text(folder / "said"),
               ContainsSubstring("pipe: nobody writes to this pipe yet: waiting (Ctrl-C gives up)"));
    CHECK(file_text(folder / "out") == folder.run({"table", "job.toml", "--lobe", "1 inlet"}).out);
}

TEST_CASE("at a terminal nothing is coloured, whatever its name and NO_COLOR say") {
    if (!is_installed("script") || !is_installed("timeout")) return;
    const JobFolder folder(small_job());
    for (const char* settings : {"TERM=xterm-256color", "TERM=dumb", "TERM=xterm NO_COLOR=1"}) {
        const std::string command = std::string("env ") + settings +
                                    " lobewright check job.toml; lobewright --help; lobewright nonsense";
        CHECK(folder.shell("timeout 60 script -qec '" + command + "' said </dev/null >/dev/null").exit_code ==
              2);
        const std::string said = file_text(folder / "said");
        CHECK_THAT(said, ContainsSubstring("how it can be cut"));
        CHECK_THAT(said, ContainsSubstring("nonsense"));
        CHECK(said.find('\x1b') == std::string::npos);
    }
}

TEST_CASE("who waits at a terminal is told so after a second, and the line is gone at the end") {
    if (!is_installed("script") || !is_installed("timeout")) return;
    const JobFolder folder(small_job());
    REQUIRE(mkfifo((folder / "pipe").c_str(), 0600) == 0);
    const std::string late =
        "{ sleep 2.5; cat job.toml; } >pipe & timeout 60 script -qefc 'lobewright table "
        "pipe --lobe \"1 inlet\" -o out ";
    CHECK(folder.shell(late + "' said </dev/null >/dev/null").exit_code == 0);
    const std::string said = file_text(folder / "said");
    const std::size_t last = said.rfind("\rlobewright: at work, 2 s (Ctrl-C gives up)");
    REQUIRE(last != std::string::npos);
    CHECK(said.find("\r" + std::string(42, ' ') + "\r", last) != std::string::npos);
    CHECK(folder.shell(late + "--quiet' quiet </dev/null >/dev/null").exit_code == 0);
    CHECK_THAT(file_text(folder / "quiet"), !ContainsSubstring("at work"));
    CHECK_THAT(folder.shell("{ sleep 1.5; cat job.toml; } >pipe & lobewright check pipe").err,
               !ContainsSubstring("at work"));
}

TEST_CASE("where files may not grow, writing fails with the reason, and the old file stays") {
    const JobFolder folder(small_job());
    write_file(folder / "out", "the old file");
    const Run to_file =
        folder.shell("ulimit -f 8; lobewright table job.toml --lobe '1 inlet' --every 0.1 -o out");
    CHECK(to_file.exit_code == 3);
    CHECK_THAT(to_file.err,
               ContainsSubstring("out: can't be written (it would be larger than files may be here)"));
    CHECK(file_text(folder / "out") == "the old file");
    CHECK(folder.files() == 2);
    const Run to_output =
        folder.shell("ulimit -f 8; lobewright table job.toml --lobe '1 inlet' --every 0.1 >large");
    CHECK(to_output.exit_code == 3);
    CHECK_THAT(to_output.err, ContainsSubstring("standard output: can't be written (it would be larger"));
}

TEST_CASE("links that lead round in a circle, and names that can't be, are exit code 3 with the reason") {
    const JobFolder folder(small_job());
    fs::create_symlink("b", folder / "a");
    fs::create_symlink("a", folder / "b");
    const Run written = folder.run({"check", "job.toml", "-o", "a"});
    CHECK(written.exit_code == 3);
    CHECK_THAT(written.err, ContainsSubstring("a: can't be written (its links lead round in a circle)"));
    CHECK(fs::is_symlink(folder / "a"));
    CHECK(fs::is_symlink(folder / "b"));
    const Run read = folder.run({"check", "a"});
    CHECK(read.exit_code == 3);
    CHECK_THAT(read.err, ContainsSubstring("a: can't be read (its links lead round in a circle)"));
    CHECK(folder.run({"check", "job.toml", "-o", "job.toml/x"}).exit_code == 3);
    CHECK(folder.run({"check", "job.toml", "-o", std::string(300, 'x')}).exit_code == 3);
    CHECK(folder.files() == 3);
}

TEST_CASE("cut writes over a program of ours, and over nothing else unless it is told to") {
    const JobFolder folder(small_job());
    const std::string program = folder.run({"cut", "job.toml"}).out;
    write_file(folder / "out", "");
    CHECK(folder.run({"cut", "job.toml", "-o", "out"}).exit_code == 0);
    CHECK(folder.run({"cut", "job.toml", "-o", "out", "--post", "iso6983-xzc"}).exit_code == 0);
    CHECK(folder.run({"cut", "job.toml", "-o", "out"}).exit_code == 0);
    CHECK(file_text(folder / "out") == program);
    write_file(folder / "out", "dear diary");
    const Run refused = folder.run({"cut", "job.toml", "-o", "out"});
    CHECK(refused.exit_code == 2);
    CHECK_THAT(refused.err,
               ContainsSubstring("out: the file there is no program of ours: give another name, or "
                                 "--force to write over it"));
    CHECK(file_text(folder / "out") == "dear diary");
    CHECK(folder.run({"cut", "job.toml", "--plan", "-o", "out"}).exit_code == 0);
    write_file(folder / "out", "dear diary");
    CHECK(folder.run({"cut", "job.toml", "-o", "out", "--force"}).exit_code == 0);
    CHECK(file_text(folder / "out") == program);
    CHECK(folder.run({"cut", "job.toml", "-o", "/dev/null"}).exit_code == 0);
}

TEST_CASE("a program without comments is known by its words") {
    const JobFolder folder(small_job());
    const std::vector<std::string> cut{"cut", "job.toml", "--post", "plain-xa", "-o", "out"};
    REQUIRE(folder.run(cut).exit_code == 0);
    REQUIRE_FALSE(file_text(folder / "out").empty());
    CHECK(folder.run(cut).exit_code == 0);
    write_file(folder / "out", "dear diary");
    CHECK(folder.run(cut).exit_code == 2);
}

TEST_CASE("standard input has one name wherever it is complained about") {
    const JobFolder folder(small_job());
    CHECK_THAT(folder.shell("echo layout=2 | lobewright check -").err,
               ContainsSubstring("standard input:1:8: "));
    CHECK_THAT(folder.shell("echo G1 Q | lobewright prove job.toml -").err,
               ContainsSubstring("standard input:1:"));
    CHECK_THAT(folder.shell("lobewright check - <&-").err,
               ContainsSubstring("standard input: can't be read ("));
    CHECK_THAT(folder.shell("lobewright prove job.toml - <.").err,
               ContainsSubstring("standard input: can't be read (it is a folder)"));
    const Run both = folder.shell("cat job.toml | lobewright prove - -");
    CHECK(both.exit_code == 2);
    CHECK_THAT(both.err, ContainsSubstring("job and program can't both come from standard input"));
}

TEST_CASE("complaints come as JSON where JSON is asked for, with the usual exit code") {
    const JobFolder folder(with(small_job(), "nose_radius = 2.0", "nose_radius = 2,0"));
    for (const char* line :
         {"lobewright check job.toml --json", "lobewright cut job.toml --plan --json",
          "lobewright cut job.toml --json -o out", "lobewright index job.toml --format json",
          "lobewright prove job.toml job.toml --json -o out", "lobewright table job.toml --format=json"}) {
        INFO(line);
        const Run run = folder.shell(line);
        CHECK(run.exit_code == 2);
        CHECK_THAT(run.err,
                   ContainsSubstring(
                       "job.toml:16:16: a decimal comma stands in this number: write 2.0, with a point"));
        CHECK(run.out ==
              "{\n  \"complaints\": [\n    {\"severity\": \"error\", \"code\": \"decimal-comma\", \"file\": "
              "\"job.toml\", "
              "\"line\": 16, \"column\": 16, \"message\": \"a decimal comma stands in this number\", "
              "\"remedy\": "
              "\"write 2.0, with "
              "a point\"}\n  ]\n}\n");
    }
    CHECK(folder.run({"check", "job.toml"}).out.empty());
    CHECK(folder.files() == 1);
    const Run arguments = folder.run({"check", "--json", "--nonsense"});
    CHECK(arguments.exit_code == 2);
    CHECK_THAT(arguments.out,
               ContainsSubstring("\"code\": \"unknown-option\", \"file\": \"lobewright\", \"line\": null"));
    const Run absent = folder.run({"check", "absent.toml", "--json"});
    CHECK(absent.exit_code == 3);
    CHECK_THAT(absent.out, ContainsSubstring("\"code\": \"not-read\", \"file\": \"absent.toml\""));
}

TEST_CASE("a report that tells what is wrong is the only JSON there is") {
    const JobFolder folder(with(small_job(), "tolerance = 0.002", "tolerance = 0.00001"));
    const Run run = folder.run({"check", "job.toml", "--json"});
    CHECK(run.exit_code == 1);
    CHECK_THAT(run.out, !ContainsSubstring("\"complaints\""));
    CHECK_THAT(run.out, ContainsSubstring("\"findings\""));
}

TEST_CASE("a tolerance that is too fine is refused with its own figure") {
    struct Case {
        const char* typed;
        int exit_code;
        const char* told;
    };
    for (const Case& each : {Case{"0.00001", 1, "a tolerance of 0.00001 mm is too fine"},
                             Case{"0.000015", 1, "a tolerance of 0.000015 mm is too fine"},
                             Case{"1e-9", 2, "'cut.tolerance' is 0.000000001: "},
                             Case{"1.5e-12", 2, "'cut.tolerance' is 1.5e-12: "}}) {
        const JobFolder folder(
            with(small_job(), "tolerance = 0.002", std::string("tolerance = ") + each.typed));
        const Run run = folder.run({"cut", "job.toml"});
        CHECK(run.exit_code == each.exit_code);
        CHECK_THAT(run.err, ContainsSubstring(each.told));
    }
}

TEST_CASE("control characters from names and files never get to the terminal") {
    const JobFolder folder(with(small_job(), "name = \"1 inlet\"", "name = \"1\\u001b[31m inlet\\u009b\""));
    write_file(folder / "esc\x1b[31m.toml", "x");
    write_file(folder / "out.ngc", "(\x1b[31m)\r(G0 X0)\n");
    for (const char* line :
         {"lobewright check job.toml", "lobewright check job.toml --json",
          "lobewright check \"$(printf 'esc\\033[31m.toml')\"", "lobewright check \"$(printf '\\033c')\"",
          "lobewright \"$(printf '\\033c')\"", "lobewright check --\"$(printf '\\033c')\" --json",
          "lobewright table job.toml --format \"$(printf '\\033c')\" --json",
          "lobewright posts --show \"$(printf '\\033c')\""}) {
        INFO(line);
        const Run run = folder.shell(line);
        CHECK(run.exit_code >= 2);
        for (const char c : run.out + run.err)
            CHECK((c == '\n' || (static_cast<unsigned char>(c) >= 0x20u && c != '\x7f')));
        CHECK((run.out + run.err).find("\xC2\x9B") == std::string::npos);
    }
    CHECK_THAT(folder.run({"check", "job.toml"}).err, ContainsSubstring("\\u001B[31m inlet\\u009B"));
}
