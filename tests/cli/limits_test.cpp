// The limits that README tells: what lies within them is done, what lies beyond is refused in a word.
#include "catch.h"
#include "job_folder.h"
#include "small_job.h"

#include <regex>

namespace {

/// The small job with so many lobes, 0.5 mm wide, on a shaft of their own length.
std::string job_of_lobes(int count) {
    const std::string job = small_job();
    std::string lobes;
    for (int i = 0; i < count; ++i) {
        lobes +=
            "[[lobe]]\nname = \"L" + std::to_string(i) +
            "\"\nprofile = \"inlet\"\nfollower = \"tappet\"\nat = 0\nz = " + std::to_string(20 + 15 * i) +
            "\nwidth = 5.0\n\n";
    }
    const std::size_t begin = job.find("[[lobe]]"), end = job.find("[cutter.disc]");
    return with(job.substr(0, begin) + lobes + job.substr(end), "length = 60.0",
                "length = " + std::to_string(40 + 15 * count));
}

std::string times(int count, const std::string& text) {
    std::string all;
    for (int i = 0; i < count; ++i)
        all += std::regex_replace(text, std::regex("#"), std::to_string(i));
    return all;
}

void check_refused(const std::string& job, const std::string& what) {
    const JobFolder folder(job);
    const Run run = folder.run({"check", "job.toml"});
    CHECK(run.exit_code == 2);
    CHECK_THAT(run.err, ContainsSubstring(what + " are the most: part the job in several"));
}

}  // namespace

TEST_CASE("two hundred lobes are cut, and one more is refused") {
    const JobFolder folder(job_of_lobes(200));
    const Run cut = folder.run({"cut", "job.toml"});
    CHECK(cut.exit_code == 0);
    CHECK_THAT(cut.err, ContainsSubstring("Proven from its own text: 200 lobes"));
    check_refused(job_of_lobes(201), "the job has 201 of 'lobe', and 200");
}

TEST_CASE("fifty of anything that has a name are taken, and one more is refused") {
    const std::string cutter =
        "[cutter.more#]\nkind = \"disc\"\ndiameter = 40.0\nwidth = 6.0\nneck_diameter = 12.0\n";
    const std::string head =
        "[hand.more#]\nmethod = \"dividing-head\"\nratio = 40\nplates = [[15]]\ncusp = 0.01\n";
    const JobFolder folder(small_job() + times(49, head));
    CHECK(folder.run({"check", "job.toml"}).exit_code == 0);
    check_refused(small_job() + times(50, head), "the job has 51 of 'hand', and 50");
    check_refused(small_job() + times(50, cutter), "the job has 51 of 'cutter', and 50");
    check_refused(small_job() + times(50, "[follower.more#]\nkind = \"flat\"\nface_diameter = 14.0\n"),
                  "the job has 51 of 'follower', and 50");
    check_refused(small_job() + times(50,
                                      "[profile.more#]\nshape = \"arcs\"\nbase_radius = 6.0\nlift = 2.0\n"
                                      "action_angle = 120.0\nnose_radius = 2.0\n"),
                  "the job has 51 of 'profile', and 50");
}

TEST_CASE("twenty operations are the most") {
    const std::string job = small_job();
    const std::size_t cut = job.find("[cut]"), hand = job.find("[hand.head]");
    const std::string operation =
        "[[operation]]\nname = \"o#\"\ncutter = \"disc\"\ntolerance = 0.01\n"
        "finish_depth = 5.0\nsurface_feed = 120.0\nspindle_speed = 1500\n\n";
    check_refused(job.substr(0, cut) + times(21, operation) + job.substr(hand),
                  "the job has 21 of 'operation', and 20");
}

TEST_CASE("a cutter that would pass a lobe more than a thousand times is refused, however thin it is") {
    for (const char* width : {"0.001", "0.002", "0.003", "0.005"}) {
        INFO(width);
        const JobFolder folder(with(small_job(), "width = 6.0", "width = " + std::string(width)));
        const Run run = folder.run({"cut", "job.toml"});
        CHECK(run.exit_code == 1);
        CHECK_THAT(run.err, ContainsSubstring("wide, which take too long: use a wider cutter"));
    }
}

TEST_CASE("ten thousand passes in all are the most") {
    // 200 lobes, each with one finishing pass and 50 spring passes.
    const std::string job =
        with(job_of_lobes(200), "spindle_speed = 1500", "spindle_speed = 1500\nspring_passes = 50");
    const JobFolder folder(job);
    const Run run = folder.run({"cut", "job.toml"});
    CHECK(run.exit_code == 1);
    CHECK_THAT(run.err,
               ContainsSubstring(": the lobes take more than 10000 passes in all: use a wider cutter, a "
                                 "larger rough_depth or fewer spring_passes, or part the job in several"));
}

TEST_CASE("a lift table has at most a row for each thousandth of a degree") {
    const JobFolder folder(small_job());
    CHECK(
        folder.run({"table", "job.toml", "--lobe", "1 inlet", "--every", "0.001", "-qo", "out"}).exit_code ==
        0);
    CHECK(folder.run({"table", "job.toml", "--lobe", "1 inlet", "--every", "0.0009"}).exit_code == 2);
}

TEST_CASE("a job of 4 MiB is read, and no more; likewise a program of 256 MiB") {
    const JobFolder folder(small_job());
    const std::size_t most = std::size_t{4} << 20;
    const auto padded = [](std::size_t size) {
        const std::string job = small_job();
        return job + '#' + std::string(size - job.size() - 2, '-') + '\n';
    };
    write_file(folder / "large.toml", padded(most));
    CHECK(folder.run({"check", "large.toml"}).exit_code == 0);
    write_file(folder / "large.toml", padded(most + 1));
    const Run job = folder.run({"check", "large.toml"});
    CHECK(job.exit_code == 3);
    CHECK_THAT(job.err, ContainsSubstring("large.toml: can't be read (it is larger than 4 MiB)"));
    const Run program = folder.shell("truncate -s 257M large.ngc && lobewright prove job.toml large.ngc");
    CHECK(program.exit_code != 0);
    CHECK(program.exit_code <= 3);
}
