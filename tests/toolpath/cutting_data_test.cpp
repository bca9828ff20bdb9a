// Chips against teeth moved in small steps, metal removed against areas, and advice against the plans that it
// promises.

#include "catch.h"
#include "contours.h"
#include "five_lobes.h"
#include "job_kit.h"
#include "planned.h"

#include <lobewright/cutting_data.h>
#include <lobewright/number_text.h>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace lobewright;

namespace {

/// The thickest chip between two places of a circle of teeth: along rays from its new centre, from the new
/// edge back to the old one, wherever the new edge lies in uncut stock. The work is left with the radius
/// `rho` (negative: a hollow), and the uncut surface lies `depth` over it; `step` radians of turn lie
/// between.
double thickest_by_points(double rho, double radius, double depth, double step) {
    const double c = rho + radius;  // of the centre, from the work's, signed
    const Vec2 now{c, 0.0}, before{c * std::cos(step), c * std::sin(step)};
    double most = 0.0;
    constexpr int looks = 400000;
    for (int i = -looks; i <= looks; ++i) {
        const double angle = std::numbers::pi + 0.5 * std::numbers::pi * i / looks;
        const Vec2 way{std::cos(angle), std::sin(angle)};
        const Vec2 edge = now + radius * way;
        const double distance = length(edge);
        const bool in_stock = rho > 0.0 ? distance <= rho + depth : distance >= -rho - depth;
        if (!in_stock) continue;
        // Along the ray back from the new edge to the old circle.
        const Vec2 off = now - before;
        const double along = dot(off, way);
        const double inside = along * along - dot(off, off) + radius * radius;
        if (inside < 0.0) continue;
        most = std::max(most, radius - (std::sqrt(inside) - along));
    }
    return most;
}

struct Four {
    Job job = example_job("basalt-four");
    std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
    Toolpath path = planned(job, lobes);
};

const Advice* advice_on(const std::vector<Advice>& advice, const std::string& key) {
    const auto found =
        std::find_if(advice.begin(), advice.end(), [&](const Advice& each) { return each.key == key; });
    return found == advice.end() ? nullptr : &*found;
}

/// The line of a table that begins so, without it.
std::string row_of(const std::string& kind, const std::string& table) {
    const std::size_t at = table.find(kind);
    REQUIRE(at != std::string::npos);
    return table.substr(at + kind.size(), table.find('\n', at) - at - kind.size());
}

}  // namespace

TEST_CASE("the thickest chip on round work is that of two circles of teeth, one step apart") {
    for (const double rho : {2.0, 7.0, 40.0, -60.0}) {
        for (const double depth : {0.05, 0.5, 1.5}) {
            constexpr double radius = 25.0, step = 1e-4;
            const double expected = thickest_by_points(rho, radius, depth, step);
            const double turn = rho < 0.0 ? -step : step;
            INFO("left with " << rho << ", " << depth << " deep");
            CHECK_RELATIVE(chip_on_curve(std::abs(rho) * step, turn, depth, radius), expected, 0.01);
        }
    }
}

// El-Hofy, Fundamentals of Machining Processes, chapter 6: 2 f sqrt(a/d) in shallow cuts, f beyond half the
// cutter.
TEST_CASE("on straight work a shallow chip is thinned by 2 sqrt(a/d), and none beyond half the cutter") {
    CHECK_RELATIVE(chip_on_straight(0.1, 0.05, 10.0), 0.1 * 2.0 * std::sqrt(0.05 / 20.0), 0.005);
    CHECK_RELATIVE(chip_on_straight(0.1, 10.0, 10.0), 0.1, 1e-12);
    CHECK_RELATIVE(chip_on_straight(0.1, 12.0, 10.0), 0.1, 1e-12);
    CHECK_RELATIVE(chip_on_straight(0.1, 0.2, 0.0), 0.1, 1e-12);  // a square corner
    CHECK_RELATIVE(chip_on_curve(0.1, 0.0, 0.05, 10.0), chip_on_straight(0.1, 0.05, 10.0), 1e-12);
}

