#include "basalt.h"
#include "base/text/characters.h"
#include "catch.h"
#include "job_kit.h"

#include <lobewright/ways.h>

#include <nlohmann/json.hpp>

#include <algorithm>

using namespace lobewright;

namespace {

Diagnostic found(Severity severity, const std::string& message = "it is so") {
    return finding(severity, "code", "", message);
}

/// Three-arc lobe for a fixture of 19 mm, its nose at `at` degrees.
Job lathe_job(double at, int divisions) {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat(20.0));
    job.lobes[0].at = ShaftAngle::from_degrees(at);
    job.shaft.blank_diameter = 17.0;
    HandMethod method;
    method.offset = 19.0;
    method.divisions = divisions;
    job.hand["lathe"] = method;
    return job;
}

Way by_hand(const Job& job) {
    const std::vector<SolvedLobe> lobes = {basalt::solved(job)};
    return way_by_hand(job, lobes, "lathe", plan_hand(job, lobes, "lathe"));
}

bool tells(const Way& way, const std::string& code, Severity severity) {
    return std::any_of(way.findings.begin(), way.findings.end(), [&](const Diagnostic& each) {
        return each.code == code && each.severity == severity;
    });
}

std::optional<Dialect> dialect() {
    return shipped_dialect("rs274ngc-xza");
}

/// The engine of eight lobes, with a cutter more that fits nowhere, and a wheel of few divisions.
struct Shop {
    Job job = basalt::four();
    std::vector<SolvedLobe> lobes;
    Shop() {
        Cutter wide = job.cutters.at("disc32");
        wide.width = 30.0;
        job.cutters["a wide one"] = wide;
        HandMethod method;
        method.offset = 19.0;
        method.divisions = 72;
        job.hand["lathe"] = method;
        auto solved = solve_lobes(job);
        REQUIRE(solved.ok());
        lobes = std::move(solved).value();
    }
};

}  // namespace

TEST_CASE("the worst finding settles the verdict: an error no, a warning but, a note nothing") {
    CHECK(verdict_of({}) == Verdict::yes);
    CHECK(verdict_of({found(Severity::note)}) == Verdict::yes);
    CHECK(verdict_of({found(Severity::note), found(Severity::warning)}) == Verdict::but);
    CHECK(verdict_of({found(Severity::error), found(Severity::warning)}) == Verdict::no);
}

// A flank set off by a small angle cuts too deep by offset · angle · sin t at its joint with the nose, where
// its normal has turned by t = 13.3 degrees: 0.0076 mm at 0.1 degrees, 0.061 mm at 0.8. Its valve event is
// off by twice the angle, in crank degrees.
TEST_CASE(
    "a wheel that has no marks for the flanks is a yes only as long as flanks and timing come near enough") {
    CHECK(by_hand(lathe_job(0.0, 72)).verdict == Verdict::yes);
    const Way near = by_hand(lathe_job(0.1, 72));
    CHECK(near.verdict == Verdict::yes);
    CHECK(tells(near, "gouge", Severity::note));
    const Way gouged = by_hand(lathe_job(0.8, 72));
    CHECK(gouged.verdict == Verdict::but);
    CHECK(tells(gouged, "gouge", Severity::warning));
    CHECK_FALSE(tells(gouged, "off-time", Severity::warning));
    const Way late = by_hand(lathe_job(1.1, 72));
    CHECK(late.verdict == Verdict::but);
    CHECK(tells(late, "off-time", Severity::warning));
}

TEST_CASE("a ladder of thousands of passes is a slip of the pen") {
    Job job = lathe_job(0.0, 72);
    job.hand["lathe"].infeed = 0.0026;  // 2.5 mm down to the heel: 962 passes
    CHECK(by_hand(job).verdict == Verdict::yes);
    job.hand["lathe"].infeed = 0.001;
    const Way way = by_hand(job);
    CHECK(way.verdict == Verdict::no);
    CHECK(tells(way, "too-many-passes", Severity::error));
}

