// Several operations as one program: where it changes tools, and what the proof makes of a change gone wrong.

#include "basalt.h"
#include "catch.h"
#include "guide_dialect.h"
#include "job_kit.h"
#include "outside_interpreter.h"

#include <lobewright/one_program.h>
#include <lobewright/operations.h>
#include <lobewright/proven_program.h>

#include <nlohmann/json.hpp>

#include <algorithm>

using namespace lobewright;

namespace {

Operation operation(const std::string& name, const std::string& cutter, double allowance, double tolerance) {
    Operation made;
    made.name = name;
    made.cut.cutter = cutter;
    made.cut.allowance = allowance, made.cut.tolerance = tolerance;
    made.cut.surface_feed = 120.0, made.cut.spindle_speed = 400.0;
    return made;
}

/// Two lobes of a bar, roughed with a large disc as tool 3 and finished with a small one as tool 4.
Job two_discs() {
    Job job = basalt::job(basalt::lopsided(6.0, 2.4), basalt::flat(20.0));
    LobeEntry second = job.lobes.front();
    second.name = "second", second.z = 40.0, second.at = ShaftAngle::from_degrees(110.0);
    job.lobes.push_back(second);
    job.shaft.blank_diameter = 18.0;
    int number = 2;
    for (const auto& [name, cutter] :
         {std::pair{"large", basalt::disc(60.0, 8.0, 20.0)}, {"small", basalt::disc(32.0, 7.0, 10.0)}}) {
        job.cutters[name] = cutter;
        job.cutters[name].number = job.cutters[name].offset_number = ++number;
    }
    job.machine = Machine{};
    job.machine->cutter_axis = CutterAxis::parallel;
    job.machine->tool_change = ToolChange{80.0, 150.0};
    job.machine->limits.rotary_speed = 7200.0;
    job.operations = {operation("rough", "large", 0.25, 0.01), operation("finish", "small", 0.0, 0.002)};
    job.operations[0].cut.rough_depth = 0.8;
    job.operations[0].cut.spindle_speed = 200.0;
    return job;
}

/// Lengths by H, the machine's own way home.
Dialect numbered_lengths() {
    return taken(read_dialect(guide_dialect_text(), "own.toml"));
}

std::vector<OperationWork> works(const Job& job, const Dialect& dialect) {
    return works_of(job, taken(solve_lobes(job)), std::vector<Dialect>(job.operations.size(), dialect));
}

OneProgram one_program(const Job& job, const Dialect& dialect) {
    const auto all = works(job, dialect);
    REQUIRE_FALSE(hindrance_to_one_program(all));
    return taken(proven_in_one(all));
}

std::string hindrance(const Job& job, const Dialect& dialect) {
    const auto found = hindrance_to_one_program(works(job, dialect));
    return found ? to_text(*found) : "none";
}

std::vector<OperationCut> cuts_of(const OneProgram& program) {
    std::vector<OperationCut> cuts;
    for (const PlannedOperation& each : program.operations)
        cuts.push_back({each.job, each.lobes});
    return cuts;
}

/// Codes of the errors that the proof finds in a text, by operation: "1 wrong-tool".
std::vector<std::string> errors_of(const OneProgram& program, const std::string& text,
                                   const Dialect& dialect) {
    const auto reports = prove_operations(cuts_of(program), dialect, pieces_of(text), "spoiled.ngc");
    std::vector<std::string> codes;
    for (const Diagnostic& each : reports.diagnostics())
        codes.push_back(each.code);
    if (!reports) return codes;
    for (std::size_t i = 0; i < reports->size(); ++i) {
        for (const Diagnostic& finding : (*reports)[i].findings)
            if (finding.severity == Severity::error) codes.push_back(std::to_string(i) + ' ' + finding.code);
    }
    return codes;
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += word + '\n';
    return text;
}

/// The blocks without comments, from the one that begins so, at its last place.
std::string blocks_from_last(const std::string& text, const std::string& first, int count) {
    std::string blocks;
    std::size_t at = text.rfind('\n' + first) + 1;
    for (; count > 0 && at < text.size(); at = text.find('\n', at) + 1) {
        std::string block = text.substr(at, text.find('\n', at) - at);
        block = block.substr(0, block.find('('));
        block.erase(block.find_last_not_of(' ') + 1);
        if (block.empty()) continue;
        blocks += block + '\n';
        --count;
    }
    return blocks;
}

}  // namespace

