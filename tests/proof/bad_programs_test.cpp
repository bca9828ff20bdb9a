/// Bad programs, one cause each: the reader must name the cause by its stable code, and the place to the
/// column.
///
/// Causes follow NIST IR 6556 (the standard's own interpreter has an error for each) and what this project
/// adds: words that can't be simulated, modes that nothing set, limits of the dialect.
#include "catch.h"
#include "guide_dialect.h"
#include "proof_case.h"

#include <lobewright/program_reader.h>

using namespace lobewright;

namespace {

/// A line that is wrong by itself, after a sound beginning of `prelude_lines` lines.
struct BadLine {
    const char* line;
    const char* code;
    int column;
};

const std::string prelude = "G18 G21 G90\nG54 G61\nS100 M3\nG0 X40\nG0 Z20\nG0 A0\nG93\n";
constexpr int prelude_lines = 7;

std::string all_errors(const Outcome<ReadProgram>& read) {
    std::string text;
    for (const Diagnostic& error : read.diagnostics())
        text += error.code + ": " + to_text(error) + '\n';
    return text;
}

void check_bad(const std::string& program, const Dialect& dialect, const std::string& code, int line,
               int column, Units units = Units::mm) {
    const auto read = read_program(program, "bad.ngc", dialect, units);
    INFO(program << "\n" << all_errors(read));
    CHECK_FALSE(read.ok());
    if (read.ok()) return;
    const Diagnostic& first = read.diagnostics().front();
    CHECK(first.code == code);
    CHECK(first.place.file == "bad.ngc");
    CHECK(first.place.line == line);
    CHECK(first.place.column == column);
    CHECK_FALSE(first.what.empty());
    CHECK_FALSE(first.remedy.empty());
    CHECK(first.fault == Fault::bad_input);
}

// clang-format off
constexpr BadLine wrong_words[] = {
    // letters and characters
    {"G1 X39 U1 F60", "unknown-letter", 8},
    {"G1 X39 Y1 F60", "unknown-letter", 8},          // the dialect's axes are X, Z and A
    {"G1 X39 B1 F60", "unknown-letter", 8},
    {"G1 X39 C1 F60", "unknown-letter", 8},
    {"G1 V1 X39 F60", "unknown-letter", 4},
    {"G1 W1 F60", "unknown-letter", 4},
    {"G1 X39 E1 F60", "unknown-letter", 8},
    {"G1 X39 D1 F60", "unknown-letter", 8},
    {"G1 X39 H1 F60", "unknown-letter", 8},
    {"G1 X39 L2 F60", "unknown-letter", 8},
    {"G1 X39 F60 ^", "bad-character", 12},
    {"G1 X39 F60 *71", "bad-character", 12},          // a checksum
    {"G1 X39,5 F60", "bad-character", 7},             // a decimal comma
    {"G1 X39 F60 $", "bad-character", 12},
    {"\"G1 X39 F60", "bad-character", 1},
    {"G1 X39 F60 \x1a", "bad-character", 12},
    {"G1 X39 F60 \xC2\xB0", "bad-character", 12},      // a degree sign
    {"\xC2\xB5 G1 X39 F60", "bad-character", 1},
    {"G1 X39 \rF60", "bad-character", 8},
    {"G1 X39 F60 ! ", "bad-character", 12},
    {"1 X39", "bad-character", 1},
    {"X39 .5.5", "bad-character", 7},
    {"G1 X3.9.5 F60", "bad-character", 8},
    {"G1 X3-9 F60", "bad-character", 6},
    // numbers
    {"G1 X F60", "no-number", 6},
    {"G1 X. F60", "no-number", 7},
    {"G1 X- F60", "no-number", 7},
    {"G1 X+ F60", "no-number", 7},
    {"G1 X--1 F60", "no-number", 6},
    {"G1 X+-1 F60", "no-number", 6},
    {"G1 X39 F", "no-number", 9},
    {"G", "no-number", 2},
    {"M", "no-number", 2},
    {"S", "no-number", 2},
    {"N", "no-number", 2},
    {"T", "no-number", 2},
    {"G1 X1e1 F60", "unknown-letter", 6},              // no exponents
    {"G1 X0x10 F60", "word-twice", 6},                 // "X0", then "x10"
    {"G1 Xinf F60", "no-number", 5},
    {"G1 Xnan F60", "no-number", 5},
    {"G1 X1e-05 F60", "unknown-letter", 6},
    {"G1 X10000000000 F60", "number-too-large", 5},
    {"G1 X10000000000000000 F60", "number-too-large", 5},
    {"G1 X-10000000000000000 F60", "number-too-large", 5},
    {"G1 X00000000000000000000000000000000000000000000000000000000000000000000000000000001.0000000000000000 F60", "number-too-long", 5},
    {"N1.5 G1 X39 F60", "not-whole", 1},
    {"N-1 G1 X39 F60", "not-whole", 1},
    {"N100000 G1 X39 F60", "line-number-too-large", 1},
    {"T1.5", "not-whole", 1},
    {"T-1", "not-whole", 1},
    // order and number of words
    {"G1 N10 X39 F60", "number-not-first", 4},
    {"X39 N10", "number-not-first", 5},
    {"M8 N10", "number-not-first", 4},
    {"N10 N20 G1 X39 F60", "number-not-first", 5},
    {"G1 X39 X38 F60", "word-twice", 8},
    {"G1 A1 A2 F60", "word-twice", 7},
    {"G1 Z1 Z1 F60", "word-twice", 7},
    {"G1 X39 F60 F60", "word-twice", 12},
    {"S100 S200", "word-twice", 6},
    {"T1 T2", "word-twice", 4},
    {"G4 P1 P2", "word-twice", 7},
    {"G1 X39 F60 /", "slash-not-first", 12},
    {"N10 / G1 X39 F60", "slash-not-first", 5},
    {"//G1 X39 F60", "slash-not-first", 2},
    {"M3 M8 M6 M48 M0", "too-many-m", 14},
    // codes
    {"G5", "cannot-simulate", 1},
    {"G6", "unknown-code", 1},
    {"G11", "unknown-code", 1},
    {"G99.9", "unknown-code", 1},
    {"G100", "unknown-code", 1},
    {"G-1", "unknown-code", 1},
    {"G1.5 X39 F60", "unknown-code", 1},
    {"G1.05 X39 F60", "unknown-code", 1},
    {"G71", "unknown-code", 1},                         // other dialects' millimetres
    {"G70", "unknown-code", 1},
    {"G7", "unknown-code", 1},                          // the dialect has no diameters
    {"G8", "unknown-code", 1},
    {"M10", "unknown-code", 1},
    {"M29", "unknown-code", 1},
    {"M77", "unknown-code", 1},
    {"M100", "unknown-code", 1},
    {"M3.5", "unknown-code", 1},
    {"M-3", "unknown-code", 1},
    {"M1000", "unknown-code", 1},
    {"G10 P1", "cannot-simulate", 1},
    {"G28 X0", "cannot-simulate", 1},
    {"G28.1", "cannot-simulate", 1},
    {"G30 X0", "cannot-simulate", 1},
    {"G33 Z1 K1", "cannot-simulate", 1},
    {"G38.2 X0 F60", "cannot-simulate", 1},
    {"G41", "cannot-simulate", 1},
    {"G42", "cannot-simulate", 1},
    {"G41.1", "cannot-simulate", 1},
    {"G43", "cannot-simulate", 1},
    {"G43.1 Z1", "cannot-simulate", 1},
    {"G50", "cannot-simulate", 1},
    {"G51", "cannot-simulate", 1},
    {"G52 X1", "cannot-simulate", 1},
    {"G53 G0 X40", "cannot-simulate", 1},
    {"G68 R10", "cannot-simulate", 1},
    {"G73 X1", "cannot-simulate", 1},
    {"G76", "cannot-simulate", 1},
    {"G81 X30 R1 F60", "cannot-simulate", 1},
    {"G83 X30 Q1 R1 F60", "cannot-simulate", 1},
    {"G89 X30", "cannot-simulate", 1},
    {"G90.1", "cannot-simulate", 1},
    {"G92 X0", "cannot-simulate", 1},
    {"G92.1", "cannot-simulate", 1},
    {"G92.2", "cannot-simulate", 1},
    {"G92.3", "cannot-simulate", 1},
    {"G96 S100", "cannot-simulate", 1},
    {"M60", "cannot-simulate", 1},
    {"M98 P1", "cannot-simulate", 1},
    {"M99", "cannot-simulate", 1},
    {"G55", "work-offset", 1},
    {"G59", "work-offset", 1},
    {"G59.1", "work-offset", 1},
    {"G59.3", "work-offset", 1},
    // one word of a modal group
    {"G0 G1 X39", "one-of-a-group", 4},
    {"G1 G1 X39 F60", "one-of-a-group", 4},
    {"G2 G3 X39 I1 F60", "one-of-a-group", 4},
    {"G1 G80 X39 F60", "one-of-a-group", 4},
    {"G17 G18", "one-of-a-group", 5},
    {"G90 G91", "one-of-a-group", 5},
    {"G93 G94", "one-of-a-group", 5},
    {"G94 G95", "one-of-a-group", 5},
    {"G20 G21", "one-of-a-group", 5},
    {"G61 G64", "one-of-a-group", 5},
    {"G61 G61.1", "one-of-a-group", 5},
    {"G98 G99", "one-of-a-group", 5},
    {"G54 G54", "one-of-a-group", 5},
    {"G40 G40", "one-of-a-group", 5},
    {"M3 M4", "one-of-a-group", 4},
    {"M3 M5", "one-of-a-group", 4},
    {"M8 M9", "one-of-a-group", 4},
    {"M0 M1", "one-of-a-group", 4},
    {"M2 M30", "one-of-a-group", 4},
    {"M48 M49", "one-of-a-group", 5},
    // comments, expressions, subprograms, percent
    {"G1 X39 F60 (left", "comment-open", 12},
    {"G1 X39 F60 (a (b) c)", "comment-in-comment", 15},
    {"G1 X39 F60 )", "no-such-comment", 12},
    {"G1 X39 F60 ; left", "no-such-comment", 12},
    {"G1 X#1 F60", "expression", 5},
    {"#1=5", "expression", 1},
    {"G1 X[1+2] F60", "expression", 5},
    {"G1 X39 F60 [", "expression", 12},
    {"X<place>", "no-number", 2},
    {"<place>", "expression", 1},
    {"O100 sub", "subprogram", 1},
    {"O100 call", "subprogram", 1},
    {"O<cut> call", "subprogram", 1},
    {"O#1 if", "subprogram", 1},
    {"O1.5", "not-whole", 1},
    {"O", "no-number", 2},
    {"G1 O1 X39", "program-number-and-words", 4},
    {"%", "stray-percent", 1},
    {"% G1", "percent-and-words", 1},
    {"G1 X39 F60 %", "percent-and-words", 12},
    // words that nothing uses, motion without axes and axes without motion
    {"G1 X39 I1 F60", "unused-word", 8},
    {"G1 X39 J1 F60", "unused-word", 8},
    {"G1 X39 K1 F60", "unused-word", 8},
    {"G1 X39 P1 F60", "unused-word", 8},
    {"G1 X39 Q1 F60", "unused-word", 8},
    {"G1 X39 R1 F60", "unused-word", 8},
    {"G0 X39 P1", "unused-word", 8},
    {"P1", "unused-word", 1},
    {"G4 P1 Q1", "unused-word", 7},
    {"M3 P1", "unused-word", 4},
    {"G2 X39 I1 J1 F60", "unused-word", 11},
    {"G1 F60", "motion-without-axis", 1},
    {"G0", "motion-without-axis", 1},
    {"G2 I1 F60", "unused-word", 4},
    {"G80 X39", "axis-without-motion", 5},
    // feeds
    {"G1 X39", "feed-missing", 4},
    {"G1 X39 F0", "feed-zero", 8},
    {"G1 X39 F-60", "feed-negative", 8},
    {"F-1", "feed-negative", 1},
    {"G94 G1 X39", "feed-missing", 8},
    {"G94 G1 X39 F0", "feed-zero", 12},
    {"G95 G1 X39", "feed-missing", 8},
    {"G95 M5 G1 X39 F0.1", "spindle-stands", 15},
    {"S-100", "speed-negative", 1},
    // dwells
    {"G4", "dwell-without-p", 1},
    {"G4 X1", "dwell-without-p", 1},
    {"G4 P-1", "dwell-negative", 4},
    // arcs; the machine stands at X40 Z20, G18
    {"G2 X39 Z20 F60", "arc-without-centre", 4},
    {"G2 A10 I1 F60", "arc-with-rotary", 4},
    {"G2 A0 I1 F60", "arc-without-end", 4},            // the shaft stands at A0 already
    {"G17 G2 X39 I1 F60", "arc-plane", 8},
    {"G19 G3 Z19 K1 F60", "arc-plane", 8},
    {"G2 X39 Z20 I-0.5 R1 F60", "arc-centre-twice", 18},
    {"G2 X39 Z20 I-0.4 F60", "arc-radius", 12},
    {"G2 X39 Z20 I-0.503 F60", "arc-radius", 12},
    {"G2 X39 Z20 I0 K0 F60", "arc-radius", 12},
    {"G2 X39 Z20 R0.4 F60", "arc-radius", 12},
    {"G2 X40 Z20 R5 F60", "arc-radius", 12},
    {"G2 X40.001 Z20 I-5 F60", "arc-turn", 4},
    {"G3 X39.999 Z20 I-5 F60", "arc-turn", 4},
    {"G2 X40 Z20.001 I-1000 F60", "arc-turn", 4},
    {"G3 X40 Z20.001 R1000 F60", "arc-turn", 4},
    {"G2 X39 A5 I-0.5 F60", "arc-with-rotary", 4},
    {"G2 X39 Z20 I-0.5", "feed-missing", 4},
    {"G64 P-1", "blend-negative", 5},
    {"G64 P1 Q-1", "blend-negative", 5},
};
// clang-format on

Dialect xza() {
    return shipped_dialect("rs274ngc-xza");
}

}  // namespace