TEST_CASE("a plan's thickest chip of a finish pass is that on the lobe's smallest radius, its nose") {
    SolvedLobe lobe = five_lobes::all()[0].lobe;
    lobe.contour = contours::three_arcs(6.0, 2.4, 60.0 * full_turn / 360.0, 25.0);
    Job job = five_lobes::job_for(lobe, 0.002);
    job.machine->limits = {};
    job.cutters["disc"].teeth = 12;
    job.cut->spindle_speed = 300.0;
    // The centres of base circle, flank and nose: (R - n)² = e² + c² + 2 e c cos 60°, c = 8.4 - n, e = R - 6.
    const double nose = (625.0 - 361.0 - 8.4 * 8.4 - 19.0 * 8.4) / (2.0 * (25.0 - 8.4 - 0.5 * 19.0));
    const Pass pass = planned(job, {lobe}).passes.front();
    const double radius = 0.5 * job.cutters["disc"].diameter, way = job.cut->surface_feed / (300.0 * 12.0);
    CHECK_RELATIVE(pass.thickest_chip, thickest_by_points(nose, radius, pass.depth, way / nose), 0.02);
}

TEST_CASE("a plan's passes tell feed, depth, chip and the metal that they remove in a minute") {
    const Four four;
    const Cut& cut = *four.job.cut;
    double removed = 0.0;  // mm³ while roughing
    for (const Pass& pass : four.path.passes) {
        const SolvedLobe& lobe = four.lobes[pass.lobe];
        if (pass.kind == PassKind::spring) {
            CHECK(pass.thickest_chip == 0.0);
            continue;
        }
        CHECK(pass.thickest_chip > 0.0);
        CHECK(pass.depth > 0.0);
        const bool rough = pass.kind == PassKind::roughing;
        CHECK_NEAR(pass.feed, rough ? *cut.rough_surface_feed : cut.surface_feed, 1e-12);
        CHECK_NEAR(metal_removed(four.job, lobe, pass), pass.depth * lobe.width * pass.feed, 1e-9);
        if (rough) CHECK(pass.depth <= 1.1 * *cut.rough_depth);
        removed += metal_removed(four.job, lobe, pass) * pass.seconds / 60.0;
    }
    // At full depth all the time they would remove more than there is, but not by much.
    double stock = 0.0;
    for (const SolvedLobe& lobe : four.lobes)
        stock += lobe.width * std::numbers::pi * (8.5 * 8.5 - lobe.base_radius * lobe.base_radius);
    CHECK(removed > 0.7 * stock);
    CHECK(removed < 1.6 * stock);
}

TEST_CASE("a job in inches has its plan's lengths in inches, and the metal removed in cubic inches") {
    Four four;
    const auto pass_of = [&] {
        return nlohmann::json::parse(toolpath_json(four.job, four.lobes, four.path, {}))["passes"][0];
    };
    const auto mm = pass_of();
    CHECK_THAT(toolpath_text(four.job, four.lobes, four.path),
               ContainsSubstring("axial mm") && ContainsSubstring("cm3/min"));
    four.job.units = Units::inch;
    const auto inch = pass_of();
    CHECK_THAT(toolpath_text(four.job, four.lobes, four.path),
               ContainsSubstring("axial in") && ContainsSubstring("in3/min"));
    constexpr double half_step = 0.5e-9;  // figures have nine decimals
    for (const char* key : {"axial", "depth", "feed", "thickest_chip"})
        CHECK_NEAR(inch[key].get<double>() * 25.4, mm[key].get<double>(), 26.5 * half_step);
    const double cubic = 25.4 * 25.4 * 25.4;
    CHECK_NEAR(inch["removed"].get<double>() * cubic, mm["removed"].get<double>() * 1000.0,
               (cubic + 1001.0) * half_step);
}

