/// The proof against the tests' own brute-force sweep, which shares no code with it: every cutter, held every
/// way.
#include "basalt.h"
#include "catch.h"
#include "finish_cut.h"
#include "proof_case.h"
#include "random_program.h"
#include "sweep.h"

#include <lobewright/number_text.h>

#include <cctype>
#include <cmath>

using namespace lobewright;

namespace {

struct Held {
    const char* name;
    Cutter cutter;
    CutterAxis axis;
    CutterZero zero = CutterZero::centre;
    double side_shift = 0.0;
    const char* post = "rs274ngc-xza";
};

Cutter mill(double diameter, double corner, double flutes) {
    Cutter cutter;
    cutter.kind = CutterKind::end_mill;
    cutter.diameter = diameter;
    cutter.corner_radius = corner;
    cutter.flute_length = flutes;
    cutter.teeth = 4;
    return cutter;
}
Cutter ball(double diameter) {
    Cutter cutter = mill(diameter, 0.0, 20.0);
    cutter.kind = CutterKind::ball_nose;
    return cutter;
}
Cutter disc(double diameter, double width) {
    Cutter cutter;
    cutter.kind = CutterKind::disc;
    cutter.diameter = diameter;
    cutter.width = width;
    cutter.neck_diameter = 8.0;
    return cutter;
}

std::vector<Held> ways_to_hold() {
    return {
        {"disc, parallel", disc(32.0, 7.0), CutterAxis::parallel},
        {"disc narrower than the lobe", disc(32.0, 4.0), CutterAxis::parallel, CutterZero::edge},
        {"end mill, parallel", mill(12.0, 0.0, 20.0), CutterAxis::parallel},
        {"end mill with corners, parallel", mill(12.0, 1.0, 20.0), CutterAxis::parallel, CutterZero::edge},
        {"ball nose, parallel", ball(6.0), CutterAxis::parallel},
        {"square end", mill(14.0, 0.0, 20.0), CutterAxis::radial},
        {"square end beside its dead middle", mill(16.0, 0.0, 20.0), CutterAxis::radial, CutterZero::centre,
         2.0},
        {"end with corners", mill(16.0, 1.0, 20.0), CutterAxis::radial},
        {"narrow end with corners, in steps", mill(12.0, 0.6, 20.0), CutterAxis::radial},
        {"ball nose, radial", ball(12.0), CutterAxis::radial},
        {"ball nose beside its dead middle", ball(12.0), CutterAxis::radial, CutterZero::centre, 1.0},
        {"end mill lying across", mill(20.0, 0.0, 16.0), CutterAxis::tangential},
        {"disc lying across", disc(30.0, 14.0), CutterAxis::tangential},
    };
}

Job held_job(const Held& held, Sense turns, Sense rotary) {
    Job job = basalt::job(basalt::lopsided(6.0, 2.0), basalt::flat(20.0), turns);
    job.lobes.front().at = ShaftAngle::from_degrees(30.0);
    job.shaft.blank_diameter = 17.0;
    job.cutters["cutter"] = held.cutter;
    Machine machine;
    machine.post = held.post;
    machine.cutter_axis = held.axis;
    machine.cutter_zero = held.zero;
    machine.rotary_positive = rotary;
    job.machine = machine;
    Cut cut = finish_cut("cutter", 0.004, 100.0, 800.0);
    cut.side_shift = held.side_shift;
    job.cut = cut;
    return job;
}

std::vector<sweep::Position> positions_of(const ReadProgram& program) {
    std::vector<sweep::Position> positions;
    for (const ReadMove& move : program.moves) {
        if (std::isnan(move.radial) || std::isnan(move.axial) || std::isnan(move.rotary)) continue;
        positions.push_back({move.radial, move.axial, move.rotary, move.kind == ReadMoveKind::rapid,
                             move.seconds, move.line});
    }
    return positions;
}

/// Both sweeps' own errors, mm.
constexpr double both_errors = 1.2e-4;

/// The proof's extremes in its own planes and on its own rays, against the sweep's there; and the sweep's own
/// extremes in those planes and in `planes` others over the width, which the proof must have seen.
void check_same(const ProofCase& made, const std::string& text, int planes) {
    const ProofReport report = made.prove(text);
    const auto read = read_program(text, "program.ngc", made.dialect, made.job.units);
    REQUIRE(read.ok());
    const auto positions = positions_of(*read);
    const sweep::Body body = sweep::cutting_body(made.job);
    const SolvedLobe& lobe = made.lobes.front();
    const auto slab = [&](double z) {
        return sweep::Slab(positions, body, z, *made.job.shaft.blank_diameter / 2.0, true);
    };
    const LobeVerdict& verdict = report.lobes.front();
    CAPTURE(verdict.deepest.along_normal, verdict.deepest.z, verdict.proudest.along_normal,
            verdict.proudest.z);
    for (const Deviation* extreme : {&verdict.deepest, &verdict.proudest}) {
        CHECK_NEAR(sweep::deviation_on(slab(extreme->z), lobe, extreme->at.radians()), extreme->along_normal,
                   both_errors);
    }
    if (planes == 0) return;
    std::vector<double> zs{verdict.deepest.z, verdict.proudest.z};
    for (int i = 0; i < planes; ++i)
        zs.push_back(lobe.z + lobe.width * ((i + 0.5) / planes - 0.5));
    for (const double z : zs) {
        const sweep::Comparison found = sweep::compare(slab(z), lobe, 0.0, 180);
        CAPTURE(z, found.deepest, found.deepest_at, found.proudest, found.proudest_at);
        CHECK(found.deepest >= verdict.deepest.along_normal - both_errors);
        CHECK(found.proudest <= verdict.proudest.along_normal + both_errors);
    }
}

/// A word of the program's cutting blocks moved by a few hundredths, where it stands in the middle of the
/// text.
std::string nudged(const ProofCase& made, Dice& dice) {
    std::string text = made.text;
    const char letter = made.dialect.radial.letter;
    for (;;) {
        const auto at =
            text.find(letter, static_cast<std::size_t>(dice.roll(static_cast<int>(text.size()) / 3,
                                                                 static_cast<int>(text.size()) - 1)));
        if (at == std::string::npos || text.find('\n', at) - at < 6 || text[at - 1] == '(') continue;
        const std::size_t digit = text.find('.', at) + 2;
        if (digit >= text.size() || text[digit] < '0' || text[digit] > '9') continue;
        text[digit] = text[digit] == '9' ? '7' : static_cast<char>(text[digit] + 1);
        return text;
    }
}

}  // namespace

