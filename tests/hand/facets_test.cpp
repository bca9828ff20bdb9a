#include "base/text/characters.h"
#include "catch.h"
#include "hand/dividing/index_grid.h"
#include "hand/outline/follower_on_outline.h"
#include "hand/outline/touch_map.h"
#include "planned_bench.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <sstream>

using namespace hand_jobs;
using namespace lobewright::hand;

namespace {

Job with_end_mill(Job job, double diameter) {
    Cutter cutter;
    cutter.diameter = diameter;
    cutter.flute_length = 22;
    job.cutters["em"] = cutter;
    job.hand["bench"].cutter_axis = CutterAxis::parallel;
    job.hand["bench"].cutter = "em";
    return job;
}

HandMethod table(std::optional<double> cusp, std::optional<double> step_degrees) {
    HandMethod method = head(cusp, step_degrees);
    method.kind = HandKind::rotary_table;
    method.plates.clear();
    method.ratio = 0;
    return method;
}

std::vector<SolvedLobe> sample_lobes() {
    return {arcs_lobe({6, 2.4, 120, 25}, 40, "arcs", 0), smooth_lobe(12, 2, 150, 97.3, "smooth", 1)};
}

/// Largest p·u over the contour, by a fine search.
double support_by_search(const Contour& contour, double direction) {
    double height = 0.0;
    for (const ContourPiece& piece : contour.pieces())
        for (int k = 0; k <= 4000; ++k)
            height = std::max(height, dot(piece.at(piece.start + (piece.end - piece.start) * k / 4000).point,
                                          unit(direction)));
    return height;
}

/// How far out a cutter's centre must stand for the cutter to clear the contour, by a fine search.
double clearance_by_search(const Contour& contour, double direction, double radius) {
    double out = 0.0;
    for (const ContourPiece& piece : contour.pieces())
        for (int k = 0; k <= 4000; ++k) {
            const Vec2 point = piece.at(piece.start + (piece.end - piece.start) * k / 4000).point;
            const double across = cross(point, unit(direction));
            if (std::abs(across) < radius)
                out =
                    std::max(out, dot(point, unit(direction)) + std::sqrt(radius * radius - across * across));
        }
    return out;
}

}  // namespace

TEST_CASE("a flat's depth is the lobe's support function in its direction") {
    const auto lobes = sample_lobes();
    const HandPlan plan = planned_bench(job_of(lobes, head({}, 7.0), 29), lobes);
    for (const HandSetting& setting : plan.settings) {
        const SolvedLobe& lobe = lobes[setting.lobe];
        const double direction = (setting.shaft_angle - lobe.at).radians();
        CHECK_NEAR(*setting.finish, support_by_search(lobe.contour, direction), 5e-6);
        CHECK_NEAR(*setting.start, 14.5, 1e-12);
    }
}

TEST_CASE("the side of a round cutter goes to the distance at which it just clears the lobe") {
    const std::vector<SolvedLobe> lobes = {smooth_lobe(12, 2, 150, 97.3, "smooth", 0)};
    const HandPlan plan = planned_bench(with_end_mill(job_of(lobes, head({}, 9.0), 29), 10), lobes);
    for (const HandSetting& setting : plan.settings) {
        const double direction = (setting.shaft_angle - lobes[0].at).radians();
        CHECK_NEAR(*setting.finish, clearance_by_search(lobes[0].contour, direction, 5), 5e-6);
        CHECK_NEAR(*setting.start, 19.5, 1e-12);
    }
}

TEST_CASE(
    "every row's turns and holes give back its angle, and a lobe's advances close one turn of the work "
    "exactly") {
    const auto lobes = sample_lobes();
    for (const HandMethod& method : {head({}, 2.0), head({}, 1.7), head(0.003, {}), head(0.02, {})}) {
        const HandPlan plan = planned_bench(job_of(lobes, method, 29), lobes);
        for (std::size_t lobe = 0; lobe < lobes.size(); ++lobe) {
            long long advanced = 0, before = 0, circle = 0, first = -1;
            for (const HandSetting& setting : plan.settings) {
                if (setting.lobe != lobe) continue;
                REQUIRE(setting.circle.has_value());
                circle = *setting.circle;
                CHECK(std::set<int>{15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49}
                          .contains(*setting.circle));
                const CrankSetting crank{*setting.turns, *setting.hole, *setting.circle};
                CHECK(*setting.hole < *setting.circle);
                CHECK_NEAR((crank.turns + static_cast<double>(crank.hole) / crank.circle) * 360 / 40,
                           setting.turned->degrees(), 1e-10);
                CHECK_NEAR(setting.shaft_angle.degrees(), setting.turned->degrees(), 1e-10);
                const long long spaces = static_cast<long long>(crank.turns) * circle + crank.hole;
                if (first < 0) first = before = spaces;
                CHECK(spaces >= before);
                advanced += spaces - before;
                before = spaces;
            }
            CHECK(advanced + first + 40 * circle - before == 40 * circle);
        }
    }
}

