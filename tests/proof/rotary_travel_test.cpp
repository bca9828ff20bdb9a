// A rotary axis of limited travel: what goes beyond it is found, and a shaft that winds back in the metal.

#include "basalt.h"
#include "catch.h"
#include "proof_case.h"

#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

using namespace lobewright;

namespace {

Job short_axis_job() {
    Job job = basalt::four();
    job.cut->rough_depth = 0.5;
    AxisLimits& limits = job.machine->limits;
    limits.radial_speed = 2000.0, limits.axial_speed = 2000.0, limits.rotary_speed = 7200.0;
    limits.rotary_travel = 800.0;
    return job;
}

const ProofCase& winding_case() {
    static const ProofCase made = proof_case(short_axis_job());
    return made;
}

constexpr const char* winds_back = "(the shaft winds back, the cutter clear of it)\n";

}  // namespace

TEST_CASE("a program that winds back in time passes its proof, and its time is that of the plan") {
    const ProofReport report = winding_case().prove();
    INFO(findings_text(report));
    CHECK_FALSE(fails(report));
    CHECK_THAT(winding_case().text, ContainsSubstring(winds_back) &&
                                        ContainsSubstring("times on its way, the cutter clear of it"));
    CHECK(std::abs(report.cycle_seconds / winding_case().path.cycle_seconds - 1.0) < 0.02);
}

TEST_CASE("a rotary word beyond the axis's travel is an error at its line") {
    ProofCase made = winding_case();
    Job free = made.job;
    free.machine->limits.rotary_travel.reset();
    made.text = proof_case(free).text;
    const ProofReport report = made.prove();
    const Diagnostic* found = finding_of(report, "beyond-travel");
    REQUIRE(found != nullptr);
    CHECK(found->severity == Severity::error);
    CHECK_THAT(found->what, ContainsSubstring("its axis turns 800 either side of zero"));
    CHECK(finding_of(winding_case().prove(), "beyond-travel") == nullptr);
}

TEST_CASE("a folded axis of limited travel is judged by how far it turns in all") {
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.rotary_range = RotaryRange::folded;
    dialect.longest_rotary_block = 170.0;
    ProofCase made = proof_case(short_axis_job(), dialect);
    CHECK_FALSE(fails(made.prove()));
    CHECK_THAT(made.text, ContainsSubstring("begin with the axis in the middle of its travel of 800"));
    made.job.machine->limits.rotary_travel = 500.0;
    const ProofReport report = made.prove();
    const Diagnostic* found = finding_of(report, "beyond-travel");
    REQUIRE(found != nullptr);
    CHECK_THAT(found->what, ContainsSubstring("its travel is 1000 in all"));
}

namespace {

double radial_word(const std::string& line) {
    const std::size_t at = line.find('X');
    return at == std::string::npos || line.front() == '(' ? 1e9 : std::strtod(line.c_str() + at + 1, nullptr);
}

}  // namespace

TEST_CASE("a shaft that winds back while the cutter stands in the metal is caught") {
    const std::string& text = winding_case().text;
    int spoiled = 0;
    for (std::size_t at = text.find(winds_back); at != std::string::npos;
         at = text.find(winds_back, at + 1)) {
        const std::size_t retract = text.rfind("\nG0 X", at) + 1, end = text.find('\n', retract);
        const std::size_t pass = text.rfind("(lobe ", retract);
        double lowest = 1e9;  // of the pass before
        for (std::size_t line = pass; line < retract; line = text.find('\n', line) + 1)
            lowest = std::min(lowest, radial_word(text.substr(line, text.find('\n', line) - line)));
        std::string low = text;
        low.replace(retract, end - retract, "G0 X" + fixed(lowest, 4));
        ++spoiled;
        INFO(low.substr(retract, 200));
        const auto report =
            prove(winding_case().job, winding_case().lobes, winding_case().dialect, low, "spoiled.ngc");
        REQUIRE(report.ok());
        CHECK(fails(*report));
        CHECK(finding_of(*report, "rapid-in-stock") != nullptr);
    }
    CHECK(spoiled > 3);
}
