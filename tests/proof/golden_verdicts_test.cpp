/// For each dialect a program and the proof's verdict on it, to the byte; and what a machine may read of a
/// verdict.
#include "basalt.h"
#include "catch.h"
#include "program.h"
#include "proof_case.h"

#include <nlohmann/json.hpp>

#include <cstdlib>
#include <filesystem>

using namespace lobewright;

namespace {

/// Two lobes of the invented Basalt, the second with an unsymmetrical law, roughed and finished by a disc.
Job golden_job() {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 25.0), basalt::flat(14.0));
    job.title = "Basalt pair";
    job.lobes.front().name = "1 inlet";
    job.lobes.front().at = ShaftAngle::from_degrees(-106.0);
    job.profiles["lopsided"] = basalt::lopsided(6.0, 2.0);
    LobeEntry second = job.lobes.front();
    second.name = "1 exhaust", second.profile = "lopsided", second.z = 32.0;
    second.at = ShaftAngle::from_degrees(108.0);
    job.lobes.push_back(second);
    job.shaft.blank_diameter = 17.0;
    job.shaft.journals = {{6.0, 10.0, 10.0}, {46.0, 10.0, 10.0}};
    Cutter disc;
    disc.kind = CutterKind::disc;
    disc.diameter = 40.0, disc.width = 7.0, disc.neck_diameter = 12.0, disc.teeth = 12;
    job.cutters["disc40"] = disc;
    Machine machine;
    machine.cutter_axis = CutterAxis::parallel;
    machine.tool_change = ToolChange{60.0, 70.0};
    machine.limits.radial_speed = 2000.0, machine.limits.axial_speed = 2000.0,
    machine.limits.rotary_speed = 7200.0;
    job.machine = machine;
    Cut cut;
    cut.cutter = "disc40";
    cut.tolerance = 0.005;
    cut.rough_depth = 1.5;
    cut.surface_feed = 120.0;
    cut.spindle_speed = 600.0;
    job.cut = cut;
    return job;
}

bool renewing() {
    return std::getenv("LOBEWRIGHT_RENEW_GOLDEN") != nullptr;
}

void check_golden(const std::filesystem::path& file, const std::string& text) {
    if (renewing()) write_file(file, text);
    INFO(file);
    CHECK(text == file_text(file));
}

ProofCase golden_case(const std::string& dialect) {
    Job job = golden_job();
    job.machine->post = dialect;
    return proof_case(job);
}

}  // namespace

// Renewed by the target renew_proof_golden alone; read by eye before it is committed.
TEST_CASE("each dialect's golden program has its golden verdict, and is proven", "[golden]") {
    const auto folder = source_folder() / "tests" / "proof" / "golden";
    for (const char* name :
         {"rs274ngc-xza", "rs274ngc-zxa", "rs274ngc-yxa", "rs274ngc-xzc", "iso6983-xzc", "plain-xa"}) {
        ProofCase made = golden_case(name);
        const auto program = folder / (std::string(name) + ".ngc");
        if (renewing()) write_file(program, made.text);
        made.text = file_text(program);  // stands as it is, whatever the planner makes of the job today
        const ProofReport report = made.prove();
        check_golden(folder / (std::string(name) + ".txt"), proof_text(made.job, report, made.text));
        check_golden(folder / (std::string(name) + ".json"), proof_json(made.job, report));
        CHECK_FALSE(fails(report));
    }
}

TEST_CASE("the verdict's JSON has the contract's names, in the job's units") {
    ProofCase made = golden_case("rs274ngc-xza");
    made.job.units = Units::inch;
    const std::string text = made.text.substr(0, made.text.find("M30"));
    const ProofReport report = made.prove(text);
    const auto json = nlohmann::json::parse(proof_json(made.job, report));
    CHECK(json.at("within_tolerance") == true);
    CHECK_NEAR(json.at("tolerance").get<double>(), 0.005 / 25.4, 1e-9);
    REQUIRE(json.at("lobes").size() == 2);
    const auto& lobe = json.at("lobes").at(0);
    CHECK(lobe.at("name") == "1 inlet");
    CHECK_NEAR(lobe.at("deepest").get<double>(), report.lobes[0].deepest.along_normal / 25.4, 1e-9);
    CHECK_NEAR(lobe.at("deepest_at").get<double>(), report.lobes[0].deepest.at.degrees(), 1e-9);
    CHECK_NEAR(lobe.at("proudest").get<double>(), report.lobes[0].proudest.along_normal / 25.4, 1e-9);
    CHECK_NEAR(lobe.at("proudest_at").get<double>(), report.lobes[0].proudest.at.degrees(), 1e-9);
    CHECK(json.at("rapids_in_stock") == 0);
    CHECK(json.at("blocks") == report.blocks);
    CHECK_NEAR(json.at("cycle_seconds").get<double>(), report.cycle_seconds, 1e-9);
    REQUIRE(json.at("findings").size() == 1);
    CHECK(json.at("findings").at(0).at("code") == "not-ended");
    CHECK(json.at("findings").at(0).at("severity") == "error");
    CHECK(json.at("findings").at(0).at("line").is_null());
}

TEST_CASE("the readable verdict shows the program's line beside each finding") {
    const ProofCase made = golden_case("iso6983-xzc");
    std::string text = made.text;
    const std::size_t at = text.find(" M03\r");
    text.replace(at + 1, 3, "M04");
    const ProofReport report = made.prove(text);
    const Diagnostic* finding = finding_of(report, "spindle-reversed");
    REQUIRE(finding != nullptr);
    const std::string shown = proof_text(made.job, report, text);
    CHECK_THAT(shown, ContainsSubstring("line " + std::to_string(finding->place.line) + ": "));
    std::size_t start = 0;
    for (int line = 1; line < finding->place.line; ++line)
        start = text.find('\n', start) + 1;
    const std::string line = text.substr(start, text.find('\r', start) - start);
    CHECK_THAT(shown, ContainsSubstring("| " + line + "\n"));
    CHECK_THAT(shown, ContainsSubstring("NOT PROVEN"));
}
