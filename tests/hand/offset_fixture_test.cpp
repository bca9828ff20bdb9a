#include "hand/fixture/offset_fixture.h"

#include "catch.h"
#include "hand/finish/deviations.h"
#include "hand/fixture/fixture_finish.h"
#include "planned_bench.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

using namespace hand_jobs;
using namespace lobewright::hand;

namespace {

constexpr double inch = 25.4;

ShaftAngle deg(double degrees) {
    return ShaftAngle::from_degrees(degrees);
}

bool tells(const HandPlan& plan, const std::string& code) {
    return std::any_of(plan.findings.begin(), plan.findings.end(),
                       [&](const Diagnostic& finding) { return finding.code == code; });
}

std::string message(const HandPlan& plan, const std::string& code) {
    for (const Diagnostic& finding : plan.findings)
        if (finding.code == code) return finding.what;
    return {};
}

/// The disc that one setting leaves: the lathe's axis lies opposite the cutter.
double away_from_lathe(const HandSetting& setting, double offset, Vec2 point) {
    return length(point + offset * unit(setting.shaft_angle.radians()));
}

Vec2 on_shaft(const SolvedLobe& lobe, Vec2 point) {
    return turned(point, unit(lobe.at.radians()));
}

}  // namespace

TEST_CASE(
    "common practice, no source: lands of 0.085 and 0.031 in between flanks 25 and 23 divisions apart") {
    // Wheel of 72, flank radius 0.875 in, the blank's outside 0.968 in from the lathe's centre line at its
    // highest.
    bool found = false;
    for (double offset = 0.64; offset <= 0.68; offset += 0.001) {
        const double blank = 0.968 - offset;
        const double first = land_arc(deg(25 * 5.0), offset, 0.875, blank);
        const double second = land_arc(deg(23 * 5.0), offset, 0.875, blank);
        found = found || (std::abs(first - 0.085) < 0.002 && std::abs(second - 0.031) < 0.002);
    }
    CHECK(found);
}

TEST_CASE("the same lands come out of a whole plan in inches, chord and arc") {
    const double offset = 0.660, base = 0.875 - offset, blank = 0.968 - offset;
    const Arcs wide{base * inch, 0.08 * inch, 125, 0.875 * inch},
        narrow{base * inch, 0.08 * inch, 115, 0.875 * inch};
    const std::vector<SolvedLobe> lobes = {arcs_lobe(wide, 62.5, "inlet", 0),
                                           arcs_lobe(narrow, 202.5, "exhaust", 1)};
    const Job job = job_of(lobes, fixture(offset * inch, 72), 2 * blank * inch, Units::inch);
    const HandPlan plan = planned_bench(job, lobes);
    REQUIRE(plan.lands.size() == 2);
    CHECK_NEAR(plan.lands[0].arc / inch, 0.085, 0.002);
    CHECK_NEAR(plan.lands[1].arc / inch, 0.031, 0.002);
    for (const Land& land : plan.lands)
        CHECK_NEAR(land.chord, 2 * blank * inch * std::sin(land.arc / (2 * blank * inch)), 1e-9);
}

TEST_CASE("a land measures what a fine search of the blank's outside leaves between the flanks") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    const Job job = job_of(lobes, fixture(19, 72), 17);
    const HandPlan plan = planned_bench(job, lobes);
    int left = 0;
    constexpr int parts = 1000000;
    for (int k = 0; k < parts; ++k) {
        const double direction = rad(40) + (static_cast<double>(k) / parts - 0.5) * rad(120);
        const Vec2 point = 8.5 * unit(direction);
        bool stands = true;
        for (const HandSetting& setting : plan.settings)
            if (setting.work == HandWork::flank) stands = stands && away_from_lathe(setting, 19, point) <= 25;
        left += stands;
    }
    CHECK_NEAR(plan.lands[0].arc, left * rad(120) / parts * 8.5, 3e-5);
}

TEST_CASE("a land that is wider by so much has so much metal on either flank") {
    const double e = 19, b = 8.5, extra = 1e-6;
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    const HandPlan plan = planned_bench(job_of(lobes, fixture(e, 72), 2 * b), lobes);
    const double grown = land_arc(deg(120), e, 25 + extra, b) - land_arc(deg(120), e, 25, b);
    CHECK_RELATIVE(plan.lands[0].stock_for_excess, extra / grown, 1e-5);
}

