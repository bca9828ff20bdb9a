#include "catch.h"
#include "proof_case.h"

#include <lobewright/program_reader.h>

#include <cmath>

using namespace lobewright;

namespace {

Dialect xza() {
    return shipped_dialect("rs274ngc-xza");
}

ReadProgram read(const std::string& text, const Dialect& dialect,
                 BlockDelete block_delete = BlockDelete::off) {
    auto program = read_program(text, "program.ngc", dialect, Units::mm, block_delete);
    std::string complaints;
    for (const Diagnostic& error : program.diagnostics())
        complaints += to_text(error) + '\n';
    INFO(complaints);
    REQUIRE(program.ok());
    return std::move(program).value();
}

const std::string start = "G18 G21 G90\nG54 G61\nS100 M3\nG0 X40\nG0 Z20\nG0 A0\n";
constexpr std::size_t start_moves = 3;

}  // namespace

TEST_CASE("places are unknown until the program names them") {
    const ReadProgram program = read(start + "M2\n", xza());
    REQUIRE(program.moves.size() == start_moves);
    CHECK(program.moves[0].radial == 40.0);
    CHECK(std::isnan(program.moves[0].axial));
    CHECK(std::isnan(program.moves[1].rotary));
    CHECK(program.moves[2].rotary == 0.0);
}

TEST_CASE("in inverse time F is one over the block's minutes, or its seconds, by the dialect") {
    Dialect dialect = xza();
    const std::string text = start + "G93\nG1 X39 A10 F2\nX38 F30\nM2\n";
    CHECK(read(text, dialect).moves[start_moves].seconds ==
          30.0);  // NIST IR 6556 3.5.19: F2.0 is half a minute
    CHECK(read(text, dialect).moves[start_moves + 1].seconds == 2.0);
    dialect.inverse_unit = InverseUnit::seconds;
    CHECK(read(text, dialect).moves[start_moves].seconds == 2.0);
}

TEST_CASE("feed per minute counts the way by the dialect's rule, in the program's unit") {
    Dialect dialect = xza();
    const std::string text = start + "G94\nG1 X37 A40 F10\nA45\nM2\n";
    CHECK_NEAR(read(text, dialect).moves[start_moves].seconds, 18.0, 1e-12);  // 3 mm at 10 mm/min
    CHECK_NEAR(read(text, dialect).moves[start_moves + 1].seconds, 30.0,
               1e-12);  // 5 degrees at 10 degrees/min
    dialect.feed_counts = FeedCounts::mixed;
    CHECK_NEAR(read(text, dialect).moves[start_moves].seconds, 6.0 * std::sqrt(9.0 + 1600.0), 1e-12);
    const std::string inch = start + "G20 G94\nG1 X1 F10\nM2\n";
    CHECK_NEAR(read(inch, dialect).moves[start_moves].seconds, 6.0 * (40.0 / 25.4 - 1.0), 1e-12);
}

TEST_CASE("feed per turn counts the spindle's speed") {
    const ReadProgram program = read(start + "G95 G1 X39 F0.5\nM2\n", xza());
    CHECK_NEAR(program.moves[start_moves].seconds, 60.0 / (0.5 * 100.0), 1e-12);
}

TEST_CASE("a diameter is halved, a degree is never scaled by the unit") {
    const ReadProgram program = read("G18 G20 G90\nG7 G54 G61\nG0 X2\nG0 Z1\nG0 C90\nG8 G0 X2 C91\nM2\n",
                                     shipped_dialect("rs274ngc-xzc"));
    CHECK(program.moves[0].radial == 25.4);
    CHECK(program.moves[1].axial == 25.4);
    CHECK(program.moves[2].rotary == 90.0);
    CHECK(program.moves[3].radial == 50.8);
    CHECK(program.moves[3].rotary == 91.0);
}

