#include "catch.h"
#include "program.h"

#include <algorithm>
#include <chrono>
#include <iostream>

// The aim: from the job file to the proven program, start of the process and all, well under 0.1 s on one
// core.
TEST_CASE("cut on the Basalt four at 0.002 mm", "[main-job]") {
    const TemporaryFolder folder;
    const std::string job = (source_folder() / "examples" / "basalt-four.toml").string();
    const std::string program = (folder.path() / "basalt-four.ngc").string();
    REQUIRE_THAT(file_text(job), ContainsSubstring("tolerance = 0.002"));

    std::vector<double> seconds;
    for (int i = 0; i < 21; ++i) {
        const auto start = std::chrono::steady_clock::now();
        const Run run = run_program({"cut", job, "--quiet", "-o", program});
        seconds.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
        REQUIRE(run.exit_code == 0);
    }
    std::nth_element(seconds.begin(), seconds.begin() + 10, seconds.end());
    const double median = seconds[10];
    std::cout << "cut basalt-four.toml: median of 21 runs " << median << " s, " << file_text(program).size()
              << " bytes\n";
    CHECK(median < 0.1);

    BENCHMARK("lobewright cut basalt-four.toml -o ...") {
        return run_program({"cut", job, "--quiet", "-o", program}).exit_code;
    };
}