TEST_CASE("whole degrees come from a circle that 9 divides, without residual") {
    const auto lobes = sample_lobes();
    const HandPlan plan = planned_bench(job_of(lobes, head({}, 2.0), 29), lobes);
    CHECK(*plan.settings[1].circle == 18);
    CHECK(*plan.settings[1].hole == 4);
    CHECK(plan.facets->arms == std::vector<int>{4});
    CHECK(plan.settings.size() == 360);
    CHECK(plan.findings[0].code == "simple-indexing");
}

TEST_CASE("a step that no circle has takes the nearest holes, never more than half a hole off") {
    const auto lobes = sample_lobes();
    const HandPlan plan = planned_bench(job_of(lobes, head({}, 1.7), 29), lobes);
    CHECK(plan.findings[0].code == "angular-indexing");
    for (const HandSetting& setting : plan.settings) {
        const double off = wrapped(setting.shaft_angle - setting.wanted).degrees();
        CHECK(std::abs(off) <= 4.5 / *setting.circle + 1e-9);
        CHECK_NEAR(std::remainder(setting.wanted.degrees(), 1.7), 0.0, 1e-9);
    }
}

TEST_CASE(
    "the wanted ridge is kept everywhere, with no more facets than the finest step would need, and finer on "
    "the flanks") {
    const auto lobes = sample_lobes();
    for (const double cusp : {0.002, 0.01, 0.05}) {
        for (const bool round : {false, true}) {
            Job job = job_of({lobes[0]}, head(cusp, {}), 29);
            if (round) job = with_end_mill(job, 10);
            const HandPlan plan = planned_bench(job, {lobes[0]});
            CHECK(plan.finish[0].highest_ridge <= cusp);
            CHECK(plan.finish[0].highest_ridge > cusp / 8);
            double smallest = 360, largest = 0;
            for (std::size_t i = 1; i < plan.settings.size(); ++i) {
                const double step = (*plan.settings[i].turned - *plan.settings[i - 1].turned).degrees();
                smallest = std::min(smallest, step), largest = std::max(largest, step);
            }
            CHECK(static_cast<double>(plan.settings.size()) <= 360.0 / smallest + 1e-9);
            const bool even = largest <= smallest + 1e-9;  // where that costs little
            CHECK((even || largest >= smallest * 2 - 1e-9));
        }
    }
}

TEST_CASE("ridges told are those of a brute-force search of the metal that is left") {
    const auto lobes = sample_lobes();
    for (const bool round : {false, true}) {
        for (const auto& lobe : lobes) {
            Job job = job_of({lobe}, head({}, 6.0), 29);
            if (round) job = with_end_mill(job, 10);
            const HandPlan plan = planned_bench(job, {lobe});
            double proudest = 0.0, deepest = 0.0;
            for (const ContourPiece& piece : lobe.contour.pieces()) {
                for (int k = 0; k <= 6000; ++k) {
                    const ContourPoint here = piece.at(piece.start + (piece.end - piece.start) * k / 6000);
                    const auto left = [&](double along) {
                        const Vec2 point = turned(here.point + along * here.normal, unit(lobe.at.radians()));
                        for (const HandSetting& setting : plan.settings) {
                            const Vec2 u = unit(setting.shaft_angle.radians());
                            if (round ? length(point - *setting.finish * u) < 5
                                      : dot(point, u) > *setting.finish)
                                return false;
                        }
                        return true;
                    };
                    double low = -0.5, high = 0.5;
                    for (int i = 0; i < 34; ++i)
                        (left((low + high) / 2) ? low : high) = (low + high) / 2;
                    proudest = std::max(proudest, low), deepest = std::min(deepest, low);
                }
            }
            // A search of steps s along the surface misses a tip by less than s/2 times its slope of about
            // step/2.
            const double missed = 0.01 * rad(6.0);
            CHECK(plan.finish[0].highest_ridge >= proudest - 1e-9);
            CHECK_NEAR(plan.finish[0].highest_ridge, proudest, missed);
            CHECK_NEAR(plan.finish[0].deepest, deepest, 1e-8);
        }
    }
}