TEST_CASE("a folded rotary axis runs on in the reading: the shorter way, or by the word's sign") {
    Dialect dialect = xza();
    dialect.rotary_range = RotaryRange::folded;
    dialect.longest_rotary_block = 179.0;
    const std::string turns =
        "G21 G90\nG0 X40\nG0 Z1\nG0 A350\nG0 A10\nG0 A120\nG0 A240\nG0 A0\nG0 A200\nM2\n";
    const ReadProgram shorter = read(turns, dialect);
    const double wanted[] = {350.0, 370.0, 480.0, 600.0, 720.0, 560.0};
    for (std::size_t i = 0; i < std::size(wanted); ++i)
        CHECK_NEAR(shorter.moves[i + 2].rotary, wanted[i], 1e-9);

    dialect.at_fold = RotaryFold::by_sign;
    dialect.longest_rotary_block = 350.0;
    const ReadProgram signed_words =
        read("G21 G90\nG0 X40\nG0 Z1\nG0 A350\nG0 A10\nG0 A-300\nG0 A-360\nG0 A360\nM2\n", dialect);
    const double wanted_signed[] = {350.0, 370.0, 300.0, 0.0, 0.0};
    for (std::size_t i = 0; i < std::size(wanted_signed); ++i) {
        CHECK_NEAR(signed_words.moves[i + 2].rotary, wanted_signed[i], 1e-9);
    }
}

TEST_CASE("a block that fails changes nothing") {
    // G91 must not stay from the line that fails: X5 below is absolute, and no third complaint comes.
    const auto read = read_program(start + "G91 G1 X1 Y1 F10\nG93\nG1 X5 F60\nG1 X1\nM2\n", "program.ngc",
                                   xza(), Units::mm);
    REQUIRE_FALSE(read.ok());
    REQUIRE(read.diagnostics().size() == 2);
    CHECK(read.diagnostics()[1].place.line == 10);
}

TEST_CASE("a dwell comes before the block's motion, the program's end after it") {
    const ReadProgram program = read(start + "G93 G1 X39 F60\nG4 P2 X38 F60 M2\nG0 X1\n", xza());
    REQUIRE(program.moves.size() == start_moves + 3);
    CHECK(program.moves[start_moves + 1].kind == ReadMoveKind::dwell);
    CHECK(program.moves[start_moves + 1].seconds == 2.0);
    CHECK(program.moves[start_moves + 2].radial == 38.0);
    CHECK(program.ended);
}

TEST_CASE("a tool change stops the spindle") {
    const ReadProgram program = read(start + "M6 T1\nG93 G1 X39 F60\nM2\n", xza());
    CHECK(program.moves[start_moves - 1].spindle_on);
    CHECK_FALSE(program.moves[start_moves].spindle_on);
}

TEST_CASE("lines with a slash are read or passed over by the switch") {
    const std::string text = start + "/G0 X41\nM2\n";
    CHECK(read(text, xza()).moves.size() == start_moves + 1);
    CHECK(read(text, xza()).deletable);
    CHECK(read(text, xza(), BlockDelete::on).moves.size() == start_moves);
}

TEST_CASE("what stands after the end, or after the closing percent, is not read") {
    CHECK(read("%\nG21 G90\n%\n?!\n", xza()).blocks == 1);
    CHECK_FALSE(read("%\nG21 G90\n%\n?!\n", xza()).ended);
    CHECK(read("G21 G90\nM30\n?!\n", xza()).ended);
}

TEST_CASE("blending is told with its tolerance, in millimetres, as far as it cuts") {
    const ReadProgram program = read(start + "G20 G64 P0.01\nG93 G1 X1.5 F60\nM2\n", xza());
    CHECK_NEAR(program.blend_tolerance, 0.254, 1e-12);
    CHECK(program.unbounded_blend_line == 0);
    CHECK(read(start + "G64\nG93 G1 X39 F60\nM2\n", xza()).unbounded_blend_line == 8);
    CHECK(read(start + "G93 G1 X39 F60\nG64\nM2\n", xza()).unbounded_blend_line == 0);
}

TEST_CASE("a number means the same in every spelling") {
    for (const char* word : {"X12.5", "x12.5", "X 12.5", "X1 2 . 5", "X+12.5", "X0012.5000000000000000000",
                             "X12.500", "X\t12.5"}) {
        INFO(word);
        CHECK(read(std::string("G21 G90\nG0 ") + word + "\nM2\n", xza()).moves[0].radial == 12.5);
    }
    CHECK(read("G21 G90\nG0 X-.5\nM2\n", xza()).moves[0].radial == -0.5);
    CHECK(read("G21 G90\nG0 X5.\nM2\n", xza()).moves[0].radial == 5.0);
    CHECK(read("G21 G90\nG0 X0.1234567890123456789\nM2\n", xza()).moves[0].radial == 0.1234567890123456789);
}
