// Bars that only touch what is cut from them: turned exactly to the nose's height, a hair to either side, to
// the height at which the flanks meet.
#include "basalt.h"
#include "catch.h"
#include "hand/fixture/fixture_finish.h"
#include "hand/outline/follower_on_outline.h"
#include "planned_bench.h"

#include <algorithm>
#include <cmath>
#include <limits>

using namespace hand_jobs;
using namespace lobewright::hand;

namespace {

double just_below(double value) {
    return std::nextafter(value, 0.0);
}
double just_above(double value) {
    return std::nextafter(value, std::numeric_limits<double>::infinity());
}

/// A tangent cam: straight flanks, on the side of which a flat lies with its whole length.
SolvedLobe tangent_cam() {
    return basalt::solved(basalt::arcs_with_flank(6.0, 2.4, 120.0, straight_flank), basalt::roller(6.0));
}

struct Trial {
    std::string name;
    SolvedLobe lobe;
};
std::vector<Trial> convex_lobes() {
    return {{"arcs", arcs_lobe({6, 2.4, 120, 25}, 40, "arcs")},
            {"smooth", smooth_lobe(12, 2, 150, 97.3, "smooth")},
            {"tangent cam", tangent_cam()}};
}

std::vector<HandMethod> facet_methods() {
    std::vector<HandMethod> methods = {head(0.005, {}), head({}, 6.0), head({}, 40.0)};
    for (std::size_t i = 0; i < 3; ++i) {
        methods.push_back(methods[i]);
        methods.back().kind = HandKind::rotary_table;
        methods.push_back(methods[i]);
        methods.back().cutter_axis = CutterAxis::parallel;
        methods.back().cutter = "em";
    }
    return methods;
}

Job facet_job(const SolvedLobe& lobe, const HandMethod& method, double bar) {
    Job job = job_of({lobe}, method, bar);
    Cutter cutter;
    cutter.diameter = 10, cutter.flute_length = 22;
    job.cutters["em"] = cutter;
    return job;
}

/// The proudest place over the design, by brute force along its normals: what every facet and the bar leave.
double proudest_left(const SolvedLobe& lobe, const HandPlan& plan, bool round, double bar) {
    double proudest = -1.0;
    for (const ContourPiece& piece : lobe.contour.pieces()) {
        for (int k = 0; k <= 1500; ++k) {
            const ContourPoint here = piece.at(piece.start + (piece.end - piece.start) * k / 1500);
            const auto stands = [&](double along) {
                const Vec2 point = turned(here.point + along * here.normal, unit(lobe.at.radians()));
                if (length(point) > bar / 2.0) return false;
                return std::none_of(plan.settings.begin(), plan.settings.end(), [&](const auto& setting) {
                    const Vec2 u = unit(setting.shaft_angle.radians());
                    return round ? length(point - *setting.finish * u) < 5 : dot(point, u) > *setting.finish;
                });
            };
            if (!stands(proudest)) continue;
            double low = proudest, high = 20.0;
            for (int i = 0; i < 45; ++i)
                (stands((low + high) / 2) ? low : high) = (low + high) / 2;
            proudest = low;
        }
    }
    return proudest;
}

/// Every figure of a plan that its outputs print.
std::vector<double> figures(const HandPlan& plan) {
    std::vector<double> all;
    for (const HandSetting& setting : plan.settings)
        all.insert(all.end(), {setting.mark.value_or(0.0), setting.turned.value_or(ShaftAngle{}).degrees(),
                               setting.shaft_angle.degrees(), setting.start.value_or(0.0),
                               setting.touches.value_or(0.0), setting.finish.value_or(0.0)});
    for (const Land& land : plan.lands)
        all.insert(all.end(), {land.arc, land.chord, land.arc > 1e-6 ? land.stock_for_excess : 0.0});
    for (const HandFinish& finish : plan.finish)
        all.insert(all.end(), {finish.highest_ridge, finish.deepest, finish.proudest,
                               finish.opens_late.degrees(), finish.closes_late.degrees()});
    for (const HandNose& nose : plan.noses)
        all.insert(all.end(), {nose.filed_radius, nose.corner_stock, nose.top_stock, nose.template_mouth,
                               nose.template_depth, nose.at.degrees()});
    return all;
}

/// Nothing jumps between two bars that differ by next to nothing. A touch on the very top of a bar goes with
/// the square root of the difference.
void check_alike(const HandPlan& plan, const HandPlan& other, double margin) {
    const auto here = figures(plan), there = figures(other);
    REQUIRE(here.size() == there.size());
    for (std::size_t i = 0; i < here.size(); ++i)
        CHECK_NEAR(here[i], there[i], margin);
}

}  // namespace