TEST_CASE("the finer the facets, the smaller the timing error: none at all in the end, for a flat follower") {
    for (const auto& lobe : sample_lobes()) {
        double before = 10.0;
        for (const double step : {4.0, 1.0, 0.25}) {
            const HandPlan plan = planned_bench(job_of({lobe}, table({}, step), 29), {lobe});
            const double late = std::max(std::abs(plan.finish[0].opens_late.degrees()),
                                         std::abs(plan.finish[0].closes_late.degrees()));
            CHECK(late < before);
            CHECK(plan.finish[0].valve_shuts);
            before = late;
        }
        CHECK(before < 0.02);
    }
}

TEST_CASE("ridges as high as the clearance hold the valve open, and that is an error") {
    SolvedLobe lobe = smooth_lobe(12, 2, 150, 0, "smooth");
    HandPlan plan = planned_bench(job_of({lobe}, head({}, 20.0), 29), {lobe});
    CHECK_FALSE(plan.finish[0].valve_shuts);
    CHECK(std::any_of(plan.findings.begin(), plan.findings.end(), [](const Diagnostic& finding) {
        return finding.code == "valve-held-open" && finding.severity == Severity::error;
    }));
}

TEST_CASE("a step or a ridge that takes thousands of facets is refused, not planned for hours") {
    const auto lobes = sample_lobes();
    CHECK_THAT(refused_bench(job_of(lobes, table({}, 0.01), 29), lobes),
               ContainsSubstring("takes 36000 facets"));
    CHECK_THAT(refused_bench(job_of(lobes, table(1e-7, {}), 29), lobes), ContainsSubstring("raise cusp"));
}

TEST_CASE("a rotary table sets whole steps of its vernier") {
    const auto lobes = sample_lobes();
    HandMethod method = table(0.005, {});
    method.vernier = ShaftAngle::from_degrees(0.0166667);
    const HandPlan plan = planned_bench(job_of(lobes, method, 29), lobes);
    for (const HandSetting& setting : plan.settings) {
        const double minutes = setting.turned->degrees() * 60;
        CHECK_NEAR(minutes, std::round(minutes), 1e-9);
        CHECK_FALSE(setting.turns.has_value());
        CHECK_FALSE(setting.circle.has_value());
    }
    CHECK(plan.finish[0].highest_ridge <= 0.005);
    method.vernier = ShaftAngle::from_degrees(0.7);
    CHECK_THAT(refused_bench(job_of(lobes, method, 29), lobes),
               ContainsSubstring("does not go into a whole turn"));
}

TEST_CASE("counting clockwise turns the shaft's directions the other way, and the lobe is the same") {
    const auto lobes = sample_lobes();
    HandMethod method = head(0.005, {});
    const HandPlan ccw = planned_bench(job_of(lobes, method, 29), lobes);
    method.counts = Sense::cw;
    method.zero = ShaftAngle::from_degrees(33);
    const HandPlan cw = planned_bench(job_of(lobes, method, 29), lobes);
    for (const HandSetting& setting : cw.settings) {
        CHECK_NEAR(wrapped_radians(setting.shaft_angle.radians() - rad(33 - setting.turned->degrees())), 0.0,
                   1e-12);
        const SolvedLobe& lobe = lobes[setting.lobe];
        CHECK_NEAR(*setting.finish,
                   support_by_search(lobe.contour, (setting.shaft_angle - lobe.at).radians()), 5e-6);
    }
    CHECK(cw.finish[0].highest_ridge <= 0.005);
    CHECK(ccw.finish[0].highest_ridge <= 0.005);
}

TEST_CASE("turning the job turns the settings: with zero and nose moved alike, the depths are the same") {
    HandMethod method = head({}, 3.0);
    const HandPlan before = planned_bench(job_of({smooth_lobe(12, 2, 150, 20, "1")}, method, 29),
                                          {smooth_lobe(12, 2, 150, 20, "1")});
    method.zero = ShaftAngle::from_degrees(71);
    const HandPlan after = planned_bench(job_of({smooth_lobe(12, 2, 150, 91, "1")}, method, 29),
                                         {smooth_lobe(12, 2, 150, 91, "1")});
    REQUIRE(before.settings.size() == after.settings.size());
    for (std::size_t i = 0; i < before.settings.size(); ++i) {
        CHECK(before.settings[i].hole == after.settings[i].hole);
        CHECK_NEAR(*before.settings[i].finish, *after.settings[i].finish, 1e-12);
    }
}

