/// The reader against an open interpreter of the same standard: what both accept, and what it refuses.
#include "catch.h"
#include "outside_interpreter.h"
#include "proof_case.h"
#include "random_program.h"

#include <lobewright/program_reader.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>

using namespace lobewright;

namespace {

std::size_t axis_of(char letter) {
    return std::string("XYZABC").find(letter);
}

outside::Kind kind_of(ReadMoveKind kind) {
    switch (kind) {
        case ReadMoveKind::rapid:
            return outside::Kind::rapid;
        case ReadMoveKind::feed:
            return outside::Kind::feed;
        case ReadMoveKind::arc:
            return outside::Kind::arc;
        case ReadMoveKind::home:
        case ReadMoveKind::dwell:
            break;
    }
    return outside::Kind::dwell;
}

/// Whether the program has the word, however it is spelled.
bool has_word(const std::string& text, const std::string& word) {
    std::string plain;
    for (const char c : text) {
        if (c != ' ' && c != '\t') plain += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    }
    return plain.find(word) != std::string::npos;
}

/// Half of the interpreter's last printed digit, and a little for the binary numbers under it.
constexpr double printed = 0.6e-4;

/// Follows one program in both readings. Places are printed in the unit in force, so that the margin is that
/// of a digit in inches where the program uses them.
class Comparison {
  public:
    Comparison(const Dialect& dialect, const std::string& text)
        : radial_(axis_of(dialect.radial.letter)),
          axial_(axis_of(dialect.axial.letter)),
          rotary_(axis_of(dialect.rotary.letter)),
          uses_inches_(has_word(text, "G20")),
          uses_turns_(has_word(text, "G95")) {}

    void compare(const ReadMove& ours, const outside::Move& theirs) {
        CHECK(kind_of(ours.kind) == theirs.kind);
        if (theirs.kind == outside::Kind::dwell) {
            CHECK_NEAR(ours.seconds, theirs.seconds, printed);
            return;
        }
        if (theirs.kind == outside::Kind::arc) {
            compare_arc(ours, theirs);
        } else {
            compare_place(ours.radial, theirs.at[radial_]);
            compare_place(ours.axial, theirs.at[axial_]);
        }
        if (!std::isnan(ours.rotary)) CHECK_NEAR(ours.rotary, theirs.at[rotary_], printed);
        if (theirs.kind != outside::Kind::rapid) compare_time(ours, theirs.rate);
        last_ = ours;
    }

    [[nodiscard]] int timed() const { return timed_; }

  private:
    void compare_place(double mm, double theirs) const {
        if (std::isnan(mm))
            return;  // the program has not moved that axis yet; the interpreter begins at zero
        const double in_inches = uses_inches_ ? std::abs(mm / 25.4 - theirs) : 1e9;
        const double off = std::min(std::abs(mm - theirs), in_inches);
        CHECK_NEAR(off, 0.0, printed);
    }

    /// As printed: end and centre in the order of the plane's axes, turns (positive ccw in it).
    void compare_arc(const ReadMove& ours, const outside::Move& theirs) {
        const bool axial_first =
            (axial_ == 0 && radial_ == 1) || (axial_ == 2 && radial_ == 0);  // G17 X Y, G18 Z X
        const std::size_t a = axial_first ? 0 : 1, r = 1 - a;
        compare_place(ours.axial, theirs.arguments[a]);
        compare_place(ours.radial, theirs.arguments[r]);
        compare_place(ours.centre_axial, theirs.arguments[2 + a]);
        compare_place(ours.centre_radial, theirs.arguments[2 + r]);
        const double sense = axial_first ? theirs.arguments[4] : -theirs.arguments[4];
        CHECK((sense > 0.0) == (ours.arc_sense > 0));
    }

    [[nodiscard]] double way(const ReadMove& to) const {
        const double r = to.radial - last_.radial, a = to.axial - last_.axial;
        double linear = std::sqrt(r * r + a * a);
        if (to.kind == ReadMoveKind::arc) {
            const double r0 = last_.radial - to.centre_radial, a0 = last_.axial - to.centre_axial;
            const double r1 = to.radial - to.centre_radial, a1 = to.axial - to.centre_axial;
            double turn = to.arc_sense * std::atan2(a0 * r1 - r0 * a1, a0 * a1 + r0 * r1);
            if (turn < 0.0) turn += 2.0 * std::acos(-1.0);
            linear = turn * std::sqrt(r0 * r0 + a0 * a0);
        }
        return linear > 0.0 ? linear : std::abs(to.rotary - last_.rotary);
    }

    /// The rate that the interpreter prints, against ours: way by time. It prints no rate below 0.1. The
    /// first feed comes after the start, so that `last_` is whole.
    void compare_time(const ReadMove& ours, double rate) {
        const double length = way(ours);
        if (rate <= 0.1001 || ours.seconds == 0.0) return;
        const bool linear =
            ours.radial != last_.radial || ours.axial != last_.axial || ours.kind == ReadMoveKind::arc;
        const double per_minute = 60.0 * length / ours.seconds;
        double off = std::numeric_limits<double>::infinity();
        for (const double unit : {1.0, 25.4}) {
            for (const double turns : {1.0, std::abs(ours.spindle_speed)}) {
                if ((unit != 1.0 && !(uses_inches_ && linear)) || (turns != 1.0 && !uses_turns_)) continue;
                const double wanted = per_minute / unit / turns;
                off = std::min(off, std::abs(wanted - rate) - 2e-6 * wanted);
            }
        }
        CHECK_NEAR(std::max(off, 0.0), 0.0, printed);
        ++timed_;
    }

