/// Each thing that the proof finds, brought about by one change to a sound program or to what it is proven
/// against.
#include "basalt.h"
#include "catch.h"
#include "finish_cut.h"
#include "job_kit.h"
#include "proof_case.h"

#include <algorithm>
#include <cmath>

using namespace lobewright;

namespace {

Cutter disc(double diameter, double width) {
    Cutter cutter;
    cutter.kind = CutterKind::disc;
    cutter.diameter = diameter, cutter.width = width, cutter.teeth = 12;
    return cutter;
}

Cutter mill(double diameter) {
    Cutter cutter;
    cutter.kind = CutterKind::end_mill;
    cutter.diameter = diameter, cutter.flute_length = 20.0, cutter.teeth = 4;
    return cutter;
}

/// One lobe of z 17 to 23 under a disc of 7 mm, finish pass only.
Job one_lobe() {
    Job job = basalt::job(basalt::lopsided(6.0, 2.0), basalt::flat(20.0));
    job.lobes.front().at = ShaftAngle::from_degrees(30.0);
    job.shaft.blank_diameter = 17.0;
    job.cutters["cutter"] = disc(32.0, 7.0);
    Machine machine;
    machine.post = "rs274ngc-xza";
    machine.cutter_axis = CutterAxis::parallel;
    job.machine = machine;
    job.cut = finish_cut("cutter", 0.01, 150.0, 800.0);
    return job;
}

Job two_lobes() {
    Job job = one_lobe();
    LobeEntry second = job.lobes.front();
    second.name = "second", second.z = 32.0;
    second.at = ShaftAngle::from_degrees(150.0);
    job.lobes.push_back(second);
    job.cutters["cutter"].neck_diameter = 12.0;
    return job;
}

Job radial_job() {
    Job job = one_lobe();
    job.cutters["cutter"] = mill(18.0);
    job.machine->cutter_axis = CutterAxis::radial;
    return job;
}

int line_at(const std::string& text, std::size_t at) {
    return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<long>(at), '\n'));
}

/// A program of its own: the usual beginning, at X40 Z20 A0 with the spindle on, then `body`.
std::string program(const std::string& body, const std::string& spindle = "S800 M3") {
    return "G18 G21 G90\nG54 G61\n" + spindle + "\nG0 X40\nG0 Z20\nG0 A0\nG93\n" + body + "M30\n";
}
constexpr int first_line = 8;

ProofCase plain_case(const Job& job) {
    ProofCase made;
    made.job = job;
    made.dialect = shipped_dialect("rs274ngc-xza");
    auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    made.lobes = *lobes;
    return made;
}

const Diagnostic& expect(const ProofReport& report, const std::string& code, int line = -1) {
    INFO(findings_text(report));
    const Diagnostic* found = finding_of(report, code);
    REQUIRE(found != nullptr);
    if (line >= 0) CHECK(found->place.line == line);
    CHECK_FALSE(found->what.empty());
    return *found;
}

}  // namespace

TEST_CASE("a word that cuts too deep is found as a gouge, at its line and its depth") {
    const ProofCase made = proof_case(one_lobe());
    const std::string heel = "\nA-517.";  // the block of the heel: the tip at the base circle of 6 mm
    const std::string text = with(made.text, heel, "\nX21.9 A-517.");
    const ProofReport report = made.prove(text);
    CHECK_FALSE(report.within_tolerance);
    CHECK_NEAR(report.lobes.front().deepest.along_normal, -0.1, report.resolution);
    expect(report, "gouge", line_at(text, text.find("X21.9 A-517.")));
}

TEST_CASE("a base circle cut out of round is told by its run-out, within the tolerance too") {
    const ProofCase made = proof_case(one_lobe());
    CHECK(made.prove().lobes.front().heel_runout.value() <= 2.0 * made.prove().resolution);
    const std::string waved =
        with(made.text, "\nA-302.", "\nX22.003 A-200. F20\nX21.998 A-250. F20\nX22. A-302.");
    const ProofReport report = made.prove(waved);
    CHECK(report.within_tolerance);
    CHECK_NEAR(report.lobes.front().heel_runout.value(), 0.005, 2.0 * report.resolution);
    CHECK_THAT(proof_text(made.job, report, waved), ContainsSubstring("heel run-out"));
}