TEST_CASE("on a bar turned exactly to the nose's height facets leave what a brute-force search finds") {
    for (const Trial& trial : convex_lobes()) {
        const double nose = 2.0 * trial.lobe.contour.largest_radius();
        for (const HandMethod& method : facet_methods()) {
            for (const double bar : {just_below(nose), nose, just_above(nose), nose + 0.01}) {
                INFO(trial.name << ", bar " << bar - nose << " over the nose, step "
                                << method.step.value_or(ShaftAngle{}).degrees());
                const HandPlan plan = planned_bench(facet_job(trial.lobe, method, bar), {trial.lobe});
                const bool round = method.cutter_axis == CutterAxis::parallel;
                const double left = proudest_left(trial.lobe, plan, round, bar);
                const HandFinish& finish = plan.finish.front();
                // Samples miss a tip by less than half their spacing times its slope, about half the step.
                const double spacing = 0.5 * 2.0 * std::numbers::pi * nose / 2.0 / 1500;
                const double slope = method.step ? rad(method.step->degrees()) * (round ? 3.0 : 0.5) : 0.1;
                CHECK(finish.highest_ridge >= left - 1e-9);
                CHECK_NEAR(finish.highest_ridge, left, spacing * slope);
                CHECK_NEAR(finish.deepest, 0.0, 1e-14);
                if (method.cusp) CHECK(finish.highest_ridge <= *method.cusp);
            }
        }
    }
}

TEST_CASE("facets on a bar of the nose's height need no more cuts than on one a hundredth larger") {
    for (const Trial& trial : convex_lobes()) {
        const double nose = 2.0 * trial.lobe.contour.largest_radius();
        for (const HandMethod& method : facet_methods()) {
            const HandPlan plan = planned_bench(facet_job(trial.lobe, method, nose), {trial.lobe});
            const HandPlan larger = planned_bench(facet_job(trial.lobe, method, nose + 0.01), {trial.lobe});
            CHECK(plan.settings.size() <= larger.settings.size());
            for (const double bar : {just_below(nose), just_above(nose)})
                check_alike(plan, planned_bench(facet_job(trial.lobe, method, bar), {trial.lobe}), 1e-6);
        }
    }
}

TEST_CASE("an offset fixture's figures don't jump where the bar has the nose's height") {
    const SolvedLobe lobe = arcs_lobe({6, 2.4, 120, 25}, 40, "arcs");
    for (const double shift : {0.0, 1.3}) {
        HandMethod method = fixture(19, 72);
        method.zero = ShaftAngle::from_degrees(shift);
        const HandPlan plan = planned_bench(job_of({lobe}, method, 16.8), {lobe});
        for (const double bar : {just_below(16.8), just_above(16.8), 16.8 + 1e-9})
            check_alike(plan, planned_bench(job_of({lobe}, method, bar), {lobe}), 1e-6);
        CHECK_NEAR(plan.noses[0].top_stock, 0.0, 1e-12);
        CHECK(plan.lands[0].arc > 0.0);
    }
}