TEST_CASE("a line that is wrong by itself is named by its cause and its place") {
    const Dialect dialect = xza();
    for (const BadLine& bad : wrong_words) {
        check_bad(prelude + bad.line + "\nM30\n", dialect, bad.code, prelude_lines + 1, bad.column);
    }
    CHECK(std::size(wrong_words) >= 150);
}

// By the standard's list of words; ranges stand for all words of one kind.
TEST_CASE("next to the words that no proof can follow stand words that nobody knows") {
    const Dialect dialect = xza();
    for (const char* word :
         {"G4.9",  "G5.4",  "G9.9",  "G10.1", "G27.9", "G28.2", "G29.9", "G30.2", "G32.9", "G33.2",
          "G38.1", "G38.6", "G40.9", "G41.2", "G41.9", "G42.2", "G42.9", "G43.3", "G49.9", "G51.4",
          "G51.9", "G52.1", "G52.9", "G53.1", "G67.9", "G69.1", "G72.9", "G73.1", "G75.9", "G76.1",
          "G80.9", "G89.1", "G90.2", "G91.9", "G92.4", "G95.9", "G96.1", "M59",   "M61",   "M97"}) {
        INFO(word);
        check_bad(prelude + word + "\nM30\n", dialect, "unknown-code", prelude_lines + 1, 1);
    }
}

