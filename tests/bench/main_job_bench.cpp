#include "catch.h"
#include "program.h"
#include "stopwatch.h"

#include <iostream>

namespace {

std::string basalt_four() {
    return file_text(source_folder() / "examples" / "basalt-four.toml");
}

}  // namespace

// The aim: from the job file to the proven program, start of the process and all, well under 0.1 s on one
// core.
TEST_CASE("cut on the Basalt four at 0.002 mm", "[main-job]") {
    const TemporaryFolder folder;
    const std::string job = (source_folder() / "examples" / "basalt-four.toml").string();
    const std::string program = (folder.path() / "basalt-four.ngc").string();
    REQUIRE_THAT(basalt_four(), ContainsSubstring("tolerance = 0.002"));
    const Spent spent = median_spent(21, [&] {
        REQUIRE(run_program({"cut", job, "-q", "-o", program}).exit_code == 0);
    });
    std::cout << "cut basalt-four.toml: median of 21 runs " << spent << ", " << file_text(program).size()
              << " bytes\n";
    CHECK(spent.processor < 0.1);

    BENCHMARK("lobewright cut basalt-four.toml -o ...") {
        return run_program({"cut", job, "-q", "-o", program}).exit_code;
    };
}

// Beside the script that someone who knows numpy and shapely writes, both from the start of the process to
// the program's last line.
TEST_CASE("cut of eight lobes at 0.001 mm beside a plain script", "[main-job][plain-script]") {
    const std::string python = "/usr/bin/python3";  // Debian's, which the packages are for
    if (run_command({python, "-c", "import numpy, shapely"}).exit_code != 0) {
        WARN("SKIPPED: numpy and shapely are not installed (Debian packages python3-numpy, python3-shapely)");
        return;
    }
    const TemporaryFolder folder;
    std::string job = basalt_four();
    const std::string given = "tolerance = 0.002";
    job.replace(job.find(given), given.size(), "tolerance = 0.001");
    write_file(folder.path() / "job.toml", job);
    const std::string script = (source_folder() / "tests" / "bench" / "plain_script.py").string();
    const auto spent = [&](const std::vector<std::string>& command) {
        return median_spent(7, [&] { REQUIRE(run_command(command, folder.path()).exit_code == 0); });
    };
    const Spent ours = spent({built_program().string(), "cut", "job.toml", "-q", "--force", "-o", "job.ngc"});
    const Spent theirs = spent({python, script, "0.001"});
    const Spent checked = spent({python, script, "0.001", "--check"});
    std::cout << "cut of eight lobes at 0.001 mm, proven: " << ours
              << "\n  plain script:              " << theirs << ", " << theirs.wall / ours.wall
              << " times, by the processor " << theirs.processor / ours.processor
              << " times\n  plain script that checks:  " << checked << ", " << checked.wall / ours.wall
              << " times, by the processor " << checked.processor / ours.processor << " times\n";
}