TEST_CASE("a word that leaves material is found, and where it is left") {
    const ProofCase made = proof_case(one_lobe());
    const std::size_t nose = made.text.rfind("X24.0");  // the way in goes over it, too, before
    REQUIRE(nose != std::string::npos);
    const std::string text = std::string(made.text).replace(nose, 5, "X24.1");
    const ProofReport report = made.prove(text);
    CHECK_FALSE(report.within_tolerance);
    CHECK(report.lobes.front().proudest.along_normal > 0.05);
    CHECK(std::abs(wrapped_radians((report.lobes.front().proudest.at - made.lobes.front().at).radians())) <
          0.5);
    expect(report, "material-left", report.lobes.front().proudest.line);
}

TEST_CASE("the allowance is left on: the same program then is too deep by it") {
    const ProofCase made = proof_case(one_lobe());
    ProofCase with_allowance = made;
    with_allowance.job.cut->allowance = 0.05;
    const ProofReport report = with_allowance.prove(made.text);
    CHECK_NEAR(report.lobes.front().deepest.along_normal,
               made.prove().lobes.front().deepest.along_normal - 0.05, 2e-4);
    CHECK_FALSE(report.within_tolerance);
    Job job = one_lobe();
    job.cut->allowance = 0.05;
    CHECK_FALSE(fails(proof_case(job).prove()));
}

TEST_CASE("a circle swept by one block leaves the circle, whatever cuts it") {
    // The disc's centre at 16 + 7 mm, one turn: what is left is a circle of 7 mm exactly.
    Job job = one_lobe();
    job.profiles["profile"] = basalt::arcs_with_nose(6.999, 0.002, 120.0, 3.0);
    const ProofCase made = plain_case(job);
    const ProofReport report = made.prove(program("G1 X23 F60\nA-360 F1\nG0 X40\n"));
    const SolvedLobe& lobe = made.lobes.front();
    CHECK_NEAR(report.lobes.front().proudest.along_normal, 7.0 - 6.999, 1e-7);
    CHECK_NEAR(report.lobes.front().deepest.along_normal, 7.0 - (lobe.base_radius + 0.002), 1e-6);
}

TEST_CASE("a rapid into the stock is found; one straight out is none") {
    const ProofCase made = plain_case(one_lobe());
    expect(made.prove(program("G0 X22\nG1 A-360 F1\nG0 X40\n")), "rapid-in-stock", first_line);
    const ProofReport sound = made.prove(program("G1 X22 F60\nA-380 F1\nG0 X40\n"));
    CHECK(sound.rapids_in_stock == 0);
    CHECK(finding_of(sound, "rapid-in-stock") == nullptr);
    // Where the first turn has cut, a rapid along the same circle is in the air.
    CHECK(made.prove(program("G1 X22 F60\nA-380 F1\nG0 A-740\nG0 X40\n")).rapids_in_stock == 0);
    CHECK(made.prove(program("G1 X22 F60\nA-180 F1\nG0 A-360\nG0 X40\n")).rapids_in_stock == 1);
}

TEST_CASE("a rapid must stay clear also where its axes don't arrive together") {
    const ProofCase made = plain_case(one_lobe());
    // Straight, it passes over the uncut half; with X first it goes through it.
    const ProofReport report =
        made.prove(program("G1 X22 F60\nA-180 F1\nG0 X40\nG0 A-350\nG0 X23 A-400\nG0 X40\n"));
    expect(report, "rapid-in-stock", first_line + 4);
}

TEST_CASE("rapids are counted once each, and a note counts what is not listed") {
    const ProofCase made = plain_case(one_lobe());
    std::string body;
    for (int i = 0; i < 14; ++i)
        body += "G0 X22\nG0 X40\nG0 A-" + std::to_string(20 * (i + 1)) + "\n";
    const ProofReport report = made.prove(program(body));
    CHECK(report.rapids_in_stock == 14);
    const auto count = std::count_if(report.findings.begin(), report.findings.end(), [](const Diagnostic& f) {
        return f.code == "rapid-in-stock" && f.severity == Severity::error;
    });
    CHECK(count == 10);
    CHECK(report.findings.back().severity == Severity::note);
    CHECK_THAT(report.findings.back().what, ContainsSubstring("4 times more"));
}

TEST_CASE("a lobe that no block cuts, and one that is cut over a part of its width, are found") {
    const ProofCase made = proof_case(one_lobe());
    ProofCase more = plain_case(two_lobes());
    const ProofReport report = more.prove(made.text);
    CHECK(report.lobes[0].within);
    CHECK_FALSE(report.lobes[1].cut);
    CHECK_THAT(expect(report, "not-cut").what, ContainsSubstring("second"));
    ProofCase narrower = made;
    narrower.job.cutters["cutter"] = disc(32.0, 5.0);
    CHECK_FALSE(narrower.prove().lobes.front().cut);
    expect(narrower.prove(), "not-cut");
}