TEST_CASE("one program changes tools where they change, and cuts what two programs would") {
    const Job job = two_discs();
    const Dialect dialect = shipped_dialect("iso6983-xzc");
    const OneProgram program = one_program(job, dialect);
    REQUIRE(program.proofs.size() == 2);
    const auto apart = works(job, dialect);
    const auto rough = taken(proven_program(apart[0].job, apart[0].lobes, dialect));
    const auto finish =
        taken(proven_program(apart[1].job, apart[1].lobes, dialect, {{apart[0].job, dialect, rough.text}}));
    for (const auto& [one, other] :
         {std::pair{program.proofs[0], rough.proof}, {program.proofs[1], finish.proof}}) {
        CHECK(one.within_tolerance);
        CHECK(one.ends_clear);
        CHECK_NEAR(one.largest_depth, other.largest_depth, 1e-9);
        for (std::size_t i = 0; i < one.lobes.size(); ++i) {
            CHECK_NEAR(one.lobes[i].deepest.along_normal, other.lobes[i].deepest.along_normal, 1e-9);
            CHECK_NEAR(one.lobes[i].proudest.along_normal, other.lobes[i].proudest.along_normal, 1e-9);
        }
    }
    // X is a diameter: out to 80, along to 150, the spindle off, the length off; the next; out by its own.
    CHECK_THAT(blocks_from_last(program.text, "N10 ", 4000),
               ContainsSubstring("M05") && ContainsSubstring("T0300") && ContainsSubstring("T0404"));
}

TEST_CASE("between operations: off, out, the next tool with its length, out by that, and in as at first") {
    Job job = two_discs();
    const OneProgram program = one_program(job, numbered_lengths());
    CHECK_THAT(
        program.text,
        ContainsSubstring(
            "G0 Z80.\nG0 X150.\nM5\nG49\n(Operation finish. Tool 4, its length is number 4. Cutter small"));
    CHECK(blocks_from_last(program.text, "T4 M6", 8) ==
          "T4 M6\nG43 H4\nS400 M3\nG4 P3\nG0 Z80.\nG0 X20.\nG0 Y0.\n" +
              blocks_from_last(program.text, "G0 Y0.", 2).substr(7));
    job.machine->tool_change.reset();
    const OneProgram from_home = one_program(job, numbered_lengths());
    CHECK_THAT(from_home.text, ContainsSubstring("G53 G0 Z0\nG53 G0 X0 Y0\nM5\nG49\n(Operation finish"));
    CHECK(blocks_from_last(from_home.text, "T4 M6", 6) ==
          "T4 M6\nG43 H4\nS400 M3\nG4 P3\nG90 G0 X20.\nG0 Y0.\n");
}

TEST_CASE("the header tells each tool, its number and its spindle, and that tools change") {
    const OneProgram program = one_program(two_discs(), numbered_lengths());
    for (const char* part :
         {"(Operations of this one program, in their order: rough, finish)",
          "(Operation rough: Cutter large: disc, diameter 60 mm",
          "(Operation finish: Cutter small: disc, diameter 32 mm",
          "(Operation rough: Tool 3, its length is number 3)",
          "(Operation finish: Tool 4, its length is number 4)", "(Operation rough: Spindle: 200 rev/min",
          "(Operation finish: Spindle: 400 rev/min", "(Between operations tools change at Z80. X150.",
          "the cutters' lengths under numbers 3 and 4", "without the tool changes"})
        CHECK_THAT(program.text, ContainsSubstring(part));
}