// The arc that a cut reaches on the blank's outside ends at cos x = (R² - b² - e²) / 2be: the flanks meet
// there where 2x is the angle between them.
TEST_CASE("a land of no length is no land, and nothing jumps about it") {
    const SolvedLobe lobe = arcs_lobe({6, 2.4, 120, 25}, 40, "arcs");
    const double offset = 19, radius = 25;
    const ShaftAngle half = ShaftAngle::from_degrees(60);
    double low = 8.4, high = 20.0;
    for (int i = 0; i < 100; ++i) {
        const double middle = (low + high) / 2;
        (land_arc(2 * half, offset, radius, middle) > 0.0 ? low : high) = middle;
    }
    const double bar = 2 * low;
    CHECK_NEAR((radius * radius - low * low - offset * offset) / (2 * low * offset), std::cos(half.radians()),
               1e-12);
    const HandPlan plan = planned_bench(job_of({lobe}, fixture(offset, 72), bar), {lobe});
    CHECK_NEAR(plan.lands[0].arc, 0.0, 1e-9);
    for (const double other : {just_below(bar), just_above(bar), bar + 1e-9, bar - 1e-9})
        check_alike(plan, planned_bench(job_of({lobe}, fixture(offset, 72), other), {lobe}), 1e-6);
}

TEST_CASE("nothing jumps where a flank's whole circle touches the bar from within") {
    const SolvedLobe lobe = arcs_lobe({6, 2.4, 120, 25}, 40, "arcs");
    const double bar = 2.0 * (19 + 25);
    const HandPlan plan = planned_bench(job_of({lobe}, fixture(19, 72), bar), {lobe});
    for (const double other : {just_below(bar), just_above(bar), bar + 1e-9, bar - 1e-9})
        check_alike(plan, planned_bench(job_of({lobe}, fixture(19, 72), other), {lobe}), 1e-4);
}

TEST_CASE("a bar smaller than the nose is refused with the one that does") {
    for (const HandMethod& method : {head(0.005, {}), fixture(19, 72)}) {
        const SolvedLobe lobe = arcs_lobe({6, 2.4, 120, 25}, 40, "arcs");
        const auto plan = plan_hand(job_of({lobe}, method, 16.7), {lobe}, "bench");
        REQUIRE_FALSE(plan.ok());
        CHECK_THAT(to_text(plan.diagnostics()[0]), ContainsSubstring("a blank of at least 16.8 mm"));
    }
}

TEST_CASE(
    "flats too few to close round the shaft are refused where no bar ends them, and told where one does") {
    const SolvedLobe lobe = arcs_lobe({6, 2.4, 120, 25}, 0, "arcs");
    for (const int holes : {1, 2, 3}) {
        INFO(holes << " settings a turn");
        HandMethod method = head({}, 80.0);
        method.ratio = 1, method.plates = {{holes}};
        const HandPlan plan = planned_bench(facet_job(lobe, method, 17.0), {lobe});
        CHECK(plan.settings.size() == static_cast<std::size_t>(holes));
        CHECK_NEAR(plan.finish[0].highest_ridge, 8.5 - 6.0, 1e-9);
        Job job = facet_job(lobe, method, 17.0);
        job.shaft.blank_diameter.reset();
        const auto free = plan_hand(job, {lobe}, "bench");
        CHECK(free.ok() == (holes == 3));
        if (!free.ok()) CHECK(free.diagnostics()[0].code == "step-too-wide");
    }
}

// By hand: a knife on the very corner of two flats stands at the corner.
TEST_CASE("a knife edge rides on the corners of an outline, met head-on") {
    const SolvedLobe lobe = arcs_lobe({6, 2.4, 120, 25}, 17.3, "arcs");
    for (const double step : {5.0, 7.5, 11.0}) {
        std::vector<HandCut> cuts;
        for (double at = 0.1; at < 360.0; at += step)
            cuts.push_back(flat_cut(ShaftAngle::from_degrees(at), 6.0));
        const Outline outline = *outline_of(cuts, 8.5);
        for (const OutlinePiece& piece : outline) {
            const double lift = lift_on_outline(outline, basalt::knife(), 6.0, piece.from);
            CHECK_NEAR(lift, length(piece.start) - 6.0, 1e-12);
        }
    }
}
