// The end of a radial mill that is hollow: its corner leads.

#include "basalt.h"
#include "catch.h"
#include "five_lobes.h"
#include "planned.h"
#include "sweep.h"

#include <cmath>

using namespace lobewright;

namespace {

SolvedLobe a_lobe() {
    SolvedLobe lobe = five_lobes::all()[0].lobe;
    lobe.width = 3.0;
    lobe.z = 20.0;
    return lobe;
}

/// A wide end, hollow by one degree, beside the shaft's axis.
Job job_of(const SolvedLobe& lobe, double shift, double dish, double corner = 0.0) {
    Job job = five_lobes::job_for(lobe, 0.01);
    job.machine->cutter_axis = CutterAxis::radial;
    Cutter mill = basalt::end_mill(30.0, 40.0);
    mill.teeth = 4;
    mill.corner_radius = corner;
    mill.end_dish = SpaceAngle::from_degrees(dish);
    job.cutters["disc"] = mill;
    job.cut->side_shift = shift;
    job.lobes = {{lobe.name, "p", "f", lobe.at, 0, Valve::inlet, lobe.z, lobe.width, 1}};
    job.places["cut.side_shift"] = {"job.toml", 30, 1};
    return job;
}

/// The two figures of "set cut.side_shift between 7.1 mm and 9.2 mm".
std::pair<double, double> shifts_of(const Diagnostic& why) {
    const std::string start = "set cut.side_shift between ";
    REQUIRE(why.remedy.rfind(start, 0) == 0);
    const std::size_t second = why.remedy.find(" and ");
    return {std::strtod(why.remedy.c_str() + start.size(), nullptr),
            std::strtod(why.remedy.c_str() + second + 5, nullptr)};
}

}  // namespace

TEST_CASE("a hollow end is planned for as it is: the lobe holds its tolerance over its whole width") {
    const SolvedLobe lobe = a_lobe();
    for (const double shift : {9.0, -9.0}) {
        for (const double corner : {0.0, 1.0}) {
            for (const CutDirection direction : {CutDirection::climb, CutDirection::conventional}) {
                Job job = job_of(lobe, shift, 1.0, corner);
                job.cut->direction = direction;
                job.cut->rough_depth = 0.5;
                job.shaft.blank_diameter = 19.0;
                INFO("shift " << shift << ", corner " << corner);
                const auto positions = sweep::positions_of(planned(job, {lobe}));
                double proudest = -1.0;
                for (const double off : {-1.499, -0.7, 0.0, 1.499}) {
                    const sweep::Slab slab(positions, sweep::cutting_body(job), lobe.z + off, 9.5);
                    const sweep::Comparison left = sweep::compare(slab, lobe, 0.0, 180);
                    CHECK(left.deepest >= -0.01 - 1e-5);
                    CHECK(left.proudest <= 0.01 + 1e-5);
                    proudest = std::max(proudest, left.proudest);
                }
                CHECK(proudest > 0.005);  // the crown, and the tunnel on it
            }
        }
    }
}

TEST_CASE("over the middle of a hollow end the lobe is refused, with the side shift that works") {
    const SolvedLobe lobe = a_lobe();
    for (const double shift : {0.0, 2.0, -2.0}) {
        Job job = job_of(lobe, shift, 1.0);
        const auto refused = plan_toolpath(job, {lobe}, {});
        REQUIRE_FALSE(refused.ok());
        const Diagnostic& why = refused.diagnostics().front();
        INFO(to_text(why));
        CHECK(why.code == "end-dish");
        CHECK(why.place.line == 30);
        const auto [least, most] = shifts_of(why);
        CHECK(std::abs(least) < std::abs(most));
        CHECK((shift < 0.0) == (least < 0.0));
        for (const double cure : {least, most, 0.5 * (least + most)}) {
            job.cut->side_shift = cure;
            CHECK(plan_toolpath(job, {lobe}, {}).ok());
        }
        for (const double still_wrong : {0.97 * least, 1.02 * most}) {
            job.cut->side_shift = still_wrong;
            CHECK_FALSE(plan_toolpath(job, {lobe}, {}).ok());
        }
    }
}

TEST_CASE("where no side shift does it, the tolerance that would is told") {
    const SolvedLobe lobe = a_lobe();
    Job job = job_of(lobe, 9.0, 3.0);
    const auto refused = plan_toolpath(job, {lobe}, {});
    REQUIRE_FALSE(refused.ok());
    const Diagnostic& why = refused.diagnostics().front();
    INFO(to_text(why));
    const std::string start = "takes a tolerance of ", then = " or more at a side_shift of ";
    const std::size_t at = why.remedy.find(start), shift = why.remedy.find(then);
    REQUIRE(at != std::string::npos);
    job.cut->tolerance = std::strtod(why.remedy.c_str() + at + start.size(), nullptr);
    CHECK(job.cut->tolerance > 0.01);
    job.cut->side_shift = std::strtod(why.remedy.c_str() + shift + then.size(), nullptr);
    CHECK(plan_toolpath(job, {lobe}, {}).ok());
    job.cut->tolerance *= 0.98;
    CHECK_FALSE(plan_toolpath(job, {lobe}, {}).ok());
}

TEST_CASE("a square end over the shaft's axis is warned of: its middle does not cut") {
    const SolvedLobe lobe = a_lobe();
    Job job = job_of(lobe, 0.0, 0.0);
    const auto path = plan_toolpath(job, {lobe}, {});
    REQUIRE(path.ok());
    REQUIRE(path.diagnostics().size() == 1);
    const Diagnostic& warning = path.diagnostics().front();
    CHECK(warning.code == "dead-middle");
    CHECK(warning.severity == Severity::warning);
    CHECK_THAT(warning.remedy, ContainsSubstring("set cut.side_shift to 1.5001 mm or more"));
    for (const double off : {1.5, -1.5}) {
        job.cut->side_shift = off;
        CHECK(plan_toolpath(job, {lobe}, {}).diagnostics().empty());
    }
    job = job_of(lobe, 0.0, 0.0);
    job.cutters["disc"].kind = CutterKind::ball_nose;
    job.cutters["disc"].diameter = 6.0;
    const auto ball = plan_toolpath(job, {lobe}, {});
    REQUIRE(ball.ok());
    CHECK(ball.diagnostics().empty());
}