TEST_CASE("half the spindle speed makes chips twice as thick, and half the feed makes them half as thick") {
    const SolvedLobe lobe = five_lobes::all()[1].lobe;
    Job job = five_lobes::job_for(lobe, 0.002);
    job.machine->limits = {};
    job.cutters["disc"].teeth = 12;
    job.cut->spindle_speed = 300.0;
    const double chip = planned(job, {lobe}).passes.front().thickest_chip;
    job.cut->spindle_speed = 150.0;
    CHECK_RELATIVE(planned(job, {lobe}).passes.front().thickest_chip, 2.0 * chip, 1e-6);
    job.cut->surface_feed *= 0.5;
    CHECK_RELATIVE(planned(job, {lobe}).passes.front().thickest_chip, chip, 1e-6);
    job.cutters["disc"].teeth = 0;
    CHECK(planned(job, {lobe}).passes.front().thickest_chip == 0.0);
}

TEST_CASE("advice saves what it says, when its figure is set") {
    Four four;
    four.job.cut->rough_depth = 0.8;
    four.job.cut->spring_passes = 1;
    four.path = planned(four.job, four.lobes);
    const auto advice = cutting_advice(four.job, four.lobes, four.path);
    const Advice* deeper = advice_on(advice, "cut.rough_depth");
    REQUIRE(deeper != nullptr);
    Job other = four.job;
    other.cut->rough_depth = deeper->value;
    const double saved = (four.path.cycle_seconds - planned(other, four.lobes).cycle_seconds) / 60.0;
    CHECK_NEAR(deeper->saves, saved, 1e-9);
    CHECK(deeper->saves > 0.05 * four.path.cycle_seconds / 60.0);
    const Advice* springs = advice_on(advice, "cut.spring_passes");
    REQUIRE(springs != nullptr);
    CHECK_THAT(springs->text, ContainsSubstring("spring_passes 0 saves"));
}

TEST_CASE("where stops at every block take long, blending is advised with what it saves") {
    Four four;
    four.job.machine->limits.radial_acceleration = 40.0;
    four.job.machine->limits.rotary_acceleration = 300.0;
    four.path = planned(four.job, four.lobes);
    const auto advice = cutting_advice(four.job, four.lobes, four.path);
    const Advice* blending = advice_on(advice, "cut.blend");
    REQUIRE(blending != nullptr);
    CHECK_NEAR(blending->value, 0.2 * four.job.cut->tolerance, 1e-12);
    WordGrid grid = four.path.grid;
    grid.blend_tolerance = blending->value;
    const auto blended = plan_toolpath(four.job, four.lobes, grid);
    REQUIRE(blended.ok());
    CHECK_NEAR(blending->saves, (four.path.cycle_seconds - blended->cycle_seconds) / 60.0, 1e-9);
    four.path = *blended;
    CHECK(advice_on(cutting_advice(four.job, four.lobes, *blended), "cut.blend") == nullptr);
}

TEST_CASE("chips that rub, or are too thick for the cutter, are told the feed that cures them, and it does") {
    Four four;
    Cutter& cutter = four.job.cutters["disc50"];
    const auto thickest = [&](const Job& job, bool rough) {
        double chip = 0.0;
        for (const Pass& pass : planned(job, four.lobes).passes) {
            if ((pass.kind == PassKind::roughing) == rough) chip = std::max(chip, pass.thickest_chip);
        }
        return chip;
    };
    const double rough = thickest(four.job, true), finish = thickest(four.job, false);
    cutter.smallest_chip = 1.3 * finish;
    cutter.largest_chip = std::max(0.8 * rough, 1.35 * finish);
    const auto advice = cutting_advice(four.job, four.lobes, four.path);
    const Advice* thin = advice_on(advice, "cut.surface_feed");
    REQUIRE(thin != nullptr);
    CHECK(thin->outside);
    Job cured = four.job;
    cured.cut->surface_feed = thin->value;
    CHECK(thickest(cured, false) >= 0.999 * *cutter.smallest_chip);
    const Advice* thick = advice_on(advice, "cut.rough_surface_feed");
    if (rough <= *cutter.largest_chip && rough >= *cutter.smallest_chip) {
        CHECK(thick == nullptr);
    } else {
        REQUIRE(thick != nullptr);
        cured.cut->rough_surface_feed = thick->value;
        const double chip = thickest(cured, true);
        CHECK(chip <= 1.001 * *cutter.largest_chip);
        CHECK(chip >= 0.999 * *cutter.smallest_chip);
    }
}

