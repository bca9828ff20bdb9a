// Lobes that stand already, cast or roughed: no more is taken than is there, and no more at once than may be.

#include "catch.h"
#include "five_lobes.h"
#include "planned.h"
#include "sweep.h"
#include "toolpath/roughing/roughing.h"

#include <algorithm>
#include <cmath>

using namespace lobewright;
using lobewright::toolpath::even_passes;

namespace {

/// One lobe of the five in a bar 3 mm thicker than it, of which only `left_on` stands.
struct Standing {
    SolvedLobe lobe;
    Job job;
};
Standing standing(const five_lobes::Case& each, double left_on) {
    Standing made{each.lobe, five_lobes::job_for(each.lobe, 0.002)};
    made.job.shaft.blank_diameter = 2.0 * (each.lobe.contour.largest_radius() + 3.0);
    made.job.stock.left_on = left_on;
    made.job.cut->finish_depth.reset();
    return made;
}

/// The most that a pass takes of what the passes before it leave, along the normal, by the tests' own sweep.
double most_taken(const Standing& shaft, const Toolpath& path) {
    const auto positions = sweep::positions_of(path);
    const sweep::Body body = sweep::cutting_body(shaft.job);
    const double out = *shaft.job.shaft.blank() / 2.0;
    double most = 0.0;
    std::vector<double> before(72, *shaft.job.stock.left_on);
    for (const Pass& pass : path.passes) {
        const sweep::Slab slab(positions, body, shaft.lobe.z, out, false, pass.first + 1, pass.last + 1);
        for (std::size_t ray = 0; ray < before.size(); ++ray) {
            const double phi = full_turn * static_cast<double>(ray) / static_cast<double>(before.size());
            const double left = std::min(before[ray], sweep::deviation_on(slab, shaft.lobe, phi));
            most = std::max(most, before[ray] - left);
            before[ray] = left;
        }
    }
    return most;
}

}  // namespace

TEST_CASE("what stands within a finish pass's depth is taken in one pass, whatever the bar was") {
    for (const auto& each : five_lobes::all()) {
        const Standing shaft = standing(each, 0.3);
        INFO(each.name);
        const Toolpath path = planned(shaft.job, {shaft.lobe});
        REQUIRE(path.passes.size() == 1);
        CHECK(path.passes.front().kind == PassKind::finish);
        CHECK(most_taken(shaft, path) <= 0.3 + 0.002 + 0.001);
    }
}

TEST_CASE("more than that is taken in even passes, none deeper than finish_depth allows") {
    for (const auto& each : five_lobes::all()) {
        Standing shaft = standing(each, 1.4);
        shaft.job.cut->finish_depth = 0.4;
        INFO(each.name);
        const Toolpath path = planned(shaft.job, {shaft.lobe});
        REQUIRE(path.passes.size() == 4);  // 0.35 mm each
        CHECK(path.passes.back().kind == PassKind::finish);
        CHECK(path.passes.front().kind == PassKind::semi_finish);
        const double most = most_taken(shaft, path);
        CHECK(most > 0.34);
        CHECK(most <= 1.25 * 0.4);
    }
}

TEST_CASE("with rough_depth what stands is roughed at the roughing feed, the heel and the nose alike") {
    for (const auto& each : five_lobes::all()) {
        Standing shaft = standing(each, 2.0);
        shaft.job.cut->rough_depth = 0.5;
        INFO(each.name);
        const Toolpath path = planned(shaft.job, {shaft.lobe});
        CHECK(path.passes.front().kind == PassKind::roughing);
        CHECK(path.passes.size() >= 4);
        CHECK(path.passes.size() <= 7);
        CHECK(most_taken(shaft, path) <= 1.25 * 0.5);
        double before = 2.0;  // each pass leaves less than the one before
        for (const Pass& pass : path.passes) {
            CHECK(pass.left_on < before);
            before = pass.left_on;
        }
    }
}

TEST_CASE("the bar's own outside ends what stands: no pass runs where only air can be") {
    const auto each = five_lobes::all().front();
    Standing thick = standing(each, 1.5), thin = standing(each, 1.5);
    thin.job.shaft.blank_diameter = 2.0 * (each.lobe.contour.largest_radius() + 0.1);
    thick.job.cut->rough_depth = thin.job.cut->rough_depth = 0.5;
    const auto whole_turns = [](const Toolpath& path) {
        double degrees = 0.0;
        Words at = path.start;
        for (const Move& move : path.moves) {
            if (move.kind == MoveKind::feed)
                degrees += std::abs(static_cast<double>(move.to.rotary - at.rotary)) * path.grid.rotary_step;
            at = move.to;
        }
        return degrees;
    };
    CHECK(whole_turns(planned(thin.job, {thin.lobe})) < whole_turns(planned(thick.job, {thick.lobe})));
}

TEST_CASE("a round bar without roughing is refused still, and says how lobes that stand are told") {
    Standing shaft = standing(five_lobes::all().front(), 0.3);
    shaft.job.stock.left_on.reset();
    const auto path = plan_toolpath(shaft.job, {shaft.lobe}, WordGrid{});
    REQUIRE_FALSE(path.ok());
    CHECK(path.diagnostics().front().code == "finish-too-deep");
    CHECK_THAT(to_text(path.diagnostics().front()), ContainsSubstring("left_on of [stock]"));
}

TEST_CASE("what operations before leave goes before what [stock] says") {
    Standing shaft = standing(five_lobes::all().front(), 2.0);
    shaft.job.stock.after[shaft.lobe.name] = {0.3, 0.02, "rough"};
    CHECK(planned(shaft.job, {shaft.lobe}).passes.size() == 1);
    shaft.job.stock.after[shaft.lobe.name].left_on =
        0.49;  // 0.51 at most: more than the usual half millimetre
    CHECK(planned(shaft.job, {shaft.lobe}).passes.size() == 2);
}

TEST_CASE("even passes share the depth, and each finds what the one before may leave proud") {
    for (const double total : {0.01, 0.4, 0.41, 1.2, 7.3}) {
        const auto over = even_passes(total, 0.4, 0.1, 0.002);
        const auto passes = static_cast<double>(over.size() + 1);
        INFO(total);
        CHECK(total / passes <= 0.4 + 1e-9);
        CHECK((passes == 1.0 || total / (passes - 1.0) > 0.4));
        for (std::size_t i = 0; i < over.size(); ++i) {
            CHECK_NEAR(over[i].left_on, 0.1 + total - total * (static_cast<double>(i) + 1.0) / passes, 1e-12);
            CHECK(over[i].stock <= 1.125 * total / passes + 1e-12);
        }
    }
}
