// The program as a process: exit codes, streams, and files that stay as they were.
#include "catch.h"
#include "job_folder.h"
#include "small_job.h"

namespace fs = std::filesystem;

TEST_CASE("exit code 0: all is within limits, and standard error holds remarks alone") {
    const JobFolder folder(small_job());
    for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
             {"check", "job.toml"},
             {"check", "job.toml", "--json"},
             {"table", "job.toml", "--lobe", "1 inlet"},
             {"cut", "job.toml"},
             {"cut", "job.toml", "--plan"},
             {"index", "job.toml"},
             {"inspect", "job.toml", "--lobe", "1 inlet"},
             {"posts"},
             {"posts", "--json"},
             {"posts", "--show", "rs274ngc-xza"},
             {"--version"},
             {"--help"},
         }) {
        std::string line;
        for (const std::string& word : arguments)
            line += word + " ";
        INFO(line);
        const Run loud = folder.run(arguments);
        INFO(loud.err);
        CHECK(loud.exit_code == 0);
        CHECK_FALSE(loud.out.empty());
        if (arguments.front().front() == '-') continue;
        std::vector<std::string> with_quiet = arguments;
        with_quiet.emplace_back("--quiet");
        const Run quiet = folder.run(with_quiet);
        CHECK(quiet.exit_code == 0);
        CHECK(quiet.err.empty());
        CHECK(quiet.out == loud.out);
    }
    CHECK(folder.files() == 1);
}

TEST_CASE("with -o standard output stays empty and the file holds what would have stood there") {
    const JobFolder folder(small_job());
    const Run to_output = folder.run({"cut", "job.toml"});
    const Run to_file = folder.run({"cut", "job.toml", "-o", "out.ngc"});
    CHECK(to_file.exit_code == 0);
    CHECK(to_file.out.empty());
    CHECK(file_text(folder / "out.ngc") == to_output.out);
    CHECK_THAT(to_file.err, ContainsSubstring("Proven from its own text: 2 lobes"));
    CHECK(folder.files() == 2);
}

TEST_CASE("the same job gives the same bytes again, and from standard input") {
    const JobFolder folder(small_job());
    const Run first = folder.run({"cut", "job.toml"});
    CHECK(folder.run({"cut", "job.toml"}).out == first.out);
    const Run piped = folder.shell("cat job.toml | lobewright table - --lobe '1 inlet'");
    CHECK(piped.exit_code == 0);
    CHECK(piped.out == folder.run({"table", "job.toml", "--lobe", "1 inlet"}).out);
}

TEST_CASE("exit code 1: a program that was spoilt after it was proven") {
    const JobFolder folder(small_job());
    REQUIRE(folder.run({"cut", "job.toml", "-o", "good.ngc"}).exit_code == 0);
    CHECK(folder.run({"prove", "job.toml", "good.ngc"}).exit_code == 0);
    const std::string good = file_text(folder / "good.ngc");
    // The lowest X is a touch of the heel: 0.1 mm deeper is a gouge.
    std::string spoilt = good;
    const std::size_t x = spoilt.find("X26.", spoilt.find("G1"));
    REQUIRE(x != std::string::npos);
    spoilt.replace(x, 4, "X25.");
    write_file(folder / "spoilt.ngc", spoilt);
    const Run run = folder.run({"prove", "job.toml", "spoilt.ngc"});
    CHECK(run.exit_code == 1);
    CHECK_FALSE(run.out.empty());
    CHECK_THAT(run.err, ContainsSubstring("spoilt.ngc"));
    const Run json = folder.run({"prove", "job.toml", "spoilt.ngc", "--json"});
    CHECK(json.exit_code == 1);
    CHECK_THAT(json.out, ContainsSubstring("\"within_tolerance\": false"));
}

