// What must be right around the cutting: each way to spoil it is found, at its line.

#include "basalt.h"
#include "catch.h"
#include "finish_cut.h"
#include "guide_dialect.h"
#include "proof_case.h"

using namespace lobewright;

namespace {

/// One lobe under the end of a mill that stands beside the shaft's axis: tool 7 with length 17.
Job shifted_job() {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat());
    job.shaft.blank_diameter = 17.0;
    Cutter mill = basalt::end_mill(20.0, 30.0);
    mill.teeth = 4, mill.number = 7, mill.offset_number = 17;
    job.cutters["em20"] = mill;
    Machine machine;
    machine.post = "own";
    machine.cutter_axis = CutterAxis::radial;
    job.machine = machine;
    Cut cut = finish_cut("em20", 0.005, 120.0, 800.0);
    cut.side_shift = 4.5;
    job.cut = cut;
    return job;
}

const ProofCase& home_case() {
    static const ProofCase made =
        proof_case(shifted_job(), taken(read_dialect(guide_dialect_text(), "own.toml")));
    return made;
}

/// The same, with a place of the job's own where the program ends.
const ProofCase& place_case() {
    static const ProofCase made = [] {
        Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat());
        job.shaft.blank_diameter = 17.0;
        job.cutters["disc"] = basalt::disc(32.0, 8.0, 12.0);
        job.machine = basalt::four().machine;
        job.cut = basalt::four().cut;
        job.cut->cutter = "disc";
        return proof_case(job, shipped_dialect("rs274ngc-xza"));
    }();
    return made;
}

void check_found(const ProofCase& made, const std::string& text, const std::string& code,
                 const std::string& at) {
    INFO(text.substr(0, 2500));
    const ProofReport report = made.prove(text);
    INFO(findings_text(report));
    const Diagnostic* found = finding_of(report, code);
    REQUIRE(found != nullptr);
    CHECK(found->severity == Severity::error);
    CHECK(found->place.line == line_of(text, at));
}

}  // namespace

TEST_CASE("a program from home, with a length and a side axis, passes its proof and ends clear") {
    const ProofReport report = home_case().prove();
    INFO(findings_text(report));
    CHECK_FALSE(fails(report));
    CHECK(report.ends_clear);
    CHECK_FALSE(fails(place_case().prove()));
    CHECK(place_case().prove().ends_clear);
}

TEST_CASE("another tool, another length or none at all is found") {
    const std::string& text = home_case().text;
    check_found(home_case(), with(text, "T7 M6", "T8 M6"), "wrong-tool", "T8 M6");
    check_found(home_case(), with(text, "T7 M6", "M6"), "wrong-tool", "M6");
    check_found(home_case(), with(text, "G43 H17", "G43 H7"), "length", "G0 Z11.5");
    check_found(home_case(), with(text, "G43 H17\n", ""), "length", "G0 Z11.5");
    check_found(home_case(), with(text, "G43 H17", "G49"), "length", "G0 Z11.5");
}

TEST_CASE("a tool word that holds the offset is held against both numbers") {
    ProofCase made = place_case();
    made = proof_case(made.job, shipped_dialect("iso6983-xzc"));
    CHECK_FALSE(fails(made.prove()));
    check_found(made, with(with(made.text, "T0101", "T0201"), "T0100", "T0200"), "wrong-tool", "T0201");
    check_found(made, with(made.text, "T0101", "T0102"), "length", "X55.");
}

TEST_CASE("a side axis away from the job's shift is found, or one that was never sent anywhere") {
    const std::string& text = home_case().text;
    check_found(home_case(), with(text, "G0 Y4.5", "G0 Y4.49"), "side-axis", "G1 ");
    const auto unsent = prove(home_case().job, home_case().lobes, home_case().dialect,
                              with(text, "G0 Y4.5\n", ""), "unsent.ngc");
    REQUIRE_FALSE(unsent.ok());
    CHECK(unsent.diagnostics().front().code == "place-unknown");
}

TEST_CASE("a tool that changes away from its place is found") {
    const std::string& text = place_case().text;
    check_found(place_case(),
                with(with(text, "T1 M6\n", ""), "G0 A0.\nG0 X27.5\n", "G0 A0.\nG0 X27.5\nT1 M6\nS600 M3\n"),
                "changes-elsewhere", "T1 M6");
    const std::string& home = home_case().text;
    check_found(home_case(), with(with(home, "T7 M6\n", ""), "G43 H17\n", "G90 G0 X20.\nT7 M6\nG43 H17\n"),
                "changes-elsewhere", "T7 M6");
}

TEST_CASE("an end that is not clear of the shaft, or not where tools change, is found") {
    const std::string& text = place_case().text;
    const std::string end = "G0 X60.\nG0 Z150.\nM5";
    const std::string low = with(text, end, "G0 X26.\nM5");
    check_found(place_case(), low, "ends-not-clear", "G0 X26.");
    CHECK_FALSE(place_case().prove(low).ends_clear);
    const std::string half_way = with(text, end, "G0 X60.\nM5");
    const ProofReport report = place_case().prove(half_way);
    CHECK_FALSE(report.ends_clear);
    CHECK(finding_of(report, "ends-elsewhere") != nullptr);
    CHECK_THAT(proof_json(place_case().job, report), ContainsSubstring("\"ends_clear\": false"));
}

TEST_CASE("the way home begins clear of the shaft, and is the whole way") {
    const std::string& text = home_case().text;
    const std::size_t last = text.rfind("G53 G0 Z0");
    const std::string early = std::string(text).insert(last, "G0 Z8.\n");
    const ProofReport report = home_case().prove(early);
    INFO(findings_text(report));
    CHECK(finding_of(report, "home-from-within") != nullptr);
    const std::size_t second = text.find("G53 G0 X0 Y0");
    const std::string half = std::string(text).erase(second, std::string("G53 G0 X0 Y0\n").size());
    CHECK(finding_of(home_case().prove(half), "blind-move") != nullptr);
}

TEST_CASE("after the way home nothing is taken for granted") {
    const std::string& text = home_case().text;
    const auto relative = prove(home_case().job, home_case().lobes, home_case().dialect,
                                with(text, "G90 G0 X20.", "G0 X20."), "relative.ngc");
    REQUIRE_FALSE(relative.ok());
    CHECK(relative.diagnostics().front().code == "distance-mode-not-set");
}

TEST_CASE("words beyond the machine's travel are found, in the words that it shows") {
    ProofCase made = place_case();
    made.job.machine->limits.radial_travel = Travel{-1.0, 59.9};
    made.job.machine->limits.axial_travel = Travel{0.0, 200.0};
    const ProofReport report = made.prove();
    const Diagnostic* found = finding_of(report, "beyond-travel");
    REQUIRE(found != nullptr);
    CHECK(found->place.line == line_of(made.text, "G0 X60."));
    made.job.machine->limits.radial_travel = Travel{-1.0, 60.0};
    CHECK(finding_of(made.prove(), "beyond-travel") == nullptr);
    made = proof_case(place_case().job, shipped_dialect("rs274ngc-xzc"));
    made.job.machine->limits.radial_travel = Travel{-1.0, 119.9};
    CHECK(finding_of(made.prove(), "beyond-travel") != nullptr);
    made.job.machine->limits.radial_travel = Travel{-1.0, 120.0};
    CHECK(finding_of(made.prove(), "beyond-travel") == nullptr);
}