TEST_CASE("what the program never set is asked for where it first counts") {
    const Dialect dialect = xza();
    check_bad("G90\nG0 X40\n", dialect, "units-not-set", 2, 4);
    check_bad("G21\nG0 X40\n", dialect, "distance-mode-not-set", 2, 4);
    check_bad("G21 G90\nX40\n", dialect, "axis-without-motion", 2, 1);
    check_bad("G18 G21 G90\nG61 G93\nG1 X40 F60\n", dialect, "place-unknown", 3, 4);
    check_bad("G21 G90 G61 G93\nG0 X40\nG0 Z1\nG1 X39 F60\n", dialect, "place-unknown", 4, 4);
    check_bad("G21 G91 G0 X40\n", dialect, "place-unknown", 1, 12);
    check_bad("G21 G90 G0 X40 Z1\nG91 G0 A1\n", dialect, "place-unknown", 2, 8);
    check_bad("G21 G90 G93\nG0 X40 Z1 A0\nG1 X39 F60\n", dialect, "path-mode-not-set", 3, 4);
    check_bad("G21 G90 G54 G61\nG0 X40 Z1 A0\nG1 X39 F60\n", dialect, "feed-mode-not-set", 3, 8);
    check_bad("G21 G90 G54 G61 G93\nG0 X40 Z1 A0\nG2 X39 I-0.5 F60\n", dialect, "arc-plane", 3, 4);
    check_bad("G21 G90 G61 G93\nG0 X40 Z1 A0\nG1 X39 F60\n", dialect, "offset-not-set", 3, 4);
    check_bad("G64 P0.1\n", dialect, "units-not-set", 1, 5);
}