TEST_CASE("ranges that are common are told with their source, and none for teeth that can't cut the shaft") {
    // 210 ft/min: The Ferrous Metals Data Book, table 9-8, low-carbon steel of 125 to 175 HB, 0.040 in deep.
    CHECK_RELATIVE(common_data(EdgeMaterial::hss, ShaftMaterial::soft_steel)->speed.most, 210.0 * 0.3048,
                   0.01);
    // 80 to 105 ft/min: table 9-12, alloy steel of 275 to 375 HB; carbide 725.
    CHECK_RELATIVE(common_data(EdgeMaterial::hss, ShaftMaterial::tempered_steel)->speed.most, 105.0 * 0.3048,
                   0.01);
    CHECK_RELATIVE(common_data(EdgeMaterial::carbide, ShaftMaterial::tempered_steel)->speed.most,
                   725.0 * 0.3048, 0.01);
    CHECK_FALSE(common_data(EdgeMaterial::hss, ShaftMaterial::hardened_steel));
    CHECK(common_data(EdgeMaterial::carbide, ShaftMaterial::hardened_steel));
    const Four four;
    const std::string text = cutting_text(four.job, four.lobes, four.path) + common_ranges_text(four.job);
    CHECK_THAT(text, ContainsSubstring("Data Book, face milling 1 mm deep, tables 9-8 and 9-12"));
    CHECK_THAT(text, ContainsSubstring("18 to 64 m/min in soft steel"));
    CHECK_THAT(text, ContainsSubstring("33.0 m/min"));
}

TEST_CASE("a rim faster than the cutter's own limit is refused with the speed that keeps it") {
    Four four;
    four.job.cutters["disc50"].fastest = 0.4;  // m/s; 160 rev/min of 50 mm are 0.419
    four.job.cut->spindle_speed = 160.0;
    const auto refused = plan_toolpath(four.job, four.lobes, {});
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.diagnostics().front().code == "rim-speed");
    CHECK_THAT(refused.diagnostics().front().remedy, ContainsSubstring("152 or less"));
    four.job.cut->spindle_speed = 152.0;
    CHECK(plan_toolpath(four.job, four.lobes, {}).ok());
}

TEST_CASE("with the materials of cutter and shaft the plan is held to their own ranges") {
    Four four;
    Cutter& cutter = four.job.cutters["disc50"];
    const auto speed_advice = [&] {
        const auto advice = cutting_advice(four.job, four.lobes, four.path);
        const Advice* found = advice_on(advice, "cut.spindle_speed");
        return found == nullptr ? std::optional<Advice>() : *found;
    };
    CHECK_FALSE(speed_advice());  // nothing says what is what
    cutter.material = EdgeMaterial::hss;
    CHECK_FALSE(speed_advice());
    four.job.shaft.material = ShaftMaterial::soft_steel;  // 33.0 m/min, of 18 to 64
    CHECK_FALSE(speed_advice());
    CHECK_THAT(common_ranges_text(four.job),
               ContainsSubstring("Common for high speed steel: 18 to 64 m/min in soft steel") &&
                   !ContainsSubstring("carbide") && !ContainsSubstring("cast iron") &&
                   !ContainsSubstring("'material'"));
    cutter.material = EdgeMaterial::carbide;  // 60 and more
    const auto slow = speed_advice();
    REQUIRE(slow.has_value());
    CHECK(slow->outside);
    CHECK(cutting_speed(cutter, slow->value) >= 60.0);
    CHECK(cutting_speed(cutter, slow->value) <= 60.3);
    cutter.fastest = 0.9;  // m/s: 54 m/min
    CHECK_FALSE(speed_advice());
    cutter.fastest.reset();
    cutter.material = EdgeMaterial::hss,
    four.job.shaft.material = ShaftMaterial::tempered_steel;  // 32 at most
    const auto fast = speed_advice();
    REQUIRE(fast.has_value());
    CHECK(cutting_speed(cutter, fast->value) <= 32.0);
    CHECK_THAT(fast->text, ContainsSubstring("10 to 32 is common for high speed steel in tempered steel (The "
                                             "Ferrous Metals Data Book"));
    four.job.shaft.material = ShaftMaterial::hardened_steel;
    CHECK_FALSE(speed_advice());
    CHECK_THAT(common_ranges_text(four.job),
               ContainsSubstring("Teeth of high speed steel are not run in hardened steel."));
}

