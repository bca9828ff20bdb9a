// How much a block takes off, how thick its chips are, and what a cutter must not do in the metal.

#include "basalt.h"
#include "catch.h"
#include "finish_cut.h"
#include "proof_case.h"

#include <lobewright/proven_program.h>

#include <algorithm>
#include <cmath>
#include <regex>

using namespace lobewright;

namespace {

constexpr double pi = 3.14159265358979324;

/// A lobe of 6 mm base circle in a bar of 17 mm, under a disc of 32 mm with 12 teeth.
Job bar() {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat());
    job.shaft.blank_diameter = 17.0;
    job.cutters["disc"] = basalt::disc(32.0, 8.0, 12.0);
    Machine machine;
    machine.post = "rs274ngc-xza";
    machine.cutter_axis = CutterAxis::parallel;
    job.machine = machine;
    job.cut = finish_cut("disc", 0.002, 120.0, 800.0);
    return job;
}

/// Comes to the bar, `body`, and goes away. The cutter's axis 24.5 mm off touches the bar.
std::string program(const std::string& body) {
    return "G18 G21 G90\nG54 G61\nG0 X40\nG0 Z20\nT1 M6\nS800 M3\nG0 A0\nG93\nG0 X24.6\n" + body +
           "G94\nG0 X40\nM5\nM30\n";
}

/// Half a millimetre all round, in one block of a minute; aslant into the stock before it.
const std::string ring = "G1 X24. A-10. F30.\nA-380. F1.\n";

ProofReport proven(const Job& job, const std::string& body) {
    return taken(
        prove(job, taken(solve_lobes(job)), shipped_dialect("rs274ngc-xza"), program(body), "bar.ngc"));
}

int line_in(const std::string& body, const std::string& part) {
    return line_of(program(body), part);
}

/// A finding of a code, which must be an error at that line.
void check_error(const ProofReport& report, const std::string& code, int line) {
    INFO(findings_text(report));
    const auto there = [&](const Diagnostic& each) {
        return each.code == code && each.place.line == line && each.severity == Severity::error;
    };
    CHECK(std::any_of(report.findings.begin(), report.findings.end(), there));
}

}  // namespace

TEST_CASE("a ring all round takes its depth off, in the block that turns") {
    const ProofReport report = proven(bar(), ring);
    CHECK_NEAR(report.largest_depth, 0.5, 1e-3);
    CHECK(report.largest_depth_line == line_in(ring, "A-380."));
    const ProofReport second = proven(bar(), ring + "X23.8 A-390. F30.\nA-760. F1.\n");
    CHECK_NEAR(second.largest_depth, 0.5, 1e-3);
    const std::string json = proof_json(bar(), report);
    CHECK_THAT(json, ContainsSubstring("\"largest_depth_line\": 11") &&
                         ContainsSubstring("\"thickest_chip\": 0.00"));
}

// On a bar of radius r = 8 that is left, with a = 0.5 over it, the teeth's centre, R = 16 from the surface,
// goes by f = (r + R) δ from tooth to tooth, δ being what the bar turns, and the chip is f sin θ, where by
// the law of cosines (r + a)² = R² + (r + R)² - 2 R (r + R) cos θ. On the design's nose, where less curved
// metal would be thinner, the parallel of a nose of radius ρ is what is left: there the proof may say up to
// so much more.
TEST_CASE("a tooth's chip is its feed by the sine of the angle under which it leaves the stock") {
    const double turned = 370.0 / 180.0 * pi / (800.0 * 12.0);
    const auto chip = [&](double r) {
        const double c = r + 16.0, a = 0.5;
        const double cosine = (16.0 * 16.0 + c * c - (r + a) * (r + a)) / (2.0 * 16.0 * c);
        return c / r * 8.0 * turned * std::sqrt(1.0 - cosine * cosine);
    };
    const ProofReport report = proven(bar(), ring);
    REQUIRE(report.thickest_chip.has_value());
    CHECK(*report.thickest_chip >= 0.99 * chip(8.0));
    const double nose = taken(solve_lobes(bar())).front().contour.smallest_convex_radius();
    CHECK(*report.thickest_chip <= 1.01 * chip(nose));
    // Thickest where what is left is least curved: at the flank's start the flank's parallel, of radius 27.
    // There 1 - cos θ = a (2 + a/27) / (2 R (1 + R/27)).
    const double u = 0.5 * (2.0 + 0.5 / 27.0) / (2.0 * 16.0 * (1.0 + 16.0 / 27.0));
    CHECK_RELATIVE(*report.thickest_chip, 24.0 * turned * std::sqrt(u * (2.0 - u)), 0.005);
    Job wheel = bar();
    wheel.cutters["disc"].teeth = 0;
    CHECK_FALSE(proven(wheel, ring).thickest_chip.has_value());
}