TEST_CASE("a cutter that reaches over the neighbouring lobe gouges it") {
    const ProofCase made = proof_case(two_lobes());
    CHECK_FALSE(fails(made.prove()));
    ProofCase wider = made;
    wider.job.cutters["cutter"].width = 20.0;
    const ProofReport report = wider.prove();
    CHECK_FALSE(report.within_tolerance);
    expect(report, "gouge");
}

TEST_CASE("a neck, a shank or a holder that runs into a lobe is found") {
    const ProofCase made = proof_case(two_lobes());
    const auto proven = [&](void (*change)(Cutter&)) {
        ProofCase changed = made;
        change(changed.job.cutters["cutter"]);
        return changed.prove();
    };
    CHECK(finding_of(proven([](Cutter& c) { c.neck_diameter = 26.0; }), "touches-neighbour") == nullptr);
    const ProofReport neck = proven([](Cutter& c) { c.neck_diameter = 28.0; });
    CHECK_THAT(expect(neck, "touches-neighbour").what, ContainsSubstring("neck"));
    const ProofReport holder = proven([](Cutter& c) { c.reach = 4.0, c.holder_diameter = 40.0; });
    CHECK_THAT(expect(holder, "touches-neighbour").what, ContainsSubstring("holder"));
    // With the spindle on the drive side there is nothing beside the first lobe.
    ProofCase drive = proof_case([] {
        Job job = two_lobes();
        job.machine->spindle_side = SpindleSide::drive;
        return job;
    }());
    drive.job.cutters["cutter"].neck_diameter = 29.0;
    const ProofReport on_drive = drive.prove();
    CHECK_THAT(expect(on_drive, "touches-neighbour").what, ContainsSubstring("lobe lobe"));
}

TEST_CASE("a journal is touched by the cutter or by what holds it, never unseen") {
    const ProofCase made = proof_case(one_lobe());
    const auto proven = [&](const Journal& journal, double neck) {
        ProofCase changed = made;
        changed.job.shaft.journals = {journal};
        if (neck > 0.0) changed.job.cutters["cutter"].neck_diameter = neck;
        return changed.prove();
    };
    CHECK(finding_of(proven({12.0, 8.0, 10.0}, 0.0), "touches-journal") ==
          nullptr);  // to z = 16: the disc begins at 16.5
    CHECK(finding_of(proven({12.0, 10.0, 10.0}, 0.0), "touches-journal") ==
          nullptr);  // under it, but lower than the heel
    CHECK_THAT(expect(proven({12.0, 10.0, 14.0}, 0.0), "touches-journal").what, ContainsSubstring("cutter"));
    CHECK(finding_of(proven({40.0, 10.0, 14.0}, 20.0), "touches-journal") == nullptr);
    CHECK_THAT(expect(proven({40.0, 10.0, 14.0}, 31.0), "touches-journal").what, ContainsSubstring("neck"));
}

TEST_CASE("a ball that stands beside the shaft's axis clears a journal by its side, not by its tip") {
    Job job = one_lobe();
    job.machine->cutter_axis = CutterAxis::radial;
    Cutter& ball = job.cutters["cutter"];
    ball = basalt::end_mill(20.0, 40.0);
    ball.kind = CutterKind::ball_nose;
    job.cut->side_shift = 6.0;
    const ProofCase made = proof_case(job);
    // On the heel its middle stands 10 + 6 mm from the axis, its tip sqrt(16² - 6²) - 10 = 4.83. A journal up
    // to z = 16 lies a little over 1 mm and less than 2 mm beside its outermost place, where its circle has a
    // radius of 9.95 to 9.80 mm and comes to 6.05 to 6.20 mm from the axis.
    const auto touches = [&](double diameter) {
        ProofCase changed = made;
        changed.job.shaft.journals = {{12.0, 8.0, diameter}};
        return finding_of(changed.prove(), "touches-journal") != nullptr;
    };
    CHECK_FALSE(touches(2.0 * 6.0));
    CHECK(touches(2.0 * 6.25));
}