TEST_CASE("the proof finds what a brute-force sweep finds, for every cutter held every way") {
    unsigned seed = 1;
    for (const Held& held : ways_to_hold()) {
        const Sense turns = seed % 2 == 0 ? Sense::ccw : Sense::cw;
        const Sense rotary = seed % 3 == 0 ? Sense::cw : Sense::ccw;
        INFO(held.name);
        const ProofCase made = proof_case(held_job(held, turns, rotary));
        // Off the axis of an end with corners the brute-force sweep steps along every ray: seconds a plane.
        const bool slow = held.axis == CutterAxis::radial && held.cutter.corner_radius > 0.0;
        check_same(made, made.text, slow ? 0 : 4);
        const ProofReport report = made.prove();
        INFO(findings_text(report) << proof_text(made.job, report, made.text));
        CHECK_FALSE(fails(report));
        Dice dice(seed++);
        check_same(made, nudged(made, dice), slow ? 0 : 1);
    }
}

TEST_CASE("the ridge between two steps of a ball is found where it is highest, not only halfway") {
    Job job = held_job({"ball", ball(12.0), CutterAxis::radial}, Sense::ccw, Sense::ccw);
    job.cut->tolerance = 0.02;
    const ProofCase made = proof_case(job);
    // Every radial word of the second step's pass goes up by 20 µm: its ridges move off the middle.
    std::string text = made.text;
    const std::size_t second = text.find("(lobe", text.find("(lobe") + 1);
    REQUIRE(second != std::string::npos);
    const std::size_t third = text.find("(lobe", second + 1);
    REQUIRE(third != std::string::npos);
    for (std::size_t at = text.find("X", second); at < third; at = text.find("X", at + 1)) {
        const std::size_t point = text.find('.', at);
        if (point == std::string::npos || point > at + 4 || point + 4 >= text.size()) continue;
        std::size_t end = point + 1;
        while (end < text.size() && std::isdigit(text[end]) != 0)
            ++end;
        const double word = std::stod(text.substr(at + 1, end - at - 1));
        text.replace(at + 1, end - at - 1, lobewright::fixed(word + 0.02, 4));
    }
    const ProofReport report = made.prove(text);
    const auto read = read_program(text, "program.ngc", made.dialect, Units::mm);
    REQUIRE(read.ok());
    const auto positions = positions_of(*read);
    const LobeVerdict& verdict = report.lobes.front();
    const double psi = verdict.proudest.at.radians();
    const auto left = [&](double z) {
        const sweep::Slab slab(positions, sweep::cutting_body(made.job), z, 8.5, true);
        return sweep::deviation_on(slab, made.lobes.front(), psi);
    };
    CHECK_NEAR(left(verdict.proudest.z), verdict.proudest.along_normal, both_errors);
    for (int i = -40; i <= 40; ++i) {
        CAPTURE(verdict.proudest.z, i);
        if (std::abs(verdict.proudest.z + 0.01 * i - 20.0) > 3.0) continue;
        CHECK(left(verdict.proudest.z + 0.01 * i) <= verdict.proudest.along_normal + both_errors);
    }
    CHECK(report.lobes.front().proudest.along_normal >
          made.prove().lobes.front().proudest.along_normal + 0.001);
}
