#include "catch.h"
#include "proof_case.h"

using namespace lobewright;

TEST_CASE("the examples' programs are proven within their tolerance, without a finding") {
    for (const char* name : {"basalt-four", "basalt-four-radial"}) {
        const ProofCase made = proof_case(example_job(name));
        const ProofReport report = made.prove();
        INFO(proof_text(made.job, report, made.text));
        CHECK(report.within_tolerance);
        CHECK(report.findings.empty());
        CHECK(report.rapids_in_stock == 0);
    }
}