TEST_CASE("ridges are a but above 0.05 mm, and a no where they hold the valve open") {
    const auto ridges = [](double step) {
        Job job = lathe_job(0.0, 72);
        HandMethod table;
        table.kind = HandKind::rotary_table;
        table.step = ShaftAngle::from_degrees(step);
        job.hand["lathe"] = table;
        return by_hand(job);
    };
    // On the flanks' radius of 25 mm: 25 (1 / cos(step / 2) - 1) is 0.034 mm at 6 degrees, 0.061 mm at 8.
    CHECK(ridges(6.0).verdict == Verdict::yes);
    const Way high = ridges(8.0);
    CHECK(high.verdict == Verdict::but);
    CHECK(tells(high, "high-ridges", Severity::warning));
    // On the heel's of 6 mm: 0.13 mm at 24 degrees, over a twentieth of the lift.
    const Way held = ridges(24.0);
    CHECK(held.verdict == Verdict::no);
    CHECK(tells(held, "valve-held-open", Severity::error));
    CHECK(held.cuts == 15);
    REQUIRE(held.complaints.size() == 1);
    CHECK(held.complaints[0].fault == Fault::check_failed);
}

// Both flanks of 119 degrees are set 9.5 inwards: they meet at sqrt(25² - (19 sin 50°)²) - 19 cos 50° = 8.12
// mm from the axis. Blended with a quarter of the design's nose, 2.26 / 4 mm, they leave sqrt((25 - 0.565)² -
// (19 sin 50°)²) - 19 cos 50° + 0.565 = 7.98 mm, a lift of 1.98.
TEST_CASE("a lobe of which too much is cut away is a no: its valve never opens") {
    Job job = lathe_job(0.0, 18);
    job.profiles["profile"] = basalt::arcs_with_flank(6.0, 2.4, 119.0, 25.0);
    Engine engine;
    engine.firing_angles = {CrankAngle{}};
    engine.inlet = ValveTiming{basalt::crank_degrees(0.0), basalt::crank_degrees(0.0), 1.9};
    job.engine = engine;
    job.lobes[0].at.reset();
    job.lobes[0].cylinder = 1;
    job.hand["lathe"].zero = basalt::solved(job).at - ShaftAngle::from_degrees(50.0);
    CHECK(by_hand(job).verdict == Verdict::but);
    job.engine->inlet->clearance = 2.05;
    const Way way = by_hand(job);
    CHECK(way.verdict == Verdict::no);
    CHECK(tells(way, "valve-never-opens", Severity::error));
    CHECK_FALSE(tells(way, "valve-held-open", Severity::error));
}

TEST_CASE("each cutter on the machine and each hand method is a way, with the figures of its work") {
    const Shop shop;
    const std::vector<Way> ways = ways_to_cut(shop.job, shop.lobes, dialect());
    REQUIRE(ways.size() == 3);
    CHECK(ways[0].name == "a wide one");
    CHECK(ways[0].kind == WayKind::machine);
    CHECK(ways[0].verdict == Verdict::no);
    CHECK_FALSE(ways[0].wanted);
    CHECK_FALSE(ways[0].cuts.has_value());
    CHECK_FALSE(ways[0].minutes.has_value());
    CHECK_FALSE(ways[0].complaints.empty());
    CHECK(ways[1].name == "disc32");
    CHECK(ways[1].method == "disc32, parallel to the shaft");
    CHECK(ways[1].wanted);
    const Outcome<ProvenProgram> program = proven_program(shop.job, shop.lobes, *dialect());
    for (const Diagnostic& each : program.diagnostics())
        UNSCOPED_INFO(to_text(each));
    REQUIRE(program.ok());
    CHECK(*ways[1].cuts == static_cast<int>(program->path.passes.size()));
    CHECK_NEAR(*ways[1].minutes, program->path.cycle_seconds / 60.0, 1e-12);
    CHECK(ways[2].name == "lathe");
    CHECK(ways[2].kind == WayKind::hand);
    CHECK(ways[2].method == "hand.lathe (offset fixture)");
    CHECK(*ways[2].cuts == static_cast<int>(plan_hand(shop.job, shop.lobes, "lathe")->settings.size()));
    CHECK_NEAR(*ways[2].minutes, plan_hand(shop.job, shop.lobes, "lathe")->fixture->plunging.minutes, 1e-12);
    CHECK(ways_to_cut(shop.job, shop.lobes, {}).size() == 1);
    CHECK(ways[0].program == nullptr);
    REQUIRE(ways[1].program != nullptr);
    CHECK(ways[1].program->text == program->text);
    REQUIRE(plans_by_hand(ways).size() == 1);
    CHECK(plans_by_hand(ways)[0] == ways[2].plan.get());
    CHECK(ways[2].plan->method == "lathe");
}