// The plan takes a block's chip by the metal that the contact runs along, the proof by the place where the
// block takes the most off, which in a deep cut lies ahead of the contact: on a flank before the nose up to
// twice as much.
TEST_CASE("the proof and the plan find chips of one size, each by its own means") {
    Job job = bar();
    job.cut->finish_depth.reset();
    job.cut->rough_depth = 0.8;
    const auto lobes = taken(solve_lobes(job));
    const Dialect dialect = shipped_dialect("rs274ngc-xza");
    const ProvenProgram program = taken(proven_program(job, lobes, dialect));
    double planned = 0.0;
    for (const Pass& pass : program.path.passes)
        planned = std::max(planned, pass.thickest_chip);
    CHECK(*program.proof.thickest_chip >= 0.9 * planned);
    CHECK(*program.proof.thickest_chip <= 2.0 * planned);
}

namespace {

/// The two speeds that a sentence about a chip tells, mm/min: of now, and with which it would do.
std::pair<double, double> speeds_of(const std::string& sentence) {
    static const std::regex speed("([0-9.]+) mm/min");
    std::vector<double> found;
    for (std::sregex_iterator at(sentence.begin(), sentence.end(), speed), end; at != end; ++at)
        found.push_back(std::stod((*at)[1]));
    INFO(sentence);
    REQUIRE(found.size() == 2);
    return {found[0], found[1]};
}

}  // namespace

TEST_CASE("a chip thicker than the cutter takes, or so thin that it rubs, is warned of") {
    Job job = bar();
    const double chip = *proven(job, ring).thickest_chip;
    job.cutters["disc"].largest_chip = 0.99 * chip;
    const ProofReport report = proven(job, ring);
    const Diagnostic* thick = finding_of(report, "chip");
    REQUIRE(thick != nullptr);
    CHECK(thick->severity == Severity::warning);
    const auto [now, cure] = speeds_of(thick->what);
    CHECK(cure <= 0.99 * now);
    CHECK(cure >= 0.99 * now - 0.2);
    job.cutters["disc"].largest_chip = 1.01 * chip;
    CHECK(finding_of(proven(job, ring), "chip") == nullptr);
    job.cutters["disc"].smallest_chip = 1.005 * chip;
    const ProofReport rubs = proven(job, ring);
    const Diagnostic* thin = finding_of(rubs, "chip");
    REQUIRE(thin != nullptr);
    const auto [slow, faster] = speeds_of(thin->what);
    CHECK(faster >= 1.005 * slow - 0.06);  // the speed of now is rounded, too
    CHECK(faster <= 1.005 * slow + 0.2);
    job.cutters["disc"].smallest_chip = 0.99 * chip;
    CHECK(finding_of(proven(job, ring), "chip") == nullptr);
}

TEST_CASE("a pass deeper than 1.25 of the roughing depth is found, in however many blocks it is cut") {
    Job job = bar();
    job.cut->finish_depth.reset();
    job.cut->rough_depth = 0.4;
    CHECK(finding_of(proven(job, ring), "depth") == nullptr);
    job.cut->rough_depth = 0.39;
    check_error(proven(job, ring), "depth", line_in(ring, "A-380."));
    std::string in_parts = "G1 X24. A-10. F30.\n";
    for (int degrees = 20; degrees <= 380; degrees += 5)
        in_parts += "A-" + std::to_string(degrees) + ". F60.\n";
    const ProofReport parts = proven(job, in_parts);
    CHECK(finding_of(parts, "depth") != nullptr);
}

TEST_CASE("a finish pass without roughing takes half a millimetre at most, or what the job says") {
    Job job = bar();
    job.cut->finish_depth.reset();
    CHECK(finding_of(proven(job, ring), "depth") == nullptr);
    const std::string deep = "G1 X23.8 A-10. F30.\nA-380. F1.\n";
    check_error(proven(job, deep), "depth", line_in(deep, "A-380."));
    job.cut->finish_depth = 0.6;
    CHECK(finding_of(proven(job, deep), "depth") == nullptr);
}