TEST_CASE(
    "flanks stand half the action angle from the nose: opening on the larger angle of a ccw shaft, on the "
    "smaller of a cw one") {
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        for (const Sense counts : {Sense::ccw, Sense::cw}) {
            const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet", 0, turns)};
            HandMethod method = fixture(19, 72);
            method.counts = counts;
            method.zero = ShaftAngle::from_degrees(10);
            const HandPlan plan = planned_bench(job_of(lobes, method, 17), lobes);
            for (const HandSetting& setting : plan.settings) {
                const double facing = 10 + sign_of(counts) * 5 * *setting.mark;
                CHECK_NEAR(wrapped_radians(setting.shaft_angle.radians() - rad(facing)), 0, 1e-12);
                if (setting.work != HandWork::flank) continue;
                const double side = setting.part == HandPart::opening_flank ? 1.0 : -1.0;
                CHECK_NEAR(
                    wrapped_radians(setting.shaft_angle.radians() - rad(40 + side * sign_of(turns) * 60)), 0,
                    1e-12);
            }
        }
    }
}

TEST_CASE("all flanks come first, then the heels with the wheel turned on, and the count runs on") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "1", 0),
                                           arcs_lobe({6, 2.4, 130, 25}, 135, "2", 1),
                                           arcs_lobe({6, 2.2, 120, 25}, 220, "3", 2)};
    const HandPlan plan = planned_bench(job_of(lobes, fixture(19, 72), 17), lobes);
    double before = -1.0;
    int wraps = 0;
    for (std::size_t i = 0; i < plan.settings.size(); ++i) {
        CHECK(plan.settings[i].order == static_cast<int>(i) + 1);
        CHECK((plan.settings[i].work == HandWork::flank) == (i < 6));
        if (i == 6) before = -1.0, wraps = 0;
        wraps += *plan.settings[i].mark < before;
        before = *plan.settings[i].mark;
        CHECK(wraps <= (i < 6 ? 0 : 2));  // a heel that the round's beginning falls into waits for its flank
    }
}

TEST_CASE("the dial shows radius or diameter from its own zero") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    HandMethod method = fixture(19, 72);
    const auto first = [&] { return planned_bench(job_of(lobes, method, 17), lobes).settings.front(); };
    CHECK_NEAR(*first().start, 27.5, 1e-12);
    CHECK_NEAR(*first().finish, 25.0, 1e-12);
    method.dial = DialReading::diameter;
    method.dial_zero = -3.0;
    CHECK_NEAR(*first().start, 52.0, 1e-12);
    CHECK_NEAR(*first().finish, 47.0, 1e-12);
    CHECK_NEAR(*first().touches, 52.0, 1e-12);
    CHECK(first().passes == 25);
}

TEST_CASE("the first cut's ladder goes down by the infeed and ends on the finish") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    HandMethod method = fixture(19, 72);
    method.infeed = 0.3;
    const HandPlan plan = planned_bench(job_of(lobes, method, 17), lobes);
    const auto& ladder = plan.fixture->ladder;
    REQUIRE(ladder.size() == 9);
    CHECK_NEAR(ladder.front(), 27.2, 1e-12);
    CHECK_NEAR(ladder[7], 25.1, 1e-12);
    CHECK_NEAR(ladder.back(), 25.0, 1e-12);
}