TEST_CASE("limits of the axes are held against every block") {
    const ProofCase made = proof_case(one_lobe());
    CHECK(finding_of(made.prove(), "axis-speed") == nullptr);
    const auto proven = [&](const AxisLimits& limits) {
        ProofCase changed = made;
        changed.job.machine->limits = limits;
        return changed.prove();
    };
    AxisLimits limits;
    limits.rotary_speed = 100.0;
    CHECK_THAT(expect(proven(limits), "axis-speed").what, ContainsSubstring("rotary axis"));
    limits = {};
    limits.radial_speed = 10.0;
    CHECK_THAT(expect(proven(limits), "axis-speed").what, ContainsSubstring("radial axis"));
    limits = {};
    limits.blocks_per_second = 2.0;
    expect(proven(limits), "block-rate");
    limits = {};
    limits.rotary_acceleration = 1.0;
    expect(proven(limits), "axis-acceleration");
    limits = {};
    limits.radial_jump = 1.0;
    expect(proven(limits), "axis-jump");
}

TEST_CASE(
    "an acceleration is the change of the mean speeds over half of both blocks, from rest and to rest") {
    ProofCase made = plain_case(one_lobe());
    // 10 degrees in 1 s, then 30 in 2 s: 10, then 15 degrees/s; from rest over 0.5 s, 5 over 1.5 s, to rest
    // over 1 s.
    const std::string text = program("G1 A-10 F60\nA-40 F30\nG0 X41\n");
    const auto error = [&](double acceleration) {
        made.job.machine->limits.rotary_acceleration = acceleration;
        return finding_of(made.prove(text), "axis-acceleration") != nullptr;
    };
    CHECK_FALSE(error(20.1));
    CHECK(error(19.0));
}

TEST_CASE("after a rapid the axes come from rest, whatever block went before it") {
    ProofCase made = plain_case(one_lobe());
    // 2.5 degrees/s, then a rapid; from rest to 10 degrees/s over half of a second, and slower again.
    const std::string text = program("G1 A-10 F15\nG0 X41\nG0 X40\nG1 A-20 F60\nA-30 F15\nG0 X41\n");
    const auto error = [&](double acceleration) {
        made.job.machine->limits.rotary_acceleration = acceleration;
        return finding_of(made.prove(text), "axis-acceleration") != nullptr;
    };
    CHECK_FALSE(error(20.1));
    CHECK(error(19.0));
}

TEST_CASE("the surface feed is the contact's way by the block's time") {
    const ProofCase made = proof_case(one_lobe());
    CHECK(finding_of(made.prove(), "surface-feed") == nullptr);
    ProofCase slower = made;
    slower.job.cut->surface_feed = 150.0 / 1.3;
    CHECK(expect(slower.prove(), "surface-feed").severity == Severity::warning);
    CHECK_FALSE(fails(slower.prove()));
    slower.job.cut->surface_feed = 150.0 / 1.7;
    CHECK(fails(slower.prove()));
}

TEST_CASE("the contact's way is known where it rides on the corners of an end, too") {
    Job job = one_lobe();
    job.machine->cutter_axis = CutterAxis::radial;
    Cutter& cutter = job.cutters.begin()->second;
    cutter = Cutter{};
    cutter.diameter = 4.0;
    cutter.corner_radius = 0.5;
    cutter.flute_length = 20.0;
    const ProofCase made = proof_case(job);
    INFO(findings_text(made.prove()));
    CHECK(finding_of(made.prove(), "surface-feed") == nullptr);
}

TEST_CASE("a spindle that stands, turns too fast or the wrong way round is found") {
    ProofCase made = plain_case(one_lobe());
    const std::string cut = "G1 X22 F60\nA-380 F1\nG0 X40\n";
    CHECK(finding_of(made.prove(program(cut)), "spindle-off") == nullptr);
    expect(made.prove(program(cut, "S800")), "spindle-off", first_line);
    expect(made.prove(program(cut, "M3")), "spindle-off", first_line);
    expect(made.prove(program("M6 T1\n" + cut)), "spindle-off", first_line + 1);
    expect(made.prove(program("M5\n" + cut)), "spindle-off", first_line + 1);
    CHECK(expect(made.prove(program(cut, "S1000 M3")), "spindle-speed").severity == Severity::error);
    CHECK(expect(made.prove(program(cut, "S760 M3")), "spindle-speed").severity == Severity::warning);
    expect(made.prove(program(cut, "S800 M4")), "spindle-reversed", first_line);
    made.job.cutters["cutter"].teeth = 0;
    CHECK(finding_of(made.prove(program(cut, "S800 M4")), "spindle-reversed") == nullptr);
}

