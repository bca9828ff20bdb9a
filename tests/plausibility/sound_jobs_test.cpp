// A neighbour who asks about sound work is not asked again.
#include "catch.h"
#include "plausible_jobs.h"

using namespace lobewright;
using namespace plausible_jobs;

TEST_CASE("nothing is asked about sound jobs, from model engines to machines") {
    for (const NamedText& job : all()) {
        INFO(job.name);
        const Diagnostics asked = questions(job.text);
        INFO(told(asked));
        if (job.name == "tunnel bearings") {
            REQUIRE(asked.size() == 1);  // either may be meant: a note
            CHECK(asked.front().code == "journal-over-blank");
            CHECK(asked.front().severity == Severity::note);
        } else {
            CHECK(asked.empty());
        }
    }
}
