#include "catch.h"
#include "hand_path.h"

#include <lobewright/program_reader.h>
#include <lobewright/program_writer.h>

#include <cmath>

using namespace lobewright;

namespace {

/// The path that a program's moves describe, with the passes of the path that it was written from.
Toolpath path_of(const ReadProgram& program, const Toolpath& original, const Dialect& dialect) {
    const std::size_t begin =
        dialect.side ? 6 : 5;       // the ways to the tool's place and to the start, an axis each
    constexpr std::size_t end = 2;  // and back to the tool's place
    Toolpath path = original;
    path.moves.clear();
    for (std::size_t i = begin; i + end < program.moves.size(); ++i) {
        const ReadMove& move = program.moves[i];
        path.moves.push_back({move.kind == ReadMoveKind::rapid ? MoveKind::rapid : MoveKind::feed,
                              {std::llround(move.radial / path.grid.radial_step),
                               std::llround(move.axial / path.grid.axial_step),
                               std::llround(move.rotary / path.grid.rotary_step)},
                              move.seconds});
    }
    return path;
}

void check_round_trip(const Dialect& dialect, Units units) {
    const Job job = hand_job(units);
    Toolpath path = hand_path(job, dialect);
    const auto written = write_program(job, hand_lobes(), path, dialect);
    REQUIRE(written.ok());
    const auto read = read_program(*written, "program.ngc", dialect, units);
    INFO(dialect.name << "\n" << *written);
    if (!read) FAIL(to_text(read.diagnostics().front()));
    CHECK(read->ended);
    CHECK(read->spindle_speed == 3000.0);
    Toolpath again = path_of(*read, path, dialect);
    REQUIRE(again.moves.size() == path.moves.size());
    for (std::size_t i = 0; i < path.moves.size(); ++i) {
        CAPTURE(i);
        CHECK((again.moves[i].kind == path.moves[i].kind));
        CHECK((again.moves[i].to == path.moves[i].to));
        if (path.moves[i].kind == MoveKind::rapid) continue;
        CHECK(again.moves[i].seconds >= path.moves[i].seconds * (1.0 - 1e-11));
        CHECK(again.moves[i].seconds <= path.moves[i].seconds * 1.01);
    }
    const auto rewritten = write_program(job, hand_lobes(), again, dialect);
    REQUIRE(rewritten.ok());
    CHECK(*rewritten == *written);
}

}  // namespace

TEST_CASE("write, read, write again is a fixed point in every shipped dialect") {
    for (const std::string& name : shipped_names()) {
        check_round_trip(shipped_dialect(name), Units::mm);
        check_round_trip(shipped_dialect(name), Units::inch);
    }
}

TEST_CASE(
    "write, read, write again is a fixed point with a folded rotary axis, seconds and linear-only feed") {
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.rotary_range = RotaryRange::folded;
    dialect.longest_rotary_block = 179.0;
    check_round_trip(dialect, Units::mm);
    dialect.at_fold = RotaryFold::by_sign;
    dialect.longest_rotary_block = 350.0;
    check_round_trip(dialect, Units::mm);
    dialect.inverse_unit = InverseUnit::seconds;
    check_round_trip(dialect, Units::inch);
    dialect = shipped_dialect("rs274ngc-xza");
    dialect.feed_mode = FeedMode::per_minute;
    check_round_trip(dialect, Units::mm);
    check_round_trip(dialect, Units::inch);
}