TEST_CASE("exit code 2: what the job, the command line or a dialect says is wrong") {
    const JobFolder folder(with(small_job(), "nose_radius = 2.0", "nose_radios = 2.0"));
    const Run typo = folder.run({"check", "job.toml"});
    CHECK(typo.exit_code == 2);
    CHECK(typo.out.empty());
    CHECK_THAT(typo.err,
               ContainsSubstring("job.toml:" + std::to_string(line_of(small_job(), "nose_radius")) + ":1: "));
    CHECK_THAT(typo.err, ContainsSubstring("nose_radius"));
    write_file(folder / "job.toml", small_job());
    CHECK(folder.run({"chek", "job.toml"}).exit_code == 2);
    CHECK(folder.run({"table", "job.toml"}).exit_code == 2);
    CHECK(folder.run({"table", "job.toml", "--lobe", "1 inlt"}).exit_code == 2);
    CHECK(folder.run({"index", "job.toml", "--method", "heat"}).exit_code == 2);
    CHECK(folder.run({"posts", "--show", "rs274"}).exit_code == 2);
    CHECK(folder.run({"start", "new.toml", "--for", "lathe"}).exit_code == 2);
    write_file(folder / "mine.toml", "sumary = \"typo\"\n");
    const Run dialect = folder.run({"cut", "job.toml", "--post", "mine.toml", "-o", "out.ngc"});
    CHECK(dialect.exit_code == 2);
    CHECK_THAT(dialect.err, ContainsSubstring("mine.toml:1:1: "));
    write_file(folder / "words.ngc", "G1 X1 Q\n");
    const Run words = folder.run({"prove", "job.toml", "words.ngc"});
    CHECK(words.exit_code == 2);
    CHECK_THAT(words.err, ContainsSubstring("words.ngc:1:"));
    CHECK(folder.files() == 3);
}

TEST_CASE("all complaints of a file come in one run, in the order of their places") {
    std::string job = with(small_job(), "lift = 2.0", "lift = -2.0");
    job = with(job, "turns = \"ccw\"", "turns = \"left\"");
    job = with(job, "surface_feed = 120.0", "surface_fed = 120.0");
    const JobFolder folder(job);
    const Run run = folder.run({"check", "job.toml"});
    CHECK(run.exit_code == 2);
    const std::size_t first = run.err.find("job.toml:" + std::to_string(line_of(job, "turns")) + ":");
    const std::size_t second = run.err.find("job.toml:" + std::to_string(line_of(job, "lift")) + ":");
    const std::size_t third = run.err.find("job.toml:" + std::to_string(line_of(job, "surface_fed")) + ":");
    INFO(run.err);
    REQUIRE(third != std::string::npos);
    CHECK(first < second);
    CHECK(second < third);
}

TEST_CASE("an unknown post-processor is named with the nearest one, at the key or the option that names it") {
    const std::string job = with(small_job(), "rs274ngc-xza", "rs274ngc-xzb");
    const JobFolder folder(job);
    const Run in_job = folder.run({"cut", "job.toml", "-o", "out.ngc"});
    CHECK(in_job.exit_code == 2);
    CHECK_THAT(in_job.err, ContainsSubstring("job.toml:" + std::to_string(line_of(job, "post =")) + ":"));
    CHECK_THAT(in_job.err, ContainsSubstring("did you mean \"rs274ngc-xza\"?"));
    const Run in_option = folder.run({"cut", "job.toml", "--post", "plain-xb", "-o", "out.ngc"});
    CHECK(in_option.exit_code == 2);
    CHECK_THAT(in_option.err, ContainsSubstring("lobewright --post: "));
    CHECK_THAT(in_option.err, ContainsSubstring("did you mean \"plain-xa\"?"));
    CHECK(folder.files() == 1);
}

TEST_CASE("a post-processor by path: from the job's folder in the job, from the current folder in --post") {
    const JobFolder folder(with(small_job(), "\"rs274ngc-xza\"", "\"mine.toml\""));
    write_file(folder / "mine.toml", file_text(source_folder() / "postprocessors" / "rs274ngc-xza.toml"));
    const std::string job = (folder / "job.toml").string();
    CHECK(run_program({"cut", job}, "/").exit_code == 0);
    CHECK(run_program({"cut", job, "--post", "mine.toml"}, "/").exit_code == 3);
    CHECK(folder.run({"cut", "job.toml", "--post", "./mine.toml"}).exit_code == 0);
    CHECK(folder.run({"cut", "job.toml"}).out == folder.run({"cut", "job.toml", "--post", "mine.toml"}).out);
}

