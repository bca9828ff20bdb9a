// Shafts that are ground: down to size in turns, with a wheel that wears and is dressed, all held to the
// proof.

#include "basalt.h"
#include "catch.h"
#include "job_kit.h"
#include "program.h"

#include <lobewright/proven_program.h>

#include <algorithm>
#include <cmath>
#include <regex>

using namespace lobewright;

namespace {

/// Three lobes of 15 mm base circle and 1 mm lift in a bar with 0.05 mm over their noses, under a wheel.
Job ground_job() {
    Job job = basalt::job(basalt::arcs_with_flank(15.0, 1.0, 120.0, 60.0), basalt::flat(30.0));
    job.shaft.blank_diameter = 32.1;
    const LobeEntry first = job.lobes.front();
    for (int i = 1; i < 3; ++i) {
        LobeEntry lobe = first;
        lobe.name = "lobe " + std::to_string(i);
        lobe.z = first.z + 30.0 * i;
        lobe.at = ShaftAngle::from_degrees(70.0 * i);
        job.lobes.push_back(lobe);
    }
    Cutter wheel = basalt::disc(200.0, 10.0, 60.0);
    wheel.teeth = 0;
    wheel.fastest = 35.0;
    job.cutters["wheel"] = wheel;
    Machine machine;
    machine.post = "rs274ngc-xza";
    machine.cutter_axis = CutterAxis::parallel;
    machine.tool_change = ToolChange{160.0, 200.0};
    machine.limits.radial_speed = machine.limits.axial_speed = 3000.0, machine.limits.rotary_speed = 7200.0;
    machine.limits.radial_acceleration = 500.0, machine.limits.rotary_acceleration = 3600.0;
    job.machine = machine;
    Cut cut;
    cut.cutter = "wheel";
    cut.tolerance = 0.002;
    cut.rough_depth = 0.05;
    cut.surface_feed = 1500.0;
    cut.rough_surface_feed = 2500.0;
    cut.spindle_speed = 3000.0;
    cut.spring_passes = 2;
    job.cut = cut;
    return job;
}

ProvenProgram ground(const Job& job) {
    return taken(proven_program(job, taken(solve_lobes(job)), shipped_dialect("rs274ngc-xza")));
}

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++count;
    return count;
}

}  // namespace

TEST_CASE("a wheel goes down to size in turns, sparks out, and leaves the work once a lobe") {
    const Job job = ground_job();
    const ProvenProgram program = ground(job);
    const Toolpath& path = program.path;
    REQUIRE(path.passes.size() == 3 * 4);
    for (std::size_t lobe = 0; lobe < 3; ++lobe) {
        const Pass* passes = &path.passes[4 * lobe];
        CHECK(passes[0].kind == PassKind::infeed);
        CHECK(passes[1].kind == PassKind::finish);
        CHECK(passes[2].kind == PassKind::spring);
        CHECK(passes[3].kind == PassKind::spring);
        CHECK(passes[0].depth <= 0.05 + 1e-9);
        CHECK_NEAR(passes[0].turns * passes[0].depth, 16.05 - 15.0, 1e-9);
        const auto retracts =
            std::count_if(path.moves.begin() + static_cast<std::ptrdiff_t>(passes[0].contour_first),
                          path.moves.begin() + static_cast<std::ptrdiff_t>(passes[3].contour_first),
                          [](const Move& move) { return move.kind == MoveKind::rapid; });
        CHECK(retracts == 0);
    }
    CHECK(program.proof.within_tolerance);
    CHECK(program.proof.largest_depth <= 1.25 * 0.05);
    CHECK(program.proof.largest_depth >= 0.6 * 0.05);
}

