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

/// Checks, cuts and proves a job; what came out of it is thrown away.
void work_through(const std::filesystem::path& folder, unsigned seed) {
    const std::string job = folder / "job.toml", program = folder / "job.ngc";
    write_file(job, RandomJobText(seed).fair());
    run_in_process({"check", job});
    const std::string text = run_in_process({"cut", job}).result.text.value_or("");
    if (text.empty()) return;
    write_file(program, text);
    run_in_process({"prove", job, program});
}

}  // namespace

TEST_CASE("a process that works through many jobs holds no more memory and no more files for it") {
    if (!std::filesystem::exists("/proc/self/statm") || !at_full_speed)
        return;  // sanitizers keep what was freed
    const TemporaryFolder folder;
    const auto jobs = static_cast<unsigned>(wanted_jobs());
    long first_half = 0, second_half = 0;
    const std::ptrdiff_t files = open_files();
    for (unsigned seed = 1; seed <= jobs; ++seed) {
        INFO("seed " << seed);
        work_through(folder.path(), seed);
        long& half = seed <= jobs / 2 ? first_half : second_half;
        half = std::max(half, resident());
        REQUIRE(open_files() == files);
    }
    INFO(jobs << " jobs: " << first_half / 1024 << " kB, then " << second_half / 1024 << " kB");
    CHECK(static_cast<double>(second_half) <
          1.05 * static_cast<double>(first_half) + 4e6);  // and what one larger job needs
    if (std::getenv("LOBEWRIGHT_RANDOM_JOBS") != nullptr)
        WARN(jobs << " jobs: " << first_half / 1024 << " kB, then " << second_half / 1024 << " kB");
}
