#include "catch.h"
#include "program.h"
#include "proof_case.h"

#include <filesystem>

using namespace lobewright;

namespace {

/// The base circle of every lobe is cut to one radius, within a step of the word.
void check_heels(const ProofCase& made, const ProofReport& report) {
    for (const LobeVerdict& lobe : report.lobes) {
        INFO("lobe " << lobe.name);
        REQUIRE(lobe.heel_runout.has_value());
        CHECK(*lobe.heel_runout <= made.path.grid.radial_step + report.resolution);
    }
}

}  // namespace

TEST_CASE("the examples' programs are proven within their tolerance, without a finding") {
    for (const char* name : {"basalt-four", "basalt-four-radial"}) {
        const ProofCase made = proof_case(example_job(name));
        const ProofReport report = made.prove();
        INFO(proof_text(made.job, report, made.text));
        CHECK(report.within_tolerance);
        CHECK(report.findings.empty());
        CHECK(report.rapids_in_stock == 0);
        check_heels(made, report);
    }
}

TEST_CASE("every dialect's program of the Basalt four is proven, in mm and in inch") {
    int dialects = 0;
    for (const auto& entry : std::filesystem::directory_iterator(source_folder() / "postprocessors")) {
        if (entry.path().extension() != ".toml") continue;
        ++dialects;
        const Dialect dialect = shipped_dialect(entry.path().stem().string());
        for (const Units units : {Units::mm, Units::inch}) {
            if (dialect.only_units && *dialect.only_units != units) continue;
            Job job = example_job("basalt-four");
            job.units = units;
            const ProofCase made = proof_case(job, dialect);
            const ProofReport report = made.prove();
            INFO(dialect.name << (units == Units::mm ? ", mm: " : ", inch: ") << findings_text(report));
            CHECK(report.within_tolerance);
            CHECK(report.rapids_in_stock == 0);
            CHECK_FALSE(fails(report));
            check_heels(made, report);
        }
    }
    CHECK(dialects >= 6);
}