TEST_CASE(
    "on random shafts no clearing cut touches a flank or nose, every part of the heel is reached, and the "
    "count of metal is right") {
    const unsigned seed = GENERATE(1u, 2u, 3u, 4u);
    std::mt19937 random(seed);
    INFO("seed " << seed);
    const auto number = [&](double low, double high) {
        return std::uniform_real_distribution<>(low, high)(random);
    };
    for (int trial = 0; trial < 12; ++trial) {
        const double offset = number(15, 40);
        const int divisions = static_cast<int>(number(30, 361)), repeat = trial % 4 == 3 ? 3 : 1;
        std::vector<SolvedLobe> lobes;
        double highest = 0.0;
        for (std::size_t i = 0; i < 3; ++i) {
            Arcs arcs{number(5, 9), number(1, 2.5), number(100, 150) / repeat * (repeat > 1 ? 2.2 : 1), 0};
            arcs.flank = arcs.base + offset;
            if (!(arcs.nose() > 0.1 && arcs.nose() < arcs.base)) continue;
            highest = std::max(highest, arcs.base + arcs.lift);
            lobes.push_back(
                arcs_lobe(arcs, number(0, 360), std::to_string(i), lobes.size(), Sense::ccw, repeat));
        }
        if (lobes.empty()) continue;
        HandMethod method = fixture(offset, divisions);
        method.zero = ShaftAngle::from_degrees(number(0, 360));
        method.counts = trial % 2 ? Sense::ccw : Sense::cw;
        if (trial % 3 == 0) method.vernier = ShaftAngle::from_degrees(0.1);
        if (trial % 3 == 1) method.cusp = 0.01;
        const HandPlan plan = planned_bench(job_of(lobes, method, 2 * highest + 0.5), lobes);
        for (std::size_t i = 0; i < lobes.size(); ++i) {
            const SolvedLobe& lobe = lobes[i];
            const double radius = offset + lobe.base_radius;
            std::vector<HandCut> cuts;
            for (const HandSetting& setting : plan.settings) {
                if (setting.lobe != i) continue;
                cuts.push_back(swept_cut(setting.shaft_angle, offset, radius));
                if (setting.work != HandWork::clear) continue;
                for (const ContourPiece& piece : lobe.contour.pieces())
                    for (int k = 0; k <= 20; ++k) {
                        const Vec2 point =
                            on_shaft(lobe, piece.at(piece.start + (piece.end - piece.start) * k / 20).point);
                        REQUIRE(away_from_lathe(setting, offset, point) <= radius + 1e-9);
                    }
            }
            // Every direction of the heel is cut: between neighbouring cuts the ridge is that of the widest
            // gap.
            const double step = method.cusp ? std::max(360.0 / divisions, 1.0) : 360.0 / divisions;
            double worst = 0.0;
            for (const ContourPiece& piece : lobe.contour.pieces()) {
                if (piece.name != "base circle") continue;
                for (int k = 0; k <= 400; ++k) {
                    const double direction =
                        piece.start + (piece.end - piece.start) * k / 400 + lobe.at.radians();
                    double nearest = 10.0;
                    for (const HandCut& cut : cuts)
                        nearest =
                            std::min(nearest, std::abs(wrapped_radians(direction - cut.facing.radians())));
                    worst = std::max(worst, nearest);
                }
            }
            if (!method.cusp) REQUIRE(worst <= rad(step) + 1e-9);
            const double tip = std::sqrt(radius * radius - std::pow(offset * std::sin(worst), 2)) -
                               offset * std::cos(worst) - lobe.base_radius;
            REQUIRE(plan.finish[i].highest_ridge >= std::min(tip, highest + 0.25 - lobe.base_radius) - 1e-6);
            if (method.cusp && !tells(plan, "wheel-for-ridge")) REQUIRE(tip <= 0.01 + 1e-9);
        }
    }
}

TEST_CASE("the finish told is that of a brute-force intersection of the discs with the nose filed") {
    for (const double shift : {0.0, 1.3, -2.1}) {
        const Arcs arcs{6, 2.4, 120, 25};
        const std::vector<SolvedLobe> lobes = {arcs_lobe(arcs, 40 + shift, "inlet")};
        const HandPlan plan = planned_bench(job_of(lobes, fixture(19, 72), 17), lobes);
        std::vector<HandSetting> settings = plan.settings;
        double deepest = 0.0, proudest = 0.0;
        const double joint = arcs.half() - arcs.flank_turn();  // normal's direction at the nose's joints
        // Both flanks are off by the same angle, and the nose between them with them.
        const double turned_by = -rad(shift);
        for (const ContourPiece& piece : lobes[0].contour.pieces()) {
            for (int k = 0; k <= 2000; ++k) {
                const ContourPoint here = piece.at(piece.start + (piece.end - piece.start) * k / 2000);
                const auto left = [&](double along) {
                    const Vec2 local = here.point + along * here.normal, point = on_shaft(lobes[0], local);
                    bool stands = length(point) <= 8.5;
                    for (const HandSetting& setting : settings)
                        stands = stands && away_from_lathe(setting, 19, point) <= 25;
                    for (int t = 0; t <= 40; ++t) {  // the file's plane at the tangents of the nose
                        const Vec2 normal = unit(turned_by + joint * (t / 20.0 - 1.0));
                        stands = stands &&
                                 dot(local - arcs.nose_centre() * unit(turned_by), normal) <= arcs.nose();
                    }
                    return stands;
                };
                double low = -1.0, high = 1.0;
                for (int i = 0; i < 50; ++i)
                    (left((low + high) / 2) ? low : high) = (low + high) / 2;
                deepest = std::min(deepest, low);
                proudest = std::max(proudest, low);
            }
        }
        INFO("nose " << shift << " degrees off the mark");
        CHECK_NEAR(plan.finish[0].deepest, deepest, 2e-6);  // samples of the nose lie 5e-4 radians apart
        // Samples may miss a tip by a little; a tip is never lower than a sample (nose planes 3 degrees
        // apart: see t).
        CHECK(plan.finish[0].proudest >= proudest - 2e-3);
        CHECK_NEAR(plan.finish[0].proudest, proudest, 2e-3);
    }
}

