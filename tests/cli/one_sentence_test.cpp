// One need, one sentence, one exit code, whichever command meets it; one mistake, one line.
#include "catch.h"
#include "program.h"
#include "small_job.h"

#include <algorithm>

namespace {

Run run_on(const std::string& job, const std::vector<std::string>& arguments) {
    const TemporaryFolder folder;
    write_file(folder.path() / "job.toml", job);
    write_file(folder.path() / "program.ngc", "G21\nM2\n");
    return run_program(arguments, folder.path());
}

std::string number(int value) {
    return std::to_string(value);
}

/// The small job with `count` lobes of one profile, 8 mm apart; `wrong` stands in each of them.
std::string shaft_of_lobes(int count, const std::string& wrong) {
    std::string job = with(small_job(), "length = 60.0\n", "");
    job = job.substr(0, job.find("[[lobe]]")) + job.substr(job.find("[cutter.disc]"));
    for (int i = 0; i < count; ++i) {
        job += "[[lobe]]\nname = \"" + number(i + 1) +
               "\"\nprofile = \"inlet\"\nfollower = \"tappet\"\nat = " + number(5 * i) +
               ".0\nz = " + number(20 + 16 * i) + ".0\n" + wrong + '\n';
    }
    return job;
}

std::ptrdiff_t lines_of(const std::string& text) {
    return std::count(text.begin(), text.end(), '\n');
}

}  // namespace

TEST_CASE("a blank that isn't given is one sentence and exit code 2 in cut, prove and index") {
    const std::string fixture = "[hand.lathe]\nmethod = \"offset-fixture\"\noffset = 10.0\ndivisions = 72\n";
    const std::string job = with(small_job(), "blank_diameter = 17.0\n", "") + fixture;
    const std::string wanted =
        "job.toml:6:2: [shaft] has no 'blank_diameter': add it: the diameter of the "
        "stock over the lobes before cutting\n";
    for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
             {"cut", "job.toml"},
             {"cut", "job.toml", "--plan"},
             {"prove", "job.toml", "program.ngc"},
             {"index", "job.toml", "--method", "lathe"},
         }) {
        INFO(arguments.front());
        const Run run = run_on(job, arguments);
        CHECK(run.exit_code == 2);
        CHECK(run.err == wanted);
        CHECK(run.out.empty());
    }
    CHECK(run_on(job, {"index", "job.toml", "--method", "head"}).exit_code == 0);
}

TEST_CASE("a job without a machine is told so alike by cut and prove, and index still serves it") {
    const std::string whole = small_job();
    const std::string job =
        whole.substr(0, whole.find("[machine]")) + whole.substr(whole.find("[hand.head]"));
    const Run cut = run_on(job, {"cut", "job.toml"});
    const Run prove = run_on(job, {"prove", "job.toml", "program.ngc"});
    CHECK(cut.exit_code == 2);
    CHECK(prove.exit_code == 2);
    CHECK_THAT(cut.err,
               ContainsSubstring("the job has no [machine]") && ContainsSubstring("the job has no [cut]"));
    CHECK(cut.err == prove.err);
    CHECK(run_on(job, {"index", "job.toml"}).exit_code == 0);
}

TEST_CASE("one mistake in a shaft of sixty-four lobes is one line") {
    const Run missing = run_on(shaft_of_lobes(64, ""), {"check", "job.toml"});
    CHECK(missing.exit_code == 2);
    CHECK_THAT(missing.err, ContainsSubstring("'lobe[0]' has no 'width': add it (and 63 more like it, to "));
    CHECK(lines_of(missing.err) == 1);

    const Run too_wide = run_on(shaft_of_lobes(64, "width = 60.0"), {"cut", "job.toml"});
    CHECK(too_wide.exit_code == 1);
    CHECK_THAT(too_wide.err,
               ContainsSubstring("overlaps lobe '1'") && ContainsSubstring("(and 62 more like it, to "));
    CHECK(lines_of(too_wide.err) == 1);

    std::string short_shaft = shaft_of_lobes(64, "width = 5.0");
    short_shaft = with(short_shaft, "blank_diameter = 17.0\n", "blank_diameter = 17.0\nlength = 6.0\n");
    CHECK(lines_of(run_on(short_shaft, {"cut", "job.toml"}).err) == 1);

    const std::string wide_disc = with(shaft_of_lobes(64, "width = 5.0"), "width = 6.0", "width = 40.0");
    const Run in_the_way = run_on(wide_disc, {"cut", "job.toml"});
    CHECK(in_the_way.exit_code == 1);
    CHECK_THAT(in_the_way.err, ContainsSubstring("(and 63 more like it)"));
    CHECK(lines_of(in_the_way.err) == 1);
}

TEST_CASE("two mistakes of one kind are two lines where they are not alike") {
    std::string job = with(small_job(), "at = 110.0\nz = 40.0", "at = 110.0\nzz = 40.0");
    job = with(job, "at = 0.0\nz = 20.0", "att = 0.0\nz = 20.0");
    const Run run = run_on(job, {"check", "job.toml"});
    CHECK_THAT(run.err, ContainsSubstring("'lobe[0].att'") && ContainsSubstring("'lobe[1].zz'"));
    CHECK_THAT(run.err, !ContainsSubstring("more like it"));
}