TEST_CASE("as JSON each operation of a program says what it would say alone, under its name and its cutter") {
    using Json = nlohmann::ordered_json;
    const OneProgram program = one_program(two_discs(), numbered_lengths());
    const Json plans = Json::parse(operations_json(program.operations))["operations"];
    const Json proofs = Json::parse(proofs_json(cuts_of(program), program.proofs))["operations"];
    REQUIRE(plans.size() == 2);
    REQUIRE(proofs.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        const PlannedOperation& each = program.operations[i];
        Json plan = plans[i], proof = proofs[i];
        for (Json* told : {&plan, &proof}) {
            CHECK((*told)["operation"] == (i == 0 ? "rough" : "finish"));
            CHECK((*told)["cutter"] == (i == 0 ? "large" : "small"));
            told->erase("operation"), told->erase("cutter");
        }
        CHECK(plan == Json::parse(toolpath_json(each.job, each.lobes, each.path, {})));
        CHECK(proof == Json::parse(proof_json(each.job, program.proofs[i])));
    }
}

TEST_CASE("the shaft runs on from one operation to the next, and winds back where it has no room") {
    Job job = two_discs();
    const auto jump = [](const OneProgram& program) {
        const Toolpath& path = program.operations[1].path;
        const Toolpath& before = program.operations[0].path;
        return static_cast<double>(path.start.rotary - before.moves.back().to.rotary) * path.grid.rotary_step;
    };
    const OneProgram free = one_program(job, numbered_lengths());
    CHECK(std::abs(jump(free)) <= 180.0);
    CHECK(free.proofs[1].within_tolerance);
    double furthest = 0.0;
    for (const Move& move : free.operations[0].path.moves)
        furthest = std::max(furthest, std::abs(static_cast<double>(move.to.rotary)) *
                                          free.operations[0].path.grid.rotary_step);
    job.machine->limits.rotary_travel = furthest + 30.0;  // enough for the first, not for both
    const OneProgram bound = one_program(job, numbered_lengths());
    CHECK(std::abs(jump(bound)) > 360.0);
    CHECK(bound.proofs[1].within_tolerance);
}

TEST_CASE("two operations with one cutter are one program wherever it has a number") {
    Job job = two_discs();
    job.operations[1].cut.cutter = "large";
    const OneProgram program = one_program(job, shipped_dialect("rs274ngc-xza"));
    CHECK(program.proofs[0].within_tolerance);
    CHECK(program.proofs[1].within_tolerance);
}

TEST_CASE("a change gone wrong is found in the operation that it spoils") {
    const Dialect dialect = numbered_lengths();
    const OneProgram program = one_program(two_discs(), dialect);
    const std::string& text = program.text;
    REQUIRE(errors_of(program, text, dialect).empty());
    struct Spoiled {
        const char* part;
        const char* by;
        const char* code;
    };
    for (const auto& [part, by, code] :
         {Spoiled{"T4 M6\n", "", "1 wrong-tool"}, Spoiled{"T4 M6", "T5 M6", "1 wrong-tool"},
          Spoiled{"G43 H4", "G43 H3", "1 length"}, Spoiled{"G43 H4\n", "", "1 length"},
          Spoiled{"S400 M3", "S200 M3", "1 spindle-speed"}, Spoiled{"S400 M3\n", "", "1 spindle-off"},
          Spoiled{"G0 X150.\nM5\nG49\n(Operation", "M5\nG49\n(Operation", "0 ends-elsewhere"},
          Spoiled{"G0 X150.\nM5\nG49\n(Operation", "M5\nG49\n(Operation", "1 changes-elsewhere"},
          Spoiled{"G0 Z80. (out by its own length, before all else)\n", "", "1 blind-move"},
          Spoiled{
              "T4 M6\nG43 H4\n",
              "T4 M6\nG43 H4\nG90 G0 Z80.\nG0 X150.\nG0 Y0.\nG0 A0.\nG1 Z79. F60.\nG0 Z80.\nT4 M6\nG43 H4\n",
              "tool-change"}}) {
        INFO(part << " -> " << by);
        CHECK_THAT(joined(errors_of(program, with(text, part, by), dialect)), ContainsSubstring(code));
    }
}

