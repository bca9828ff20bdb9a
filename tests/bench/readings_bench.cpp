#include "basalt.h"

#include <lobewright/inspect_fit.h>

#include <algorithm>

using namespace lobewright;

// The aim: 100,000 readings are read in about a second.
TEST_CASE("reading and judging 100,000 readings", "[readings]") {
    const Job job = basalt::job(basalt::lopsided(), basalt::endless_flat());
    const std::vector<SolvedLobe> lobes{basalt::solved(job)};
    std::string text = "shaft_angle;reading\n";
    for (int i = 0; i < 100000; ++i) {
        const double angle = 0.0036 * i;
        std::string line = std::to_string(angle) + ";" +
                           std::to_string(lobes[0].motion.at(CamAngle::from_degrees(-angle)).lift) + "\n";
        std::replace(line.begin(), line.end(), '.', ',');
        text += line;
    }
    const ReadingsSubject subject{job, lobes, std::size_t{0}, std::nullopt};
    BENCHMARK("read") {
        return read_measured(text, "readings.csv", {}, subject).ok();
    };
    const auto measured = read_measured(text, "readings.csv", {}, subject);
    REQUIRE(measured.ok());
    BENCHMARK("judge") {
        return inspect_lobe(job, lobes, measured->front(), {}).ok();
    };
}