TEST_CASE("where each cut first touches, and in how many passes, follows from the cuts before it") {
    const std::vector<SolvedLobe> lobes = {smooth_lobe(12, 2, 150, 0, "1")};
    HandMethod method = head({}, 5.0);
    method.infeed = 0.25;
    const HandPlan plan = planned_bench(job_of(lobes, method, 29), lobes);
    CHECK_NEAR(*plan.settings[0].touches, 14.5, 1e-12);
    CHECK(plan.settings[0].passes == 2);  // from 14.5 to the nose's 14.0
    // After the flat across the nose the blank's corner beside it is the next one's highest metal.
    const double half = std::acos(14.0 / 14.5);
    CHECK_NEAR(*plan.settings[1].touches, 14.5 * std::cos(std::max(0.0, half - rad(5.0))), 1e-9);
    for (const HandSetting& setting : plan.settings)
        CHECK(*setting.touches >= *setting.finish);
}

TEST_CASE("a lobe with hollow flanks is refused for flats, with the cutter whose side would do") {
    SolvedLobe lobe = smooth_lobe(12, 2, 150, 0, "1");
    auto pieces = lobe.contour.pieces();
    // A shallow hollow of 40 mm between two corners of the base circle, for the refusal alone.
    pieces.back() = arc("base circle", {}, 12, rad(75), rad(180));
    const Vec2 from = 12 * unit(rad(180)), to = 12 * unit(rad(285));
    const double half = length(to - from) / 2, middle = direction((from + to) / 2.0);
    const Vec2 centre = (length((from + to) / 2.0) + std::sqrt(1600 - half * half)) * unit(middle);
    const double spread = std::asin(half / 40);
    pieces.push_back({"hollow", -spread, spread,
                      [=](double t) {
                          const Vec2 n = unit(middle + std::numbers::pi - t);
                          return ContourPoint{centre + 40 * n, -n, -1 / 40.0, 40.0};
                      },
                      true});
    ContourExtremes extremes;
    extremes.largest_radius = lobe.contour.largest_radius();
    extremes.smallest_hollow_radius = 40.0;
    lobe.contour = Contour(pieces, extremes);
    CHECK_THAT(
        refused_bench(job_of({lobe}, head({}, 2.0), 29), {lobe}),
        ContainsSubstring("hollow flanks of radius 40 mm") && ContainsSubstring("less than 80 mm diameter"));
    CHECK_THAT(refused_bench(with_end_mill(job_of({lobe}, head({}, 2.0), 29), 82), {lobe}),
               ContainsSubstring("does not fit its hollow flanks"));
}

TEST_CASE(
    "too coarse a head, too small a blank, a missing cutter and a missing step are refused with their cure") {
    const auto lobes = sample_lobes();
    HandMethod coarse = head(1e-4, {});
    coarse.plates = {{15, 16}};
    CHECK_THAT(refused_bench(job_of(lobes, coarse, 29), lobes), ContainsSubstring("raise cusp"));
    CHECK_THAT(refused_bench(job_of(lobes, head({}, 2.0), 27), lobes),
               ContainsSubstring("blank of at least 28 mm"));
    CHECK_THAT(refused_bench(job_of(lobes, head({}, {}), 29), lobes),
               ContainsSubstring("[hand.bench] has no 'cusp'"));
    HandMethod method = head({}, 2.0);
    method.cutter_axis = CutterAxis::parallel;
    method.cutter = "lost";
    CHECK_THAT(refused_bench(job_of(lobes, method, 29), lobes),
               ContainsSubstring("there is no [cutter.lost]"));
    method = head({}, 2.0);
    method.ratio = 40.5;
    method.plates = {{15}};
    CHECK_THAT(refused_bench(job_of(lobes, method, 29), lobes), ContainsSubstring("none of these circles"));
}

TEST_CASE("a small cutter at a wide step would leave walls, and is refused") {
    const std::vector<SolvedLobe> lobes = {smooth_lobe(12, 2, 150, 0, "1")};
    CHECK_THAT(refused_bench(with_end_mill(job_of(lobes, head({}, 20.0), 29), 2), lobes),
               ContainsSubstring("leave walls"));
}

