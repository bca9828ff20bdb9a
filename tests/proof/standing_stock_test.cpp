// What stands before the first move: the bar, lobes with something left on, or what earlier programs leave.

#include "basalt.h"
#include "catch.h"
#include "proof/sweep/standing_curve.h"
#include "proof_case.h"

#include <algorithm>
#include <cmath>

using namespace lobewright;

namespace {

/// A lobe in a bar of 20 mm, under a disc; 0.3 mm stand on it.
Job standing_job() {
    Job job = basalt::job(basalt::lopsided(6.0, 2.4), basalt::flat(20.0));
    job.shaft.blank_diameter = 20.0;
    job.stock.left_on = 0.3;
    job.cutters["disc"] = basalt::disc(32.0, 8.0, 12.0);
    job.cutters["other"] = basalt::disc(50.0, 7.0, 12.0);
    Machine machine;
    machine.post = "rs274ngc-xza";
    machine.cutter_axis = CutterAxis::parallel;
    machine.tool_change = ToolChange{60.0, 150.0};
    job.machine = machine;
    Cut cut;
    cut.cutter = "disc";
    cut.tolerance = 0.002;
    cut.surface_feed = 120.0;
    cut.spindle_speed = 800.0;
    job.cut = cut;
    return job;
}

bool has_error(const ProofReport& report, const std::string& code) {
    return std::any_of(report.findings.begin(), report.findings.end(), [&](const Diagnostic& each) {
        return each.code == code && each.severity == Severity::error;
    });
}

/// Two operations on one lobe of a bar: roughed to 0.3 mm with one disc, finished with another.
struct TwoOperations {
    ProofCase rough, finish;
    EarlierProgram first;
};
TwoOperations two_operations() {
    Job job = standing_job();
    job.stock.left_on.reset();
    job.operation = "rough";
    job.cut->tolerance = 0.02, job.cut->allowance = 0.3, job.cut->rough_depth = 0.8;
    Job second = standing_job();
    second.stock.left_on.reset();
    second.operation = "finish";
    second.cut->cutter = "other";
    second.stock.after["lobe"] = {0.3, 0.02, "rough"};
    ProofCase rough = proof_case(job), finish = proof_case(second);
    EarlierProgram first{rough.job, rough.dialect, rough.text};
    return {std::move(rough), std::move(finish), std::move(first)};
}

ProofReport proven(const ProofCase& each, const std::string& text,
                   const std::vector<EarlierProgram>& earlier) {
    return taken(prove(each.job, each.lobes, each.dialect, text, "program.ngc", earlier));
}

}  // namespace

TEST_CASE("a standing curve is an ellipse's own between its nodes, seam and all") {
    // r = ab / sqrt(b² cos² + a² sin²), and its derivative.
    const double a = 10.0, b = 8.0;
    const auto radius = [&](double psi) {
        return a * b /
               std::sqrt(b * b * std::cos(psi) * std::cos(psi) + a * a * std::sin(psi) * std::sin(psi));
    };
    const auto slope = [&](double psi) {
        const double r = radius(psi);
        return -r * r * r / (a * a * b * b) * (a * a - b * b) * std::sin(psi) * std::cos(psi);
    };
    std::vector<proof::StandingCurve::Node> nodes;
    constexpr int count = 720;
    for (int i = 0; i <= count; ++i) {
        const double psi = 0.3 + full_turn * i / count;
        nodes.push_back({psi, radius(psi), slope(psi)});
    }
    const proof::StandingCurve curve(nodes);
    for (double psi = -9.0; psi < 9.0; psi += 0.0137) {
        const auto on = curve.on(psi);
        CHECK_NEAR(on.radius, radius(psi), 1e-9);
        CHECK_NEAR(on.slope, slope(psi), 1e-5);
    }
}

TEST_CASE("a program for lobes that stand takes what is left on them, and the bar would be too much for it") {
    const ProofCase each = proof_case(standing_job());
    const ProofReport report = each.prove();
    INFO(findings_text(report));
    CHECK_FALSE(fails(report));
    CHECK(report.largest_depth <= 0.3 + 0.002);
    CHECK(report.largest_depth > 0.0);
    ProofCase on_bar = each;
    on_bar.job.stock.left_on.reset();
    CHECK(has_error(on_bar.prove(each.text), "depth"));
    ProofCase too_much = each;
    too_much.job.stock.left_on = 1.0;
    CHECK(has_error(too_much.prove(each.text), "depth"));
}