TEST_CASE("a feed is forgotten where its mode or its unit changes") {
    const Dialect dialect = xza();
    const std::string start = "G18 G21 G90\nG54 G61\nG0 X40 Z1 A0\n";
    check_bad(start + "G94 F100\nG20\nG1 X1.5\n", dialect, "feed-missing", 6, 4);
    check_bad(start + "G94 F100\nG93\nG94\nG1 X39\n", dialect, "feed-missing", 7, 4);
    check_bad(start + "G93\nG1 X39 F60\nX38\n", dialect, "feed-missing", 6, 1);
}

TEST_CASE("the tool may change before the first cut alone") {
    check_bad(prelude + "G1 X39 F60\nT2 M6\n", xza(), "tool-change", 9, 4);
}

TEST_CASE("a length that is put on needs its number, a whole one") {
    const Dialect own = taken(read_dialect(guide_dialect_text(), "own.toml"));
    check_bad("G43\n", own, "length-unnamed", 1, 1);
    check_bad("T1 M6\nG43 H1.5\n", own, "not-whole", 2, 5);
    check_bad("T1 M6\nG43 H-1\n", own, "not-whole", 2, 5);
}

TEST_CASE("the side axis goes to its place at rapid, and stands there while the cutter feeds") {
    const Dialect own = taken(read_dialect(guide_dialect_text(), "own.toml"));
    const std::string start = "G21 G90\nG54 G61\nG0 Z40\nG0 X20\nG0 A0\n";
    check_bad(start + "G93\nG1 Z39 F60\n", own, "place-unknown", 7, 4);
    check_bad(start + "G0 Y4\nG93\nG1 Z39 Y4.001 F60\n", own, "side-axis-feeds", 8, 8);
    CHECK(read_program(start + "G0 Y4\nG93\nG1 Z39 Y4 F60\nM30\n", "good.ngc", own, Units::mm).ok());
}