TEST_CASE("divisions that no single circle has are made by compound indexing, every one in its place") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    HandMethod method = head({}, 360.0 / 77);
    const HandPlan plan = planned_bench(job_of(lobes, method, 17), lobes);
    CHECK(plan.settings.size() == 77);
    REQUIRE(plan.facets->compound.has_value());
    CHECK(*plan.facets->compound == CompoundMove{21, 9, 33, 3});
    CHECK(plan.facets->plate == 2);
    CHECK_FALSE(plan.facets->circle.has_value());
    for (const HandSetting& setting : plan.settings) {
        CHECK_FALSE(setting.turns.has_value());
        CHECK_NEAR(wrapped(setting.shaft_angle - setting.wanted).degrees(), 0.0, 1e-9);
    }
    const Job job = job_of(lobes, method, 17);
    CHECK_THAT(
        hand_text(job, lobes, plan, HandFormat::markdown),
        ContainsSubstring("9 holes of the circle of 21") && ContainsSubstring("3 holes of the circle of 33"));
    // A step that a circle has is set on it.
    CHECK(planned_bench(job_of(lobes, head({}, 10.0), 17), lobes).facets->circle.has_value());
}

TEST_CASE("a knee's dial shows how far the work has come up since the touch, or twice the distance") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 0, "inlet")};
    HandMethod method = head({}, 90.0);
    method.dial = DialReading::depth;
    method.dial_turn = 2.0;
    Job job = job_of(lobes, method, 17);
    const HandPlan plan = planned_bench(job, lobes);
    CHECK_NEAR(*plan.settings[2].finish, 6.0, 1e-9);  // of the plan, from the axis, whatever the dial
    std::string text = hand_text(job, lobes, plan, HandFormat::markdown);
    CHECK_THAT(text, ContainsSubstring("  2.500 |") && ContainsSubstring(" 1 + 0.500 |"));
    CHECK_THAT(text, ContainsSubstring("come up since the cutter"));
    method.dial = DialReading::diameter;
    job = job_of(lobes, method, 17);
    text = hand_text(job, lobes, planned_bench(job, lobes), HandFormat::markdown);
    CHECK_THAT(text, ContainsSubstring(" 12.000 |"));
    method.dial = DialReading::depth;
    job = job_of(lobes, method, 17);
    job.shaft.blank_diameter.reset();
    CHECK_THAT(to_text(plan_hand(job, lobes, "bench").diagnostics()[0]),
               ContainsSubstring("no 'blank_diameter'"));
}

TEST_CASE(
    "the sector arms are set once for a lobe where even steps cost little, else their change is a step") {
    const auto sheet_and_arms = [](double flank) {
        const std::vector<SolvedLobe> lobes = {arcs_lobe({10, 0.5, 170, flank}, 0, "low")};
        const Job job = job_of(lobes, head(0.005, {}), 23);
        const HandPlan plan = planned_bench(job, lobes);
        CHECK(plan.finish[0].highest_ridge <= 0.005);
        const std::string text = hand_text(job, lobes, plan, HandFormat::markdown);
        std::size_t steps = 0;
        for (std::size_t at = text.find("Set the sector arms"); at != std::string::npos;
             at = text.find("Set the sector arms", at + 1))
            ++steps;
        return std::pair(steps, plan.facets->arms.size());
    };
    CHECK(sheet_and_arms(14.0) == std::pair<std::size_t, std::size_t>(1, 1));
    const auto [steps, arms] = sheet_and_arms(30.0);  // half the step on the flanks: twice the arms
    CHECK(arms == 2);
    CHECK(steps >= 3);
}

TEST_CASE("a table's rows tell its angle beside the knee's turns, within 80 columns") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 0, "inlet")};
    HandMethod method = head({}, 2.5);
    method.kind = HandKind::rotary_table;
    method.infeed = 0.5;
    method.dial = DialReading::depth;
    method.dial_turn = 2.0;
    for (const double ratio : {0.0, 90.0}) {
        method.ratio = ratio;
        const Job job = job_of(lobes, method, 17);
        const std::string text = hand_text(job, lobes, planned_bench(job, lobes), HandFormat::markdown);
        CHECK_THAT(text, ContainsSubstring("357° 30'"));
        std::istringstream stream(text);
        for (std::string line; std::getline(stream, line);)
            CHECK(characters(line) <= 80);
    }
}

TEST_CASE("where no bar is given the facets are judged as out of one too large to matter") {
    const std::vector<SolvedLobe> lobes = {smooth_lobe(12, 2, 150, 97.3, "smooth", 0)};
    const Job with_bar = job_of(lobes, head({}, 5.0), 60);
    Job without = with_bar;
    without.shaft.blank_diameter.reset();
    const HandFinish known = planned_bench(with_bar, lobes).finish[0],
                     found = planned_bench(without, lobes).finish[0];
    CHECK(known.highest_ridge > 0.005);
    CHECK_NEAR(found.highest_ridge, known.highest_ridge, 1e-9);
    CHECK_NEAR(found.proudest, known.proudest, 1e-9);
    CHECK_NEAR(found.deepest, known.deepest, 1e-9);
}