TEST_CASE(
    "chips outside what is common for the materials are told, but the cutter's own limits count first") {
    Four four;
    Cutter& cutter = four.job.cutters["disc50"];
    cutter.material = EdgeMaterial::hss, four.job.shaft.material = ShaftMaterial::soft_steel;
    four.job.cut->surface_feed = 5.0;
    four.path = planned(four.job, four.lobes);
    const auto advice = cutting_advice(four.job, four.lobes, four.path);
    const Advice* thin = advice_on(advice, "cut.surface_feed");
    REQUIRE(thin != nullptr);
    CHECK_THAT(thin->text, ContainsSubstring("under 0.008 mm (common practice, no source)"));
    cutter.smallest_chip = 0.00001;
    const auto own = cutting_advice(four.job, four.lobes, four.path);
    CHECK(advice_on(own, "cut.surface_feed") == nullptr);
}

TEST_CASE("passes that take nothing have neither depth nor chip nor metal in the table") {
    Four four;
    four.job.cut->spring_passes = 1;
    const std::string row =
        row_of("spring", cutting_text(four.job, four.lobes, planned(four.job, four.lobes)));
    INFO(row);
    CHECK(std::count(row.begin(), row.end(), '-') == 3);
}

TEST_CASE("the time of a kind of pass is the sum of its passes', below a minute to a tenth of a second") {
    Four four;
    auto& passes = four.path.passes;
    passes.erase(std::remove_if(passes.begin(), passes.end(),
                                [](const Pass& pass) { return pass.kind != PassKind::finish; }),
                 passes.end());
    REQUIRE(passes.size() > 2);
    passes.resize(2);
    passes[0].seconds = 12.02, passes[1].seconds = 20.025;
    four.path.cycle_seconds = 64.09;
    const std::string row = row_of("finish", cutting_text(four.job, four.lobes, four.path));
    INFO(row);
    CHECK_THAT(row, ContainsSubstring(" 32.0 s "));
    CHECK_THAT(row, Catch::Matchers::EndsWith(" 50"));
}

TEST_CASE("minutes saved are told with a decimal below ten, and none from there on") {
    Four four;
    four.job.cut->spring_passes = 1;
    int tens = 0;
    for (const double feed : {31.0, 33.0, 35.0}) {
        four.job.cut->surface_feed = feed;
        four.path = planned(four.job, four.lobes);
        const auto advice = cutting_advice(four.job, four.lobes, four.path);
        const Advice* springs = advice_on(advice, "cut.spring_passes");
        REQUIRE(springs != nullptr);
        INFO(springs->text << ": " << springs->saves);
        CHECK_THAT(
            springs->text,
            ContainsSubstring("saves " + fixed(springs->saves, springs->saves < 10.0 ? 1 : 0) + " min"));
        tens += springs->saves >= 10.0 && springs->saves < 11.0 ? 1 : 0;
    }
    CHECK(tens > 0);
}
