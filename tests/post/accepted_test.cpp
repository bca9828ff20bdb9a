#include "catch.h"
#include "guide_dialect.h"
#include "hand_path.h"
#include "outside_interpreter.h"

#include <lobewright/number_text.h>
#include <lobewright/program_writer.h>

#include <algorithm>

using namespace lobewright;

namespace {

std::size_t axis_of(char letter) {
    return std::string("XYZABC").find(letter);
}

/// Positions and times of the interpreter's moves against the path's own.
void check_moves(const Dialect& dialect, Units units) {
    const Job job = hand_job(units);
    const Toolpath path = hand_path(job, dialect);
    const auto program = write_program(job, hand_lobes(), path, dialect);
    REQUIRE(program.ok());
    const outside::Reading reading = outside::interpret(*program);
    INFO(dialect.name << ": " << reading.error);
    REQUIRE(reading.accepted());
    const std::size_t first =
        dialect.side ? 6 : 5;        // the ways to the tool's place and to the start, an axis each
    constexpr std::size_t back = 2;  // to the tool's place
    std::vector<Move> moves;
    Words at = path.start;
    for (const Move& move : path.moves) {
        if (!(move.to == at)) moves.push_back(move);
        at = move.to;
    }
    REQUIRE(reading.moves.size() == first + moves.size() + back);
    int timed = 0;
    for (std::size_t i = 0; i < moves.size(); ++i) {
        const outside::Move& read = reading.moves[first + i];
        CAPTURE(i);
        CHECK((read.kind == outside::Kind::rapid) == (moves[i].kind == MoveKind::rapid));
        const double unit = mm_per(units);
        CHECK_NEAR(read.at[axis_of(dialect.radial.letter)],
                   static_cast<double>(moves[i].to.radial) * path.grid.radial_step / unit, 6e-5);
        CHECK_NEAR(read.at[axis_of(dialect.axial.letter)],
                   static_cast<double>(moves[i].to.axial) * path.grid.axial_step / unit, 6e-5);
        CHECK_NEAR(read.at[axis_of(dialect.rotary.letter)],
                   static_cast<double>(moves[i].to.rotary) * path.grid.rotary_step, 6e-5);
        if (moves[i].kind == MoveKind::rapid || !(read.seconds_error < 0.05 * moves[i].seconds)) continue;
        CHECK_NEAR(read.seconds, moves[i].seconds, read.seconds_error + 2e-4 * moves[i].seconds);
        ++timed;
    }
    CHECK(timed > 20);
}

}  // namespace

TEST_CASE("an open interpreter takes every program of the rs274ngc family, and moves where its words say",
          "[outside]") {
    if (!outside::installed()) return outside::say_skipped();
    for (const std::string& name : shipped_names()) {
        if (name.rfind("rs274ngc", 0) != 0) continue;
        check_moves(shipped_dialect(name), Units::mm);
        check_moves(shipped_dialect(name), Units::inch);
    }
}

TEST_CASE(
    "an open interpreter takes a program from home with its length on, and changes the tool before it moves",
    "[outside]") {
    if (!outside::installed()) return outside::say_skipped();
    Job job = hand_job();
    job.cutters["disc32"].number = job.cutters["disc32"].offset_number = 7;
    job.machine->tool_change.reset();
    const Dialect dialect = taken(read_dialect(guide_dialect_text(), "own.toml"));
    const outside::Reading reading =
        outside::interpret(taken(write_program(job, hand_lobes(), hand_path(job, dialect), dialect)));
    INFO(reading.error);
    REQUIRE(reading.accepted());
    const auto call = [&](const std::string& name) {
        const auto found = std::find_if(reading.calls.begin(), reading.calls.end(),
                                        [&](const std::string& each) { return each.find(name) == 0; });
        return found - reading.calls.begin();
    };
    CHECK(call("CHANGE_TOOL") < call("STRAIGHT_FEED"));
    CHECK(call("START_SPINDLE_CLOCKWISE") < call("STRAIGHT_FEED"));
    CHECK(call("STRAIGHT_FEED") < static_cast<long>(reading.calls.size()));
    // Home in two lines; the spindle is waited for; X, Y, A and Z to the start.
    REQUIRE(reading.moves.size() > 7);
    CHECK_NEAR(reading.moves[6].at[axis_of('Z')], 27.5, 1e-4);
    CHECK(reading.moves[5].at[axis_of('Z')] == reading.moves[3].at[axis_of('Z')]);
}

TEST_CASE("an open interpreter takes feed per minute by the linear-only rule for the time that was planned",
          "[outside]") {
    if (!outside::installed()) return outside::say_skipped();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.feed_mode = FeedMode::per_minute;
    check_moves(dialect, Units::mm);
}

TEST_CASE("an open interpreter takes a program with block numbers, percent lines and blending", "[outside]") {
    if (!outside::installed()) return outside::say_skipped();
    Job job = hand_job();
    job.title = "Basalt (four) 100 %; \u00B5";
    job.cut->blend = 0.0005;
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.block_numbers = true;
    dialect.percent_lines = true;
    dialect.line_end = LineEnd::crlf;
    dialect.spaces = false;
    dialect.program_number = "O1001";
    Toolpath path = hand_path(job, dialect);
    path.grid = word_grid(dialect, job.units, job.cut->blend);
    const auto program = write_program(job, hand_lobes(), path, dialect);
    REQUIRE(program.ok());
    const outside::Reading reading = outside::interpret(*program);
    INFO(reading.error);
    CHECK(reading.accepted());
}
