// A wheel is a disc without teeth; what it has beside other discs.

#include "catch.h"
#include "job_text.h"

#include <lobewright/cutting_data.h>

using namespace lobewright;
using namespace job_text;

namespace {

Diagnostic only_complaint(const std::string& text) {
    const auto job = read(text);
    INFO(complaints(job));
    REQUIRE_FALSE(job.ok());
    REQUIRE(job.diagnostics().size() == 1);
    return job.diagnostics().front();
}

}  // namespace

TEST_CASE("a disc without teeth is a wheel, which may wear and be dressed; a mill without them is none") {
    const auto job = read(whole_job());
    INFO(complaints(job));
    REQUIRE(job.ok());
    const Cutter& wheel = job->cutters.at("wheel");
    CHECK(is_wheel(wheel));
    CHECK(*wheel.wear_per_lobe == 0.002);
    CHECK(*wheel.dress_every == 4);
    CHECK_FALSE(is_wheel(job->cutters.at("disc")));
    const auto mill = read(set(whole_job(), "cutter.em10", "teeth", "0"));
    REQUIRE(mill.ok());
    CHECK_FALSE(is_wheel(mill->cutters.at("em10")));
}

TEST_CASE("wear and dressing are a wheel's: a disc with teeth has none, nor has a mill") {
    for (const char* line : {"wear_per_lobe = 0.002", "dress_every = 4"}) {
        INFO(line);
        CHECK(only_complaint(added(whole_job(), "cutter.disc", line)).code == "unused-key");
        CHECK(only_complaint(added(whole_job(), "cutter.em10", line)).code == "unused-key");
    }
}
