// One process, one job after the other: what each takes it gives back.
#include "catch.h"
#include "every_command.h"
#include "program.h"
#include "random_job_text.h"
#include "trials.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <unistd.h>

namespace {

/// LOBEWRIGHT_RANDOM_JOBS asks for another number.
int wanted_jobs() {
    return std::max(4, campaign("LOBEWRIGHT_RANDOM_JOBS", trials(40)));
}

/// Memory of the process that is in use, in bytes, by the system's own account.
long resident() {
    long pages = 0;
    std::ifstream account("/proc/self/statm");
    account >> pages >> pages;
    return pages * sysconf(_SC_PAGESIZE);
}

std::ptrdiff_t open_files() {
    return std::distance(std::filesystem::directory_iterator("/proc/self/fd"), {});
}

/// Checks, cuts and proves a job, and judges the exit codes; what came out of it is thrown away. Whether it
/// was cut. A bug of ours is an exception here, which ends the test.
bool work_through(const std::filesystem::path& folder, const std::string& text) {
    const std::string job = folder / "job.toml", program = folder / "job.ngc";
    write_file(job, text);
    const int checked = run_in_process({"check", job}).exit_code();
    const CommandRun cut = run_in_process({"cut", job});
    INFO("check " << checked << ", cut " << cut.exit_code() << '\n' << cut.said());
    // All that a fair job may lack is its bar. A lobe that can't be, or can't be cut so, is none of its
    // words' fault.
    const bool whole = text.find("blank_diameter") != std::string::npos;
    REQUIRE(checked >= 0);
    REQUIRE(checked <= (whole ? 1 : 2));
    REQUIRE(cut.exit_code() == (cut.result.text ? 0 : whole ? 1 : 2));
    if (checked == 0) REQUIRE(cut.exit_code() == 0);
    if (!cut.result.text) return false;
    write_file(program, *cut.result.text);
    const CommandRun proof = run_in_process({"prove", job, program});
    INFO(proof.said());
    REQUIRE(proof.exit_code() == 0);
    return true;
}

}  // namespace

TEST_CASE(
    "a process that works through many jobs ends each as documented, and keeps neither memory nor files") {
    if (!std::filesystem::exists("/proc/self/statm") || !at_full_speed)
        return;  // sanitizers keep what was freed
    const TemporaryFolder folder;
    const auto jobs = static_cast<unsigned>(wanted_jobs());
    long first_half = 0, second_half = 0;
    const std::ptrdiff_t files = open_files();
    unsigned cut = 0;
    for (unsigned seed = 1; seed <= jobs; ++seed) {
        INFO("seed " << seed);
        if (work_through(folder.path(), RandomJobText(seed).fair())) ++cut;
        long& half = seed <= jobs / 2 ? first_half : second_half;
        half = std::max(half, resident());
        REQUIRE(open_files() == files);
    }
    CHECK(cut >= jobs / 3);
    INFO(jobs << " jobs: " << first_half / 1024 << " kB, then " << second_half / 1024 << " kB");
    CHECK(static_cast<double>(second_half) <
          1.05 * static_cast<double>(first_half) + 4e6);  // and what one larger job needs
    if (std::getenv("LOBEWRIGHT_RANDOM_JOBS") != nullptr)
        WARN(jobs << " jobs, " << cut << " of them cut and proven: " << first_half / 1024 << " kB, then "
                  << second_half / 1024 << " kB");
}