TEST_CASE("a job fails by what [cut] asks for, and by all ways where there is none") {
    Way no, wanted, yes;
    wanted.wanted = true;
    yes.verdict = Verdict::yes;
    CHECK_FALSE(fails_by(no, {no, yes}));
    CHECK(fails_by(wanted, {wanted, yes}));
    CHECK(fails_by(no, {no, no}));
    CHECK_FALSE(fails_by(yes, {no, yes}));
}

TEST_CASE("check's JSON has the ways, and tells what a but is possible with among the findings") {
    Shop shop;
    shop.job.hand["lathe"].divisions = 70;
    const std::vector<Way> ways = ways_to_cut(shop.job, shop.lobes, dialect());
    const auto json = nlohmann::json::parse(check_json(shop.job, judge(shop.job, shop.lobes), ways));
    CHECK_FALSE(json.contains("cutting"));
    REQUIRE(json["ways"].size() == ways.size());
    for (std::size_t i = 0; i < ways.size(); ++i) {
        const auto& way = json["ways"][i];
        CHECK(way["name"] == ways[i].name);
        CHECK(way["kind"] == (ways[i].kind == WayKind::machine ? "machine" : "hand"));
        CHECK(way["verdict"] == verdict_word(ways[i].verdict));
        CHECK(way["cuts"].is_null() == !ways[i].cuts.has_value());
        CHECK(way["minutes"].is_null() == !ways[i].minutes.has_value());
        const auto told =
            std::count_if(json["findings"].begin(), json["findings"].end(), [&](const nlohmann::json& each) {
                return each["way"] == ways[i].name && each["severity"] == "warning";
            });
        INFO(ways[i].name);
        CHECK((told > 0) == (ways[i].verdict != Verdict::yes));
    }
    CHECK(ways[2].verdict == Verdict::but);
}

TEST_CASE("an error of a way is an error of the job only where the job fails by it") {
    Shop shop;
    const auto errors = [&] {
        const std::vector<Way> ways = ways_to_cut(shop.job, shop.lobes, dialect());
        const auto json = nlohmann::json::parse(check_json(shop.job, JobReport{}, ways));
        return std::count_if(json["findings"].begin(), json["findings"].end(),
                             [](const nlohmann::json& each) { return each["severity"] == "error"; });
    };
    CHECK(errors() == 0);
    shop.job.cut->cutter = "a wide one";
    CHECK(errors() > 0);
}

TEST_CASE("check's text has a line for each way, what a but is possible with below it, 100 columns wide") {
    Shop shop;
    shop.job.hand["lathe"].divisions = 70;
    const std::vector<Way> ways = ways_to_cut(shop.job, shop.lobes, dialect());
    const std::string text = check_text(shop.job, judge(shop.job, shop.lobes), ways);
    CHECK_THAT(text, ContainsSubstring("\nhow it can be cut\nno   a wide one, parallel to the shaft: "));
    CHECK_THAT(text, ContainsSubstring("\nyes  disc32, parallel to the shaft: within 0.002 mm; "));
    CHECK_THAT(text, ContainsSubstring("\nbut  hand.lathe (offset fixture): "));
    CHECK_THAT(text, ContainsSubstring("\n     1 inlet, 4 inlet: the valve opens "));
    std::size_t start = 0;
    for (std::size_t end = text.find('\n'); end != std::string::npos; end = text.find('\n', start)) {
        CHECK(characters(std::string_view(text).substr(start, end - start)) <= 100);
        start = end + 1;
    }
    CHECK(text.find("how it can be cut") == text.rfind("how it can be cut"));
    CHECK(check_text(shop.job, judge(shop.job, shop.lobes), {}).find("how it can be cut") ==
          std::string::npos);
}