    std::size_t radial_, axial_, rotary_;
    bool uses_inches_, uses_turns_;
    ReadMove last_;
    int timed_ = 0;
};

BlockDelete switch_of(const RandomProgram& program) {
    return program.block_delete ? BlockDelete::on : BlockDelete::off;
}

std::string complaints(const Outcome<ReadProgram>& read) {
    std::string text;
    for (const Diagnostic& error : read.diagnostics())
        text += to_text(error) + '\n';
    return text;
}

}  // namespace

TEST_CASE("five hundred random valid programs go to the same places in the same time in an open interpreter",
          "[outside]") {
    if (!outside::installed()) return outside::say_skipped();
    int moves = 0, timed = 0;
    for (unsigned seed = 1; seed <= 500; ++seed) {
        const RandomProgram program = random_program(seed);
        const auto ours =
            read_program(program.text, "random.ngc", program.dialect, Units::mm, switch_of(program));
        const outside::Reading theirs = outside::interpret(program.text, program.block_delete);
        INFO("seed " << seed << " " << theirs.error << complaints(ours) << program.text);
        REQUIRE(theirs.accepted());
        REQUIRE(ours.ok());
        REQUIRE(ours->moves.size() == theirs.moves.size());
        Comparison comparison(program.dialect, program.text);
        for (std::size_t i = 0; i < theirs.moves.size(); ++i) {
            CAPTURE(i, ours->moves[i].line);
            comparison.compare(ours->moves[i], theirs.moves[i]);
        }
        moves += static_cast<int>(theirs.moves.size());
        timed += comparison.timed();
    }
    CHECK(moves > 10000);
    CHECK(timed > 3000);
}

namespace {

/// Words and characters that a slip of the hand may put into a program.
const std::vector<std::string> slips = {
    "G1",  "G0",  "G2",  "G3",    "X",     "Z",   "A1",  "F0",   "F",    "G93", "G94", "G20",   "G41",
    "M3",  "M6",  "T55", "S-1",   "G99.9", "M77", "(",   ")",    "[",    "#1",  ".",   "-",     "--1",
    "G17", "G19", "R1",  "I1",    "K1",    "P-1", "G4",  "N-1",  "/",    "%",   "@",   "?",     "O",
    "H1",  "L1",  "E1",  "Q1",    "D1",    "G43", "G10", "G53",  "X1X2", "F-5", "M2",  "M30",   "G90G91",
    "1",   "U1",  "Y9",  "G38.2", "G81",   "G96", "T-1", "S1S2", "=",    "<a>", "sub", "G92.9", "G5.9"};

/// One slip in a program: a word put in or in place of another, a character lost, doubled or changed, a line
/// lost.
std::string with_slip(const std::string& text, Dice& dice) {
    std::string spoiled = text;
    const auto size = static_cast<int>(text.size());
    const auto at = static_cast<std::size_t>(dice.roll(0, size - 1));
    switch (dice.roll(0, 5)) {
        case 0:
            return spoiled.erase(at, 1);
        case 1:
            return spoiled.insert(at, 1, text[static_cast<std::size_t>(dice.roll(0, size - 1))]);
        case 2:
            spoiled[at] = static_cast<char>(dice.roll(33, 126));
            return spoiled;
        case 3: {
            const std::size_t start =
                text.rfind('\n', at) == std::string::npos ? 0 : text.rfind('\n', at) + 1;
            return spoiled.erase(start, text.find('\n', at) - start + 1);
        }
        default:
            return spoiled.insert(at, dice.of(slips));
    }
}

/// What the interpreter refuses and the reader takes, with the reason; matched with the interpreter's own
/// message.
struct Exception {
    const char* message;
    const char* reason;
};
const std::vector<Exception> exceptions = {
    {"Requested tool", "which tools there are stands in the controller's table, not in the text"},
};

bool is_exception(const std::string& message) {
    return std::any_of(exceptions.begin(), exceptions.end(),
                       [&](const Exception& e) { return message.find(e.message) != std::string::npos; });
}

}  // namespace

TEST_CASE("what an open interpreter refuses, the reader refuses too", "[outside]") {
    if (!outside::installed()) return outside::say_skipped();
    int refused = 0;
    for (unsigned seed = 1; refused < 150 && seed < 2000; ++seed) {
        Dice dice(seed + 100000);
        RandomProgram program = random_program(seed);
        program.text = with_slip(program.text, dice);
        const outside::Reading theirs = outside::interpret(program.text, program.block_delete);
        if (theirs.accepted() || is_exception(theirs.error)) continue;
        ++refused;
        const auto ours =
            read_program(program.text, "slip.ngc", program.dialect, Units::mm, switch_of(program));
        INFO("seed " << seed << " " << theirs.error << program.text);
        // The reader leaves it to the proof to refuse a program without an end.
        CHECK((!ours.ok() || !ours->ended));
    }
    CHECK(refused == 150);
}