TEST_CASE("a line longer than the controller takes is refused at the first character too many") {
    const std::string comment(251, 'a');
    const auto fits = read_program("(" + comment.substr(1) + ")\nM30\n", "long.ngc", xza(), Units::mm);
    CHECK(fits.ok());
    check_bad("(" + comment + ")\n", xza(), "line-too-long", 1, 253);
}

TEST_CASE("a column counts characters, not bytes") {
    check_bad(prelude + "G1 (\xC2\xB5m) X39 Y1 F60\n", xza(), "unknown-letter", 8, 13);
}

TEST_CASE("a NUL and a byte order mark are no characters of a program") {
    check_bad(std::string("G1 X1\0X2\n", 9), xza(), "bad-character", 1, 6);
    check_bad(std::string("(a\0b)\n", 6), xza(), "bad-character", 1, 3);
    check_bad("\xEF\xBB\xBFG21\n", xza(), "bad-character", 1, 1);
}

TEST_CASE("a control character in a comment is refused: a controller may take what follows for words") {
    for (const char control : {'\r', '\x01', '\x0b', '\x1a', '\x1b', '\x7f'}) {
        INFO(static_cast<int>(control));
        check_bad(std::string("G21 (a") + control + "G0 X0)\n", xza(), "bad-character", 1, 7);
    }
    Dialect semicolons = xza();
    semicolons.comments = CommentStyle::semicolon;
    check_bad("G21 ; a\rG0 X0\n", semicolons, "bad-character", 1, 8);
    CHECK(read_program("G21 ; a\tb\r\nM30\r\n", "tab.ngc", semicolons, Units::mm).ok());
    CHECK(read_program("(a\tb)\r\nM30\r\n", "tab.ngc", xza(), Units::mm).ok());
}

