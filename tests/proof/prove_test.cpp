#include "catch.h"
#include "program.h"
#include "proof_case.h"

#include <algorithm>
#include <cmath>
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

TEST_CASE("what is left around a lobe has the verdict's own extremes, each at its place and line") {
    for (const char* name : {"basalt-four", "basalt-four-radial"}) {
        const ProofReport report = proof_case(example_job(name)).prove();
        for (const LobeVerdict& lobe : report.lobes) {
            INFO(name << ", lobe " << lobe.name);
            REQUIRE(lobe.around.size() >= 180);  // rays are two degrees apart at most
            const auto at = [&](const Deviation& extreme) {
                const double turns = extreme.at / ShaftAngle::from_degrees(360.0);
                const auto index = static_cast<int>((turns - std::floor(turns)) * surface_places);
                const auto place =
                    std::find_if(lobe.around.begin(), lobe.around.end(),
                                 [&](const SurfacePlace& each) { return each.index == index; });
                REQUIRE(place != lobe.around.end());
                return *place;
            };
            CHECK(at(lobe.deepest).deepest == lobe.deepest.along_normal);
            CHECK(at(lobe.deepest).line == lobe.deepest.line);
            CHECK(at(lobe.proudest).proudest == lobe.proudest.along_normal);
            int last = -1;
            for (const SurfacePlace& place : lobe.around) {
                CHECK(place.index > last);
                last = place.index;
                CHECK(place.deepest <= place.proudest);
                CHECK(place.deepest >= lobe.deepest.along_normal);
                CHECK(place.proudest <= lobe.proudest.along_normal);
            }
            CHECK(last < surface_places);
        }
    }
}

TEST_CASE("a design that is to stand a hundredth higher finds every place around a lobe as much lower") {
    ProofCase made = proof_case(example_job("basalt-four"));
    const ProofReport before = made.prove();
    made.job.cut->allowance += 0.01;
    const ProofReport after = made.prove();
    for (std::size_t i = 0; i < before.lobes.size(); ++i) {
        INFO("lobe " << before.lobes[i].name);
        REQUIRE(after.lobes[i].around.size() == before.lobes[i].around.size());
        for (std::size_t k = 0; k < before.lobes[i].around.size(); ++k) {
            const SurfacePlace &low = after.lobes[i].around[k], &high = before.lobes[i].around[k];
            CHECK_NEAR(low.proudest, high.proudest - 0.01, 1e-3);
            CHECK_NEAR(low.deepest, high.deepest - 0.01, 1e-3);
        }
    }
}