TEST_CASE("a program without its end, or with part of it lost, is not proven") {
    const ProofCase made = proof_case(one_lobe());
    expect(made.prove(with(made.text, "M30\n", "")), "not-ended");
    const std::size_t half = made.text.find('\n', made.text.size() / 2) + 1;
    expect(made.prove(made.text.substr(0, half)), "not-ended");
    CHECK_FALSE(made.prove(made.text.substr(0, half)).within_tolerance);
}

TEST_CASE("moves before all axes are known must stand outside everything") {
    const ProofCase made = plain_case(one_lobe());
    const std::string head = "G18 G21 G90\nG54 G61\nS800 M3\n";
    expect(made.prove(head + "G0 Z20\nG0 X40\nG0 A0\nM30\n"), "blind-move", 4);
    expect(made.prove(head + "G0 X24\nG0 Z20\nG0 A0\nM30\n"), "blind-move", 4);
    CHECK(finding_of(made.prove(head + "G0 X40 Z20 A0\nM30\n"), "blind-move") == nullptr);
}

TEST_CASE("path blending takes its tolerance off the part's, and none without a bound is proven") {
    Job job = one_lobe();
    job.cut->blend = 0.004;
    const ProofCase made = proof_case(job);
    const ProofReport report = made.prove();
    CHECK(report.blending == 0.004);
    CHECK_FALSE(fails(report));
    CHECK(fails(made.prove(with(made.text, "G64 P0.004", "G64 P0.02"))));
    expect(made.prove(with(made.text, "G64 P0.004", "G64")), "blend-unbounded");
}

TEST_CASE("the blending told is the larger one of both ways through lines that a switch may delete") {
    Job job = one_lobe();
    job.cut->blend = 0.004;
    const ProofCase made = proof_case(job);
    CHECK(made.prove(with(made.text, "G64 P0.004", "G61\n/G64 P0.004")).blending == 0.004);
    CHECK(made.prove(with(made.text, "G64 P0.004", "G64 P0.004\n/G61")).blending == 0.004);
}

TEST_CASE("lines that a switch may delete are proven both ways") {
    const ProofCase made = proof_case(one_lobe());
    CHECK_FALSE(fails(made.prove(with(made.text, "M8\n", "/M8\n"))));
    const ProofReport lost = made.prove(with(made.text, "X22. A-471.2877", "/X22. A-471.2877"));
    CHECK(fails(lost));
    CHECK(std::any_of(lost.findings.begin(), lost.findings.end(),
                      [](const Diagnostic& f) { return f.what.rfind("with block delete on: ", 0) == 0; }));
    const ProofReport added = made.prove(with(made.text, "\nA-517.", "\n/X21.8 A-515. F31\nX22. A-517."));
    expect(added, "gouge");
}

TEST_CASE("a cutter that passes the shaft's axis is found") {
    const ProofCase made = plain_case(one_lobe());
    expect(made.prove(program("G1 X15 F60\nG0 X40\n")), "past-axis", first_line);
}

TEST_CASE(
    "a feed along the shaft is exact for a section that stays, and refused where it changes otherwise") {
    const ProofCase parallel = plain_case(one_lobe());
    // The disc comes from the side at its depth: at A0 a slot through the lobe's whole width, down to the
    // base circle.
    const ProofReport slot = parallel.prove(program("Z0 X40\nG1 X22 F60\nZ40 A-1 F60\nG0 X40\n"));
    CHECK(finding_of(slot, "cannot-simulate") == nullptr);
    CHECK(slot.lobes.front().cut);
    const ProofCase radial = plain_case(radial_job());
    expect(radial.prove(program("Z0 X40\nG1 X8 F60\nZ40 A-1 F60\nG0 X40\n")), "cannot-simulate",
           first_line + 2);
    CHECK(finding_of(radial.prove(program("Z0 X40\nG1 X8 F60\nZ40 F60\nG0 X40\n")), "cannot-simulate") ==
          nullptr);
}

TEST_CASE("an arc in the plane along the shaft is swept by chords nearer than the resolution") {
    Job job = one_lobe();
    job.profiles["profile"] = basalt::arcs_with_nose(6.0, 0.002, 120.0, 3.0);
    job.lobes.front().at = ShaftAngle{};
    const ProofCase made = plain_case(job);
    // Half a circle of 10 mm from Z10 to Z30 about X32: its lowest point, X22, lies over the lobe's middle,
    // where the disc's edge stands at the base circle; one turn there goes before.
    const std::string text =
        program("G1 X22 F60\nA-360 F1\nG0 X40\nG0 Z10\nG1 X32 F60\nG3 X32 Z30 R10 F10\nG0 X40\n");
    const ProofReport report = made.prove(text);
    CHECK_NEAR(report.lobes.front().deepest.along_normal, -0.002, 1e-4);
    const ProofReport deeper = made.prove(
        program("G1 X22 F60\nA-360 F1\nG0 X40\nG0 Z10\nG1 X31.9 F60\nG3 X31.9 Z30 R10 F10\nG0 X40\n"));
    CHECK_NEAR(deeper.lobes.front().deepest.along_normal, -0.102, 1e-4);
}