TEST_CASE("with flanks on their marks nothing is gouged, only ridges stand, and the valve keeps its timing") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    const HandPlan plan = planned_bench(job_of(lobes, fixture(19, 72), 17), lobes);
    const double ridge =
        std::sqrt(25.0 * 25.0 - std::pow(19 * std::sin(rad(2.5)), 2)) - 19 * std::cos(rad(2.5)) - 6;
    CHECK_NEAR(plan.finish[0].highest_ridge, ridge, 1e-9);
    CHECK_NEAR(plan.finish[0].proudest, ridge, 1e-9);
    CHECK_NEAR(plan.finish[0].deepest, 0.0, 1e-9);
    CHECK_NEAR(plan.finish[0].opens_late.degrees(), 0.0, 1e-6);
    CHECK_NEAR(plan.finish[0].closes_late.degrees(), 0.0, 1e-6);
}

TEST_CASE("a flank set late by so many degrees opens the valve late by as many of cam") {
    const std::vector<SolvedLobe> lobes = {
        arcs_lobe({6, 2.4, 120, 25}, 41.5, "inlet")};  // marks lie 1.5 degrees before
    const HandPlan plan = planned_bench(job_of(lobes, fixture(19, 72), 17), lobes);
    // Flanks are turned as a whole by -1.5 degrees on a ccw shaft: everything comes 1.5 degrees of cam later.
    CHECK_NEAR(plan.finish[0].opens_late.degrees(), 3.0, 1e-6);
    CHECK_NEAR(plan.finish[0].closes_late.degrees(), 3.0, 1e-6);
    CHECK(tells(plan, "between-marks"));
    CHECK(tells(plan, "zero-shift"));
    CHECK_THAT(message(plan, "between-marks"), ContainsSubstring("1.5° of cam, 3° of crank too late"));
    CHECK_THAT(message(plan, "zero-shift"), ContainsSubstring("by 1.5° (zero = 1.5)"));
    CHECK(tells(plan, "gouge"));
}

TEST_CASE("corner and top stock are the distances from the blank's corners and outside to the nose") {
    const Arcs arcs{6, 2.4, 120, 25};
    const std::vector<SolvedLobe> lobes = {arcs_lobe(arcs, 40, "inlet")};
    const HandPlan plan = planned_bench(job_of(lobes, fixture(19, 72), 17), lobes);
    const double half_land = plan.lands[0].arc / 8.5 / 2;
    const Vec2 corner = 8.5 * unit(half_land);
    CHECK_NEAR(plan.noses[0].corner_stock, length(corner - Vec2{arcs.nose_centre(), 0}) - arcs.nose(), 1e-9);
    CHECK_NEAR(plan.noses[0].top_stock, 0.1, 1e-9);
    CHECK_NEAR(*plan.noses[0].radius, arcs.nose(), 1e-12);
    const double joint = arcs.half() - arcs.flank_turn();
    CHECK_NEAR(plan.noses[0].template_mouth, 2 * arcs.nose() * std::sin(joint), 1e-9);
    CHECK_NEAR(plan.noses[0].template_depth, arcs.nose() * (1 - std::cos(joint)), 1e-9);
}