TEST_CASE("each cutter is swept as itself: swapped diameters leave the tolerance") {
    const Dialect dialect = numbered_lengths();
    OneProgram program = one_program(two_discs(), dialect);
    program.operations[1].job.cutters["small"].diameter -= 0.02;  // the words are those of the axis
    CHECK_THAT(joined(errors_of(program, program.text, dialect)),
               ContainsSubstring("1 material-left") && !ContainsSubstring("0 "));
}

TEST_CASE("what can't be one program says which key stands in the way") {
    const Job job = two_discs();
    const Dialect own = numbered_lengths();
    CHECK(hindrance(job, own) == "none");
    CHECK_THAT(hindrance(job, shipped_dialect("rs274ngc-xza")),
               ContainsSubstring("puts no tool's length on"));
    CHECK_THAT(hindrance(job, shipped_dialect("plain-xa")), ContainsSubstring("no line that changes tools"));
    Job same = job;
    same.cutters["small"].number = 3;
    CHECK_THAT(hindrance(same, own), ContainsSubstring("'large' and 'small' have the same number, 3"));
    same.cutters["small"].number = 4, same.cutters["small"].offset_number = 3;
    CHECK_THAT(hindrance(same, own), ContainsSubstring("the same offset_number, 3"));
    Job nowhere = job;
    nowhere.machine->tool_change.reset();
    CHECK_THAT(hindrance(nowhere, shipped_dialect("iso6983-xzc")),
               ContainsSubstring("nothing says where tools change"));
    Job folded = job;
    folded.machine->limits.rotary_travel = 400.0;
    Dialect round = own;
    round.rotary_range = RotaryRange::folded;
    CHECK_THAT(hindrance(folded, round), ContainsSubstring("can't wind it back"));
    Job apart = job;
    apart.machines["mill"] = apart.machines["grinder"] = *job.machine;
    apart.operations[0].machine = "mill", apart.operations[1].machine = "grinder";
    CHECK_THAT(hindrance(apart, own), ContainsSubstring("'rough' is for machine mill, 'finish' for grinder"));
}

TEST_CASE("a program that is longer than the controller's memory is refused whole") {
    Dialect dialect = numbered_lengths();
    const Job job = two_discs();
    const auto length = static_cast<int>(one_program(job, dialect).text.size());
    dialect.longest_program = length;
    CHECK(proven_in_one(works(job, dialect)).ok());
    dialect.longest_program = length - 1;
    const auto refused = proven_in_one(works(job, dialect));
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.diagnostics().front().code == "program-too-long");
}

TEST_CASE("an outside interpreter changes to each tool once, with its length, before it feeds", "[outside]") {
    if (!outside::installed()) return outside::say_skipped();
    Job job = two_discs();
    Dialect dialect = shipped_dialect("rs274ngc-xza");
    dialect.home = {"G53 G0 X0", "G53 G0 Z0"};
    dialect.length_on = "G43 H{offset}", dialect.length_off = "G49";
    const OneProgram program = one_program(job, dialect);
    const outside::Reading reading = outside::interpret(program.text);
    INFO(reading.error);
    REQUIRE(reading.accepted());
    std::string order;
    for (const std::string& call : reading.calls) {
        const std::string name = call.substr(0, call.find('('));
        if (name == "CHANGE_TOOL") order += call.substr(call.find('('));
        if (name == "STRAIGHT_FEED" && order.back() != 'F') order += 'F';
        if (name == "STOP_SPINDLE_TURNING" && order.back() != 'S') order += 'S';
    }
    CHECK(order == "S(3)FS(4)FS");
    const auto feeds =
        std::count_if(reading.moves.begin(), reading.moves.end(),
                      [](const outside::Move& move) { return move.kind == outside::Kind::feed; });
    long planned = 0;
    for (const PlannedOperation& each : program.operations)
        planned += std::count_if(each.path.moves.begin(), each.path.moves.end(),
                                 [](const Move& move) { return move.kind == MoveKind::feed; });
    CHECK(feeds == planned);
}