TEST_CASE("the proof needs machine, cut, cutter and blank, and names what is missing") {
    const ProofCase made = proof_case(one_lobe());
    const auto complaint = [&](void (*change)(Job&)) {
        Job job = made.job;
        change(job);
        const auto report = prove(job, made.lobes, made.dialect, made.text, "program.ngc");
        REQUIRE_FALSE(report.ok());
        return to_text(report.diagnostics().front());
    };
    CHECK_THAT(complaint([](Job& job) { job.machine.reset(); }), ContainsSubstring("machine"));
    CHECK_THAT(complaint([](Job& job) { job.cut.reset(); }), ContainsSubstring("cut"));
    CHECK_THAT(complaint([](Job& job) { job.shaft.blank_diameter.reset(); }),
               ContainsSubstring("blank_diameter"));
    CHECK_THAT(complaint([](Job& job) { job.cut->cutter = "other"; }), ContainsSubstring("cutter"));
    CHECK_THAT(complaint([](Job& job) {
                   job.cutters["cutter"] = mill(12.0), job.cutters["cutter"].flute_length.reset();
               }),
               ContainsSubstring("flute_length"));
}

TEST_CASE("a text that can't be read is refused by its places, and proves nothing") {
    const ProofCase made = proof_case(one_lobe());
    const auto report =
        prove(made.job, made.lobes, made.dialect, with(made.text, "M8", "M88"), "program.ngc");
    REQUIRE_FALSE(report.ok());
    CHECK(report.diagnostics().front().code == "unknown-code");
    CHECK(report.diagnostics().front().place.file == "program.ngc");
}

TEST_CASE("the cycle time is what the text asks for, and agrees with the plan's") {
    const ProofCase made = proof_case(one_lobe());
    CHECK_RELATIVE(made.prove().cycle_seconds, made.path.cycle_seconds, 1e-4);
    const ProofCase own = plain_case(one_lobe());
    // One second in, sixty round, one of dwell; no rapid speeds are known.
    CHECK_NEAR(own.prove(program("G1 X22 F60\nA-360 F1\nG4 P1\nG0 X40\n")).cycle_seconds, 62.0, 1e-9);
}

// In at 10 mm/s, on at 2 mm/s: a change of speed by d at 20 mm/s² takes d²/(2 · 20 v) longer than one at
// once, v the faster of both: 0.25 s up to 10, 0.16 s down to 2, 0.05 s to rest.
TEST_CASE("straight down the cycle time has the ramps between one speed and the next") {
    Job job = one_lobe();
    job.machine->limits.radial_acceleration = 20.0;
    const std::string down = program("G1 X30 F60\nX22 F15\nA-360 F1\nG0 X40\n");
    CHECK_NEAR(plain_case(job).prove(down).cycle_seconds, 1.0 + 4.0 + 60.0 + 0.25 + 0.16 + 0.05, 1e-9);
}

TEST_CASE("turning the job turns the proof, and mirroring it mirrors it") {
    const ProofReport first = proof_case(one_lobe()).prove();
    Job turned = one_lobe();
    turned.lobes.front().at = ShaftAngle::from_degrees(100.0);
    const ProofReport other = proof_case(turned).prove();
    CHECK_NEAR(other.lobes.front().deepest.along_normal, first.lobes.front().deepest.along_normal, 1.5e-4);
    CHECK_NEAR(wrapped_radians((other.lobes.front().deepest.at - first.lobes.front().deepest.at).radians()),
               ShaftAngle::from_degrees(70.0).radians(), 0.3);
}

TEST_CASE("in inches the proof is the same") {
    const ProofCase mm = proof_case(one_lobe());
    ProofCase inch = mm;
    inch.job.units = Units::inch;
    const ProofReport report =
        inch.prove(mm.text);  // the text says G21: the job's unit is only how it is told
    CHECK(report.lobes.front().deepest.along_normal == mm.prove().lobes.front().deepest.along_normal);
    CHECK_THAT(proof_text(inch.job, report, mm.text), ContainsSubstring(" in"));
}