TEST_CASE("a dialect's limits are the reader's") {
    Dialect small = shipped_dialect("plain-xa");
    const std::string start = "G21 G90\nG0 X40\nG0 Z1\nG0 A0\nG94\n";
    check_bad(start + "G2 X39 F100\n", small, "not-in-dialect", 6, 1);
    check_bad(start + "G93\n", small, "not-in-dialect", 6, 1);
    check_bad(start + "(note)\n", small, "no-such-comment", 6, 1);
    check_bad(start + "G1 X39 F0.0001\n", small, "feed-out-of-range", 6, 8);
    check_bad(start + "G1 X39 Z1 A0 F100                                               \n", small,
              "line-too-long", 6, 61);
    small.feed_counts.reset();
    check_bad(start + "G1 X39 A1 F100\n", small, "feed-rule-unknown", 6, 11);
    small.only_units = Units::mm;
    check_bad("G20\n", small, "wrong-units", 1, 1);

    Dialect lathe = shipped_dialect("rs274ngc-xzc");
    check_bad("G18 G21 G90\nG0 X40\n", lathe, "diameter-mode-not-set", 2, 4);
    Dialect iso = shipped_dialect("iso6983-xzc");
    check_bad("G20\n", iso, "unknown-code", 1, 1);
    check_bad("G18 G71 G90 G54\nG0 X80\nG0 Z1\nG0 C0\nG94\nG1 X79 F100000\n", iso, "feed-out-of-range", 6, 8);
    check_bad("G71 G90\nG0 C100000\n", iso, "rotary-word-too-large", 2, 4);
}

TEST_CASE("a folded rotary axis goes the way its rule says, or the block is refused") {
    Dialect dialect = xza();
    dialect.rotary_range = RotaryRange::folded;
    dialect.longest_rotary_block = 179.0;
    const std::string start = "G21 G90\nG0 X40\nG0 Z1\nG0 A350\n";
    check_bad(start + "G0 A360\n", dialect, "rotary-word-out-of-range", 5, 4);
    check_bad(start + "G0 A-10\n", dialect, "rotary-word-out-of-range", 5, 4);
    check_bad(start + "G0 A170\n", dialect, "rotary-way-unclear", 5, 4);
    check_bad(start + "G0 A170.5\n", dialect, "rotary-block-too-long", 5, 4);
    check_bad(start + "G91 G0 A1\n", dialect, "place-unknown", 5, 8);
    dialect.at_fold = RotaryFold::by_sign;
    dialect.longest_rotary_block = 300.0;
    check_bad(start + "G0 A0\n", dialect, "rotary-word-out-of-range", 5, 4);
    check_bad(start + "G0 A361\n", dialect, "rotary-word-out-of-range", 5, 4);
    check_bad(start + "G0 A349\n", dialect, "rotary-block-too-long", 5, 4);
    dialect = xza();
    dialect.longest_rotary_block = 90.0;
    check_bad(start + "G0 A259\n", dialect, "rotary-block-too-long", 5, 4);
}

TEST_CASE("all errors of a program come in one run, each line's first") {
    const auto read =
        read_program(prelude + "G1 X39 Y1 U2 F60\nG1 X38 F60\nG1 X37\n", "bad.ngc", xza(), Units::mm);
    REQUIRE_FALSE(read.ok());
    REQUIRE(read.diagnostics().size() == 2);
    CHECK(read.diagnostics()[0].place.line == 8);
    CHECK(read.diagnostics()[1].place.line == 10);
    CHECK(read.diagnostics()[1].code == "feed-missing");
}

TEST_CASE("a program of nothing but errors stops at the hundredth") {
    std::string text;
    for (int i = 0; i < 500; ++i)
        text += "?\n";
    const auto read = read_program(text, "bad.ngc", xza(), Units::mm);
    REQUIRE_FALSE(read.ok());
    CHECK(read.diagnostics().size() == 100);
}