TEST_CASE("a pass is what the cutter takes as it faces a place, however far its blocks turn") {
    // Half a millimetre deeper with each turn, evenly. A place at 300 degrees is passed in the second block
    // and again in the third, which begins 170 degrees after that one.
    std::string spiral = "G1 X24.5 A-10. F30.\n";
    for (const int degrees : {290, 460, 690, 900, 1090})
        spiral += "X" + std::to_string(24.5 - 0.5 * (degrees - 10) / 360.0) + " A-" +
                  std::to_string(degrees) + ". F1.\n";
    spiral += "A-1450. F1.\n";
    Job job = bar();
    job.cut->finish_depth.reset();
    job.cut->rough_depth = 0.4;
    CHECK(finding_of(proven(job, spiral), "depth") == nullptr);
    job.cut->rough_depth = 0.39;
    CHECK(finding_of(proven(job, spiral), "depth") != nullptr);
}

TEST_CASE("a plunge into full stock is found, a slanting way in is none") {
    CHECK(finding_of(proven(bar(), ring), "plunge") == nullptr);
    const std::string straight = "G1 X24. F60.\nA-380. F1.\n";
    check_error(proven(bar(), straight), "plunge", line_in(straight, "G1 X24."));
}

TEST_CASE("a dwell on the metal is found, one in the air is none") {
    const std::string waits = ring + "G4 P2.\n";
    check_error(proven(bar(), waits), "dwell-in-metal", line_in(waits, "G4 P2."));
    CHECK(finding_of(proven(bar(), ring + "X24.6 F60.\nG4 P2.\n"), "dwell-in-metal") == nullptr);
    CHECK(finding_of(proven(bar(), "G4 P2.\n" + ring), "dwell-in-metal") == nullptr);
}

TEST_CASE("a rim faster than the cutter bears is found") {
    const double rim = pi * 0.032 * 800.0 / 60.0;  // m/s
    Job job = bar();
    job.cutters["disc"].fastest = rim - 0.001;
    check_error(proven(job, ring), "rim-speed", line_in(ring, "G1 X24."));
    job.cutters["disc"].fastest = rim + 0.001;
    CHECK(finding_of(proven(job, ring), "rim-speed") == nullptr);
}

TEST_CASE("a spindle a tenth too slow is an error, a little too slow a warning") {
    const auto with_speed = [](const std::string& speed) {
        const Job job = bar();
        return taken(prove(job, taken(solve_lobes(job)), shipped_dialect("rs274ngc-xza"),
                           with(program(ring), "S800", speed), "bar.ngc"));
    };
    CHECK(finding_of(with_speed("S793"), "spindle-speed") == nullptr);
    CHECK(finding_of(with_speed("S721"), "spindle-speed")->severity == Severity::warning);
    CHECK(finding_of(with_speed("S719"), "spindle-speed")->severity == Severity::error);
    CHECK(finding_of(with_speed("S809"), "spindle-speed")->severity == Severity::error);
    const ProofReport told = with_speed("S721");  // once, however many blocks cut
    CHECK(std::count_if(told.findings.begin(), told.findings.end(),
                        [](const Diagnostic& each) { return each.code == "spindle-speed"; }) == 1);
}

// 0.0002 mm at F1 is 0.0002 mm/min: at its slowest, 0.1 mm/min, the controller takes 0.12 s and not a minute.
TEST_CASE("a block that the controller would run away with is found, with the time that it would take") {
    const std::string slow = "G1 X24. A-10. F30.\nX24.0002 A-200. F1.\nX24.1002 A-380. F1.\n";
    const Job job = bar();
    const std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    const ProofReport report = taken(prove(job, lobes, dialect, program(slow), "bar.ngc"));
    check_error(report, "runs-away", line_in(slow, "X24.0002"));
    CHECK_THAT(finding_of(report, "runs-away")->what,
               ContainsSubstring("0.12 s") && ContainsSubstring("60 s"));
    const auto move = taken(read_program(program(slow), "bar.ngc", dialect, Units::mm)).moves;
    int away = 0;
    for (const ReadMove& each : move)
        away += each.runs_in > 0.0 ? 1 : 0;
    CHECK(away == 1);
    dialect.least_linear_feed = 0.0;
    CHECK(finding_of(taken(prove(job, lobes, dialect, program(slow), "bar.ngc")), "runs-away") == nullptr);
}
