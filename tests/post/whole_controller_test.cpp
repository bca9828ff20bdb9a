// What a whole controller makes of a program: its interpreter, its look-ahead, its motion.

#include "whole_controller.h"

#include "basalt.h"
#include "catch.h"
#include "job_kit.h"
#include "program.h"

#include <lobewright/program_reader.h>
#include <lobewright/proven_program.h>

#include <cmath>
#include <map>

using namespace lobewright;

namespace {

/// A finish pass of a lobe with ramps, whose slow rise and whose nose hardly move the radial axis; a machine
/// as the controller has it.
Job short_pass(Units units = Units::mm) {
    Job job = basalt::job(basalt::lopsided(6.0, 2.4), basalt::flat(14.0));
    job.units = units;
    job.shaft.blank_diameter = 17.0;
    job.cutters["disc32"] = basalt::disc(32.0, 8.0, 12.0);
    Machine machine;
    machine.post = "rs274ngc-xza";
    machine.cutter_axis = CutterAxis::parallel;
    machine.tool_change = ToolChange{45.0, 30.0};
    machine.limits.radial_speed = machine.limits.axial_speed = 2000.0, machine.limits.rotary_speed = 7200.0;
    machine.limits.radial_acceleration = 300.0, machine.limits.rotary_acceleration = 3600.0;
    job.machine = machine;
    Cut cut;
    cut.cutter = "disc32";
    cut.tolerance = 0.002;
    cut.finish_depth = 10.0;  // what it takes is not the matter
    cut.surface_feed = 150.0;
    cut.spindle_speed = 600.0;
    job.cut = cut;
    return job;
}

struct Passed {
    double planned = 0.0;  // seconds from the first rapid of the path to its last
    std::vector<ReadMove> moves;
    controller::Run run;
};

Passed pass_of(const Job& job) {
    const Dialect dialect = shipped_dialect("rs274ngc-xza");
    const ProvenProgram program = taken(proven_program(job, taken(solve_lobes(job)), dialect));
    const std::string& text = program.text;
    Passed passed{program.path.cycle_seconds, taken(read_program(text, "pass.ngc", dialect, job.units)).moves,
                  controller::run(text)};
    INFO(passed.run.complaints);
    REQUIRE(passed.run.done);
    return passed;
}

/// Seconds of each line in work.
std::map<int, double> seconds_of_lines(const controller::Run& run) {
    std::map<int, double> seconds;
    for (const controller::Sample& sample : run.samples)
        seconds[sample.line] += 0.001;
    return seconds;
}

/// How far X stands over the words' straight line, most and least, while a block that turns the shaft is in
/// work; and how far the axes stray from the line along the cut.
struct OffTheWords {
    double over = 0.0, under = 0.0;
    int samples = 0;
};
OffTheWords off_the_words(const Passed& passed) {
    std::map<int, std::pair<ReadMove, ReadMove>> blocks;  // by line: from and to
    for (std::size_t i = 1; i < passed.moves.size(); ++i) {
        if (passed.moves[i].kind == ReadMoveKind::feed)
            blocks.emplace(passed.moves[i].line, std::pair(passed.moves[i - 1], passed.moves[i]));
    }
    OffTheWords off;
    for (const controller::Sample& sample : passed.run.samples) {
        const auto block = blocks.find(sample.line);
        if (block == blocks.end()) continue;
        const auto& [from, to] = block->second;
        const double turn = to.rotary - from.rotary;
        if (turn == 0.0) continue;
        const double share = (sample.a - from.rotary) / turn;
        if (share < 0.0 || share > 1.0) continue;  // the corner with the next block, where that has begun
        const double words = from.radial + share * (to.radial - from.radial);
        off.over = std::max(off.over, sample.x - words);
        off.under = std::max(off.under, words - sample.x);
        ++off.samples;
    }
    return off;
}

/// Each block of a quarter of a second or more in its planned time, within 5 %, and all of the path within 2
/// %.
void check_times(const Passed& passed) {
    constexpr std::size_t begin = 5, end = 2;  // moves to the tool's place and to the start, and back again
    const std::map<int, double> took = seconds_of_lines(passed.run);
    double all = 0.0;
    int long_blocks = 0;
    for (std::size_t i = begin; i + end < passed.moves.size(); ++i) {
        const ReadMove& move = passed.moves[i];
        const auto found = took.find(move.line);
        const double seconds = found == took.end() ? 0.0 : found->second;
        all += seconds;
        if (move.kind != ReadMoveKind::feed || move.seconds < 0.25) continue;
        INFO("line " << move.line << ": planned " << move.seconds << " s, took " << seconds << " s");
        CHECK(seconds >= 0.95 * move.seconds);
        CHECK(seconds <= 1.05 * move.seconds);
        ++long_blocks;
    }
    CHECK(long_blocks > 10);
    INFO("planned " << passed.planned << " s, took " << all << " s");
    CHECK(all >= 0.98 * passed.planned);
    CHECK(all <= 1.02 * passed.planned);
}

}  // namespace

TEST_CASE("under exact path a whole controller keeps a pass's words and its times", "[controller]") {
    if (!controller::installed()) return controller::say_skipped();
    const Passed passed = pass_of(short_pass());
    check_times(passed);
    const OffTheWords off = off_the_words(passed);
    CHECK(off.samples > 5000);
    CHECK(off.over < 0.0001);
    CHECK(off.under < 0.0001);
}

TEST_CASE("in inches, too, where the controller's slowest linear motion is 25 times as fast",
          "[controller]") {
    if (!controller::installed()) return controller::say_skipped();
    const Passed passed = pass_of(short_pass(Units::inch));
    check_times(passed);
    CHECK(off_the_words(passed).under < 0.0001);
}

// Measured: 1.4 µm under the words at corners, for P of 0.5 µm: the controller's own bound is not a strict
// one.
TEST_CASE("under blending a whole controller cuts corners by less than the tolerance", "[controller]") {
    if (!controller::installed()) return controller::say_skipped();
    Job job = short_pass();
    job.cut->blend = 0.0005;
    const Passed passed = pass_of(job);
    const OffTheWords off = off_the_words(passed);
    CHECK(off.samples > 5000);
    CHECK(off.under < job.cut->tolerance);
}