TEST_CASE("lobes that stand lower than the program cuts are told: it would cut air") {
    ProofCase each = proof_case(standing_job());
    each.job.cut->allowance = 0.1;
    const ProofCase high = proof_case(each.job);
    ProofCase low = high;
    low.job.stock.left_on = 0.05;
    const ProofReport report = low.prove(high.text);
    CHECK(has_error(report, "gouge"));    // what stands lies below the design with its allowance
    CHECK(has_error(report, "not-cut"));  // and no move takes anything off it
}

TEST_CASE("an operation is proven on what the program before it has really left") {
    const TwoOperations both = two_operations();
    CHECK_FALSE(fails(both.rough.prove()));
    const ProofReport report = proven(both.finish, both.finish.text, {both.first});
    INFO(findings_text(report));
    CHECK_FALSE(fails(report));
    CHECK(report.largest_depth <= 0.3 + 0.02 + 0.002);
    // Without the program before it, what the job says of it stands in its place.
    CHECK_FALSE(fails(both.finish.prove()));
}

TEST_CASE("an operation twice, out of order or on the wrong stock is caught") {
    const TwoOperations both = two_operations();
    SECTION("the same operation again finds nothing to cut") {
        CHECK(has_error(proven(both.rough, both.rough.text, {both.first}), "not-cut"));
        const EarlierProgram second{both.finish.job, both.finish.dialect, both.finish.text};
        CHECK(has_error(proven(both.finish, both.finish.text, {both.first, second}), "not-cut"));
    }
    SECTION("the finishing program on the bar takes too much") {
        Job bar = both.finish.job;
        bar.stock.after.clear();
        const ProofReport report =
            taken(prove(bar, both.finish.lobes, both.finish.dialect, both.finish.text, "program.ngc"));
        CHECK(has_error(report, "depth"));
    }
    SECTION("either program in the place of the other does not fit its cutter") {
        CHECK(fails(proven(both.finish, both.rough.text, {both.first})));
        CHECK(fails(proven(both.rough, both.finish.text, {})));
    }
    SECTION("nor does it with a cutter of the same size: one leaves its allowance, the other goes below it") {
        ProofCase finish = both.finish;
        finish.job.cut->cutter = "disc";
        finish = proof_case(finish.job);
        CHECK(has_error(proven(finish, both.rough.text, {both.first}), "not-cut"));
        CHECK(has_error(proven(both.rough, finish.text, {}), "gouge"));
    }
    SECTION("a roughing program that went too deep shows on the finished lobe") {
        ProofCase deep = both.rough;
        deep.job.cut->allowance = -0.05;
        deep = proof_case(deep.job);
        const EarlierProgram gouged{deep.job, deep.dialect, deep.text};
        const ProofReport report = proven(both.finish, both.finish.text, {gouged});
        CHECK(has_error(report, "gouge"));
        CHECK(report.lobes.front().deepest.line == 0);  // no line of this program cut there
    }
}

TEST_CASE("an earlier program that can't be read is told as such") {
    const TwoOperations both = two_operations();
    EarlierProgram broken = both.first;
    broken.text = "G0 X\n";
    const auto report = prove(both.finish.job, both.finish.lobes, both.finish.dialect, both.finish.text,
                              "program.ngc", {broken});
    REQUIRE_FALSE(report.ok());
    CHECK(report.diagnostics().front().place.file == "the program of operation rough");
}

TEST_CASE("a neck is held against what stands, not against the bar that is gone") {
    // Over the heel of 6 mm the neck passes 6 + 16 - 13 = 9 mm from the shaft's axis: clear of the
    // neighbour's nose, which stands 8.7 mm high, but not of a bar of 40 mm.
    Job job = standing_job();
    job.shaft.blank_diameter = 40.0;
    job.cutters["disc"] = basalt::disc(32.0, 8.0, 26.0);
    LobeEntry second = job.lobes.front();
    second.name = "second", second.z = 32.0;
    job.lobes.push_back(second);
    const ProofCase each = proof_case(job);
    const ProofReport report = each.prove();
    INFO(findings_text(report));
    CHECK_FALSE(fails(report));
    job.stock.left_on.reset();
    job.cut->finish_depth = 20.0;
    const auto lobes = taken(solve_lobes(job));
    const auto path = plan_toolpath(job, lobes, word_grid(each.dialect, job.units));
    CHECK_FALSE(path.ok());
}