TEST_CASE("exit code 3: a file can't be read or written") {
    const JobFolder folder(small_job());
    CHECK(folder.run({"check", "absent.toml"}).exit_code == 3);
    CHECK(folder.run({"check", "."}).exit_code == 3);
    CHECK(folder.run({"prove", "job.toml", "absent.ngc"}).exit_code == 3);
    CHECK(folder.run({"cut", "job.toml", "--post", "absent.toml"}).exit_code == 3);
    CHECK(folder.run({"cut", "job.toml", "-o", "absent/out.ngc"}).exit_code == 3);
    CHECK(folder.run({"cut", "job.toml", "-o", "."}).exit_code == 3);
    const Run full = folder.shell("lobewright cut job.toml >/dev/full");
    CHECK(full.exit_code == 3);
    CHECK_THAT(full.err, ContainsSubstring("standard output: can't be written (the disk is full)"));
    CHECK(folder.shell("lobewright --help >&-").exit_code == 3);
    CHECK(folder.files() == 1);
}

TEST_CASE("a reader that goes away ends a run in silence") {
    const JobFolder folder(small_job());
    const Run run =
        run_command({"bash", "-c",
                     "lobewright table '" + (folder / "job.toml").string() +
                         "' --lobe '1 inlet' --every 0.01 --quiet | head -n 1; echo ${PIPESTATUS[0]}"});
    CHECK_THAT(run.out, ContainsSubstring("cam_angle,"));
    CHECK_THAT(run.out, ContainsSubstring("\n141\n"));
    CHECK(run.err.empty());
}

TEST_CASE("-o never takes the place of a file that the run reads") {
    const JobFolder folder(small_job());
    fs::create_symlink("job.toml", folder / "link.toml");
    for (const char* name : {"job.toml", "./job.toml", "link.toml"}) {
        INFO(name);
        const Run run = folder.run({"cut", "job.toml", "-o", name});
        CHECK(run.exit_code == 2);
        CHECK(file_text(folder / "job.toml") == small_job());
    }
    REQUIRE(folder.run({"cut", "job.toml", "-o", "good.ngc"}).exit_code == 0);
    const std::string good = file_text(folder / "good.ngc");
    CHECK(folder.run({"prove", "job.toml", "good.ngc", "-o", "good.ngc"}).exit_code == 2);
    CHECK(file_text(folder / "good.ngc") == good);
}

TEST_CASE("a refused job leaves an older program as it was") {
    const std::string job = with(small_job(), "nose_radius = 2.0", "nose_radius = 5.9");
    const JobFolder folder(job);
    write_file(folder / "out.ngc", "the older program");
    CHECK(folder.run({"cut", "job.toml", "-o", "out.ngc"}).exit_code == 1);
    CHECK(file_text(folder / "out.ngc") == "the older program");
    CHECK(folder.files() == 2);
}

TEST_CASE("start writes a job that check passes, and never over a file") {
    for (const char* purpose : {"offset-fixture", "dividing-head", "rotary-mill", "lathe-c"}) {
        INFO(purpose);
        const JobFolder folder(small_job());
        const Run run = folder.run({"start", "new.toml", "--for", purpose});
        CHECK(run.exit_code == 0);
        CHECK(run.out.empty());
        const Run check = folder.run({"check", "new.toml"});
        INFO(check.out << check.err);
        CHECK(check.exit_code == 0);
        const std::string made = file_text(folder / "new.toml");
        CHECK(folder.run({"start", "new.toml", "--for", purpose}).exit_code == 2);
        CHECK(folder.run({"start", "--for", purpose, "-o", "new.toml"}).exit_code == 2);
        CHECK(file_text(folder / "new.toml") == made);
        CHECK(folder.run({"start", "-", "--for", purpose}).out == made);
    }
}

TEST_CASE("the user's locale, time zone and terminal change nothing") {
    const JobFolder folder(small_job());
    const std::vector<std::string> commands{"cut job.toml", "check job.toml", "sheet job.toml",
                                            "check job.toml --json"};
    for (const std::string& command : commands) {
        const Run plain = folder.shell("lobewright " + command);
        for (const char* setting :
             {"LC_ALL=de_DE.UTF-8", "LC_ALL=tr_TR.UTF-8", "LC_ALL=fr_FR.UTF-8", "LC_ALL=C",
              "TZ=Pacific/Kiritimati", "TZ=America/St_Johns", "NO_COLOR=1 TERM=dumb COLUMNS=20", "-i"}) {
            INFO(command << " under " << setting);
            const Run run =
                folder.shell("env " + std::string(setting) + " PATH=\"$PATH\" lobewright " + command);
            CHECK(run.out == plain.out);
            CHECK(run.err == plain.err);
        }
    }
}