TEST_CASE("the turns of an infeed take even depths: none stays above, none goes below its own") {
    const Job job = ground_job();
    const Toolpath path = ground(job).path;
    const Pass& infeed = path.passes.front();
    // On the heel the word falls by the turn's depth in a turn, to within what it may stand proud.
    const double turn = 360.0 / path.grid.rotary_step;
    const auto word_at = [&](double turns_on) {
        const double start = static_cast<double>(path.moves[infeed.contour_first - 1].to.rotary);
        for (std::size_t i = infeed.contour_first; i < infeed.last; ++i) {
            const Words &a = path.moves[i - 1].to, &b = path.moves[i].to;
            const double gone = std::abs(static_cast<double>(b.rotary) - start);
            if (gone < turns_on * turn) continue;
            const double share = (turns_on * turn - std::abs(static_cast<double>(a.rotary) - start)) /
                                 std::abs(static_cast<double>(b.rotary - a.rotary));
            return path.grid.radial_step *
                   (static_cast<double>(a.radial) + share * static_cast<double>(b.radial - a.radial));
        }
        return path.grid.radial_step * static_cast<double>(path.moves[infeed.last - 1].to.radial);
    };
    for (int k = 0; k + 1 < infeed.turns; ++k)
        CHECK_NEAR(word_at(k) - word_at(k + 1), infeed.depth, 0.2 * infeed.depth);
}

TEST_CASE("what a wheel loses on a lobe is made up for on the next, and the proof knows it") {
    const CutterAxis axis = GENERATE(CutterAxis::parallel, CutterAxis::tangential);
    INFO((axis == CutterAxis::parallel ? "beside the shaft" : "across it"));
    Job job = ground_job();
    job.machine->cutter_axis = axis;
    const std::string fresh = ground(job).text;
    job.cutters["wheel"].wear_per_lobe = 0.02;
    const auto lobes = taken(solve_lobes(job));
    const Dialect dialect = shipped_dialect("rs274ngc-xza");
    const auto worn = proven_program(job, lobes, dialect);
    for (const Diagnostic& each : worn.diagnostics())
        UNSCOPED_INFO(to_text(each));
    REQUIRE(worn.ok());
    CHECK(worn->proof.within_tolerance);
    const auto has = [&](const std::string& code) {
        return std::any_of(worn.diagnostics().begin(), worn.diagnostics().end(),
                           [&](const Diagnostic& each) { return each.code == code; });
    };
    CHECK(has("wheel-wear"));  // 0.02 mm on one lobe is more than the tolerance
    const Pass& third = worn->path.passes.back();
    CHECK_NEAR(third.worn, 0.04, 1e-12);
    // The program for a wheel that doesn't wear leaves the second lobe 0.02 mm and the third 0.04 mm proud.
    const ProofReport report = taken(prove(job, lobes, dialect, fresh, "fresh.ngc"));
    CHECK(report.lobes[0].within);
    CHECK_FALSE(report.lobes[1].within);
    CHECK_NEAR(report.lobes[2].proudest.along_normal, 0.04, 0.003);
}

TEST_CASE("the word of a worn wheel's edge goes below that of a new one, its axis likewise") {
    for (const CutterZero zero : {CutterZero::centre, CutterZero::edge}) {
        Job job = ground_job();
        job.machine->cutter_zero = zero;
        job.cutters["wheel"].wear_per_lobe = 0.05;
        const auto worn = proven_program(job, taken(solve_lobes(job)), shipped_dialect("rs274ngc-xza"));
        REQUIRE(worn.ok());
        CHECK(worn->proof.within_tolerance);
        const auto least = [&](std::size_t pass) {
            long long found = 1LL << 40;
            for (std::size_t i = worn->path.passes[pass].first; i < worn->path.passes[pass].last; ++i)
                found = std::min(found, worn->path.moves[i].to.radial);
            return static_cast<double>(found) * worn->path.grid.radial_step;
        };
        CHECK_NEAR(least(1) - least(5), 0.05, 2e-4);
        CHECK_NEAR(least(5) - least(9), 0.05, 2e-4);
    }
}