TEST_CASE("flanks that meet below the blank's outside leave no land, and the plan says so") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    const HandPlan plan = planned_bench(job_of(lobes, fixture(19, 72), 19), lobes);
    CHECK_NEAR(plan.lands[0].arc, 0.0, 0.0);
    CHECK_NEAR(plan.lands[0].chord, 0.0, 0.0);
    CHECK(tells(plan, "no-land"));
    const double tip = std::sqrt(25.0 * 25.0 - std::pow(19 * std::sin(rad(60)), 2)) - 19 * std::cos(rad(60));
    CHECK_NEAR(plan.noses[0].corner_stock, tip - 8.4, 1e-9);
}

TEST_CASE("a vernier puts flanks where the wheel has no mark") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 41.5, "inlet")};
    HandMethod method = fixture(19, 72);
    method.vernier = ShaftAngle::from_degrees(0.5);
    const HandPlan plan = planned_bench(job_of(lobes, method, 17), lobes);
    CHECK_FALSE(tells(plan, "between-marks"));
    CHECK_NEAR(*plan.settings[0].mark, 20.3, 1e-9);
    CHECK_NEAR(plan.finish[0].opens_late.degrees(), 0.0, 1e-6);
}

TEST_CASE("for a wanted ridge a fine wheel skips marks, and a coarse one tells the wheel that it takes") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    HandMethod method = fixture(19, 360);
    method.cusp = 0.005;
    const HandPlan fine = planned_bench(job_of(lobes, method, 17), lobes);
    CHECK(fine.finish[0].highest_ridge <= 0.005);
    CHECK(fine.settings.size() < 60);
    method.divisions = 36;
    const HandPlan coarse = planned_bench(job_of(lobes, method, 17), lobes);
    // 0.005 mm on a base of 6 within arcs of 25 asks for 5.37 degrees: 68 divisions; 72 has the flanks' marks
    // too.
    CHECK_THAT(message(coarse, "wheel-for-ridge"),
               ContainsSubstring("68 divisions") && ContainsSubstring("72 is the smallest"));
}

TEST_CASE("what the fixture can't cut is refused, with what would work") {
    const std::vector<SolvedLobe> good = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    CHECK_THAT(refused_bench(job_of(good, fixture(20, 72), 17), good),
               ContainsSubstring("needs an offset of 19 mm, and the fixture's is 20 mm") &&
                   ContainsSubstring("flank_radius = 26 mm"));
    CHECK_THAT(refused_bench(job_of(good, fixture(9, 72), 17), good),
               ContainsSubstring("needs an offset above"));
    auto motion = good;
    motion[0].arcs.reset();
    CHECK_THAT(refused_bench(job_of(motion, fixture(19, 72), 17), motion),
               ContainsSubstring("law of motion") && ContainsSubstring("dividing head"));
    auto straight = good;
    straight[0].arcs->flank_radius = straight_flank;
    CHECK_THAT(refused_bench(job_of(straight, fixture(19, 72), 17), straight),
               ContainsSubstring("endless offset"));
    auto hollow = good;
    hollow[0].arcs->flank_radius = -60;
    CHECK_THAT(refused_bench(job_of(hollow, fixture(19, 72), 17), hollow), ContainsSubstring("hollow"));
    CHECK_THAT(refused_bench(job_of(good, fixture(19, 72), 16.5), good),
               ContainsSubstring("blank of at least 16.8 mm"));
    Job no_blank = job_of(good, fixture(19, 72), 17);
    no_blank.shaft.blank_diameter.reset();
    const auto unmet = plan_hand(no_blank, good, "bench");
    REQUIRE(unmet.diagnostics().size() == 1);
    CHECK(unmet.diagnostics()[0].fault == Fault::bad_input);
    CHECK_THAT(unmet.diagnostics()[0].what, ContainsSubstring("no 'blank_diameter'"));
}

TEST_CASE("an unknown method is a fault of the input, and the known ones are named") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    const auto plan = plan_hand(job_of(lobes, fixture(19, 72), 17), lobes, "lathe");
    REQUIRE_FALSE(plan.ok());
    CHECK(plan.diagnostics()[0].fault == Fault::bad_input);
    CHECK_THAT(plan.diagnostics()[0].remedy, ContainsSubstring("bench"));
}