TEST_CASE("where another cutter of the file would be much quicker, the way that is asked for says which") {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat());
    job.shaft.blank_diameter = 17.0;
    job.lobes.front().width = 12.0;
    Cutter ball = basalt::end_mill(4.0, 30.0);
    ball.kind = CutterKind::ball_nose;
    job.cutters["ball"] = ball;
    job.cutters["em32"] = basalt::end_mill(32.0, 40.0);
    job.machine = basalt::four().machine;
    job.machine->cutter_axis = CutterAxis::radial;
    job.cut = basalt::four().cut;
    job.cut->cutter = "ball";
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    const std::vector<Way> ways = ways_to_cut(job, *lobes, dialect());
    REQUIRE(ways.size() == 2);
    REQUIRE(ways[0].minutes.has_value());
    REQUIRE(ways[1].minutes.has_value());
    CHECK(*ways[0].minutes > 2.0 * *ways[1].minutes);
    CHECK_THAT(ways[0].summary, ContainsSubstring("; cutter em32 would do it in "));
    CHECK(ways[1].summary.find("would do it") == std::string::npos);
    job.cut->cutter = "em32";
    for (const Way& way : ways_to_cut(job, *lobes, dialect()))
        CHECK(way.summary.find("would do it") == std::string::npos);
}

TEST_CASE(
    "a cutter that the job only has is told from its plan, or not tried, where it takes too many passes") {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat(20.0));
    job.lobes[0].width = 20.0;
    job.shaft.blank_diameter = 17.0;
    job.cutters["em20"] = basalt::end_mill(24.0, 38.0);
    job.cutters["small"] = basalt::end_mill(1.5, 38.0);
    job.cutters["smallest"] = basalt::end_mill(0.3, 38.0);
    job.machine = Machine{};
    job.machine->cutter_axis = CutterAxis::radial;
    job.machine->tool_change = ToolChange{60.0, 100.0};
    job.cut = Cut{};
    job.cut->cutter = "em20";
    job.cut->tolerance = 0.002, job.cut->rough_depth = 0.8;
    job.cut->surface_feed = 120.0, job.cut->spindle_speed = 800.0;
    job.cut->side_shift = 0.1;
    const std::vector<SolvedLobe> lobes = {basalt::solved(job)};
    const auto ways = ways_to_cut(job, lobes, shipped_dialect("rs274ngc-zxa"));
    REQUIRE(ways.size() == 3);
    CHECK(ways[0].name == "em20");
    CHECK(ways[0].verdict != Verdict::no);
    CHECK_FALSE(tells(ways[0], "not-proven", Severity::warning));
    CHECK(ways[1].verdict == Verdict::but);
    CHECK(tells(ways[1], "not-proven", Severity::warning));
    CHECK(ways[1].cuts.value_or(0) > 100);
    CHECK(ways[2].verdict == Verdict::no);
    CHECK(tells(ways[2], "not-tried", Severity::error));
    CHECK_FALSE(ways[2].cuts);
    CHECK_FALSE(fails_by(ways[2], ways));
}

TEST_CASE("lobes can't stand farther out all along than a hollow's radius") {
    Job job = basalt::job(basalt::arcs_with_flank(15.0, 8.0, 140.0, -60.0), basalt::roller(8.0));
    job.shaft.blank_diameter = 170.0;
    job.cutters["disc"] = basalt::disc(90.0, 8.0, 20.0);
    job.machine = Machine{};
    job.machine->cutter_axis = CutterAxis::parallel;
    job.cut = Cut{};
    job.cut->cutter = "disc", job.cut->tolerance = 0.005, job.cut->rough_depth = 1.0;
    job.cut->surface_feed = 120.0, job.cut->spindle_speed = 100.0;
    const std::vector<SolvedLobe> lobes = {basalt::solved(job)};
    const double hollow = lobes[0].contour.smallest_hollow_radius();
    CHECK_NEAR(hollow, 60.0, 1e-9);
    const auto complains = [&](double left_on) {
        job.stock.left_on = left_on;
        const auto path = plan_toolpath(job, lobes, {});
        return std::any_of(path.diagnostics().begin(), path.diagnostics().end(),
                           [](const Diagnostic& each) { return each.code == "stock-over-hollow"; });
    };
    CHECK(complains(60.0));
    CHECK_FALSE(complains(59.9));
}