TEST_CASE("a wheel is dressed after so many lobes where tools change, its spindle stopped") {
    Job job = ground_job();
    job.cutters["wheel"].dress_every = 1;
    const ProvenProgram program = ground(job);
    CHECK(program.path.dressings.size() == 2);
    CHECK(program.proof.within_tolerance);
    CHECK(count_of(program.text, "M0 ") == 2);
    const std::size_t stop = program.text.find("M0 "), off = program.text.rfind("M5", stop),
                      on = program.text.find("M3", stop), coolant = program.text.find("M8", stop);
    CHECK(off != std::string::npos);
    CHECK(program.text.find("M3", off) > stop);  // it stands still there
    CHECK(program.text.rfind("X160.", stop) != std::string::npos);
    CHECK(on != std::string::npos);
    CHECK(coolant > on);
    // The plan counts the ways to the place and back; beside it the program comes and goes once.
    CHECK_RELATIVE(program.proof.cycle_seconds, program.path.cycle_seconds, 0.04);
    job.cutters["wheel"].dress_every = 2;
    CHECK(ground(job).path.dressings.size() == 1);
    job.cutters["wheel"].dress_every = 3;
    CHECK(ground(job).path.dressings.empty());
}

TEST_CASE("a dialect without a word for a stop can't have its wheel dressed") {
    Job job = ground_job();
    job.cutters["wheel"].dress_every = 1;
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.stop.clear();
    const auto refused = proven_program(job, taken(solve_lobes(job)), dialect);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.diagnostics().front().code == "no-stop");
}

TEST_CASE("a wheel that shrinks so much that its flanks would leave the tolerance is told to be measured") {
    Job job = ground_job();
    job.cut->clearance = 20.0;  // more than the wheel loses
    job.cutters["wheel"].diameter = 80.0, job.cutters["wheel"].neck_diameter = 20.0;
    const auto warned = [&](double wear) {
        job.cutters["wheel"].wear_per_lobe = wear;
        const auto program = proven_program(job, taken(solve_lobes(job)), shipped_dialect("rs274ngc-xza"));
        for (const Diagnostic& each : program.diagnostics())
            UNSCOPED_INFO(to_text(each));
        REQUIRE(program.ok());
        return std::any_of(program.diagnostics().begin(), program.diagnostics().end(),
                           [](const Diagnostic& each) { return each.code == "wheel-size"; });
    };
    CHECK_FALSE(warned(0.001));
    CHECK(warned(3.0));
}

TEST_CASE("a depth too fine for tolerance and words is refused, and what the refusal asks for is cut") {
    struct Case {
        const char* key;
        int teeth;
        double tolerance;
    };
    for (const Case& each :
         {Case{"rough_depth", 0, 0.002}, {"rough_depth", 30, 0.004}, {"finish_depth", 30, 0.004}}) {
        INFO(each.key << ", " << each.teeth << " teeth");
        Job job = ground_job();
        job.stock.left_on = 0.04;
        job.machine->post = "plain-xa";  // whose words step by 0.001 mm
        job.cutters["wheel"].teeth = each.teeth;
        job.cut->tolerance = each.tolerance;
        job.cut->rough_depth.reset();
        auto& depth = std::string(each.key) == "rough_depth" ? job.cut->rough_depth : job.cut->finish_depth;
        depth = 0.005;
        const std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
        const auto refused = proven_program(job, lobes, shipped_dialect("plain-xa"));
        REQUIRE_FALSE(refused.ok());
        const Diagnostic& why = refused.diagnostics().front();
        INFO(to_text(why));
        REQUIRE(why.code == "depth-too-fine");
        std::smatch asked;
        REQUIRE(std::regex_search(why.remedy, asked, std::regex(std::string(each.key) + " ([0-9.]+) mm")));
        depth = std::stod(asked[1]);
        const auto cut = proven_program(job, lobes, shipped_dialect("plain-xa"));
        INFO((cut.ok() ? std::string() : to_text(cut.diagnostics().front())));
        CHECK(cut.ok());
    }
}

TEST_CASE(
    "where a wheel goes down too slowly for a controller in inches, in mm it doesn't, as the refusal says") {
    Job job = ground_job();
    job.units = Units::inch;
    job.cut->rough_surface_feed = 500.0, job.cut->surface_feed = 500.0;  // 0.05 mm deeper in 0.19 minutes
    const std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
    const auto refused = proven_program(job, lobes, shipped_dialect("rs274ngc-xza"));
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.diagnostics().front().code == "controller-runs-away");
    CHECK_THAT(refused.diagnostics().front().remedy, ContainsSubstring("write the job in mm"));
    job.units = Units::mm;
    CHECK(proven_program(job, lobes, shipped_dialect("rs274ngc-xza")).ok());
}
