// Operations end to end: planned, written and proven one after the other, on what those before them leave.

#include "basalt.h"
#include "catch.h"
#include "job_kit.h"

#include <lobewright/operation_work.h>
#include <lobewright/operations.h>
#include <lobewright/proven_program.h>
#include <lobewright/ways.h>

#include <algorithm>
#include <random>

using namespace lobewright;

namespace {

Machine machine(CutterAxis axis, const char* post) {
    Machine made;
    made.post = post;
    made.cutter_axis = axis;
    made.tool_change = ToolChange{80.0, 150.0};
    return made;
}

Operation operation(const std::string& name, const std::string& machine, const std::string& cutter,
                    double allowance, double tolerance) {
    Operation made;
    made.name = name, made.machine = machine;
    made.cut.cutter = cutter;
    made.cut.allowance = allowance, made.cut.tolerance = tolerance;
    made.cut.surface_feed = 120.0, made.cut.spindle_speed = 800.0;
    return made;
}

/// Two unlike lobes of a bar of 18 mm: roughed under an end mill on a mill, hardened, ground with a wheel.
Job mill_and_grinder() {
    Job job = basalt::job(basalt::lopsided(6.0, 2.4), basalt::flat(20.0));
    LobeEntry second = job.lobes.front();
    second.name = "second", second.z = 45.0, second.at = ShaftAngle::from_degrees(110.0);
    job.lobes.push_back(second);
    job.shaft.blank_diameter = 18.0;
    job.cutters["em20"] = basalt::end_mill(20.0, 38.0);
    job.cutters["wheel"] = basalt::disc(60.0, 8.0, 12.0);
    job.cutters["wheel"].teeth = 0;
    job.cutters["disc"] = basalt::disc(40.0, 7.0, 12.0);
    job.machines["mill"] = machine(CutterAxis::radial, "rs274ngc-zxa");
    job.machines["grinder"] = machine(CutterAxis::parallel, "rs274ngc-xza");
    job.operations = {operation("rough", "mill", "em20", 0.25, 0.01),
                      operation("grind", "grinder", "wheel", 0.0, 0.002)};
    job.operations[0].cut.rough_depth = 0.8;
    return job;
}

std::vector<OperationWork> works(const Job& job) {
    std::vector<Dialect> dialects;
    for (const Job& one : jobs_of_operations(job))
        dialects.push_back(shipped_dialect(one.machine->post));
    return works_of(job, taken(solve_lobes(job)), dialects);
}

ProvenProgram proven(const std::vector<OperationWork>& all, std::size_t index) {
    const auto earlier = taken(programs_before(all, index));
    const OperationWork& work = all[index];
    return taken(proven_program(work.job, work.lobes, work.dialect, earlier));
}

/// The text with its comments' line breaks taken out, for what the header says.
std::string in_one_line(const std::string& text) {
    std::string line;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        std::string part = text.substr(at, end - at);
        std::erase_if(part, [](char c) { return c == '(' || c == ')'; });
        line += part + ' ';
        at = end + 1;
    }
    return line;
}

}  // namespace

TEST_CASE("a shaft roughed on a mill and ground on a grinder: each program passes on what the other leaves") {
    const auto all = works(mill_and_grinder());
    REQUIRE(all.size() == 2);
    const ProvenProgram rough = proven(all, 0), ground = proven(all, 1);
    CHECK(rough.proof.within_tolerance);
    CHECK(ground.proof.within_tolerance);
    // What was left is between 0.24 and 0.26 mm, what is left then within 0.002 mm.
    CHECK(ground.proof.largest_depth <= 0.262);
    CHECK(ground.path.passes.size() == 2);
    CHECK_THAT(in_one_line(rough.text), ContainsSubstring("Operation 1 of 2: rough, on machine mill") &&
                                            !ContainsSubstring("The stock that this expects"));
    CHECK_THAT(in_one_line(ground.text),
               ContainsSubstring("Operation 2 of 2: grind, on machine grinder. Before it comes rough") &&
                   ContainsSubstring("The stock that this expects: every lobe with 0.25 mm left on the "
                                     "design, give or take 0.01 mm, as operation rough leaves it."));
}

TEST_CASE("a roughing and a finishing cutter on one machine, the second of some lobes alone") {
    Job job = mill_and_grinder();
    job.operations = {operation("rough", "grinder", "disc", 0.3, 0.02),
                      operation("finish", "grinder", "wheel", 0.0, 0.002)};
    job.operations[0].cut.rough_depth = 0.8;
    job.operations[1].lobes = {"second"};
    const auto all = works(job);
    CHECK(all[1].left_out == std::vector<std::string>{"lobe"});
    REQUIRE(all[1].lobes.size() == 1);
    // The lobe that is left out stands in the way as it was roughed, no longer as bar.
    const Journal& standing = all[1].job.shaft.journals.back();
    CHECK_NEAR(standing.diameter, 2.0 * (taken(solve_lobes(job))[0].contour.largest_radius() + 0.32), 1e-9);
    const ProvenProgram finish = proven(all, 1);
    CHECK(finish.proof.lobes.size() == 1);
    CHECK(finish.proof.within_tolerance);
}

TEST_CASE("of lobes that an operation before did not cut the bar stands there") {
    Job job = mill_and_grinder();
    job.operations[0].lobes = {"lobe"};
    job.operations[1].cut.rough_depth = 0.8;
    const auto all = works(job);
    const ProvenProgram ground = proven(all, 1);
    CHECK(ground.proof.within_tolerance);
    CHECK_THAT(in_one_line(ground.text),
               ContainsSubstring("lobe with 0.25 mm left on the design, give or take 0.01 mm, as operation "
                                 "rough leaves it, and second as bar."));
    const auto turns = [&](std::size_t lobe) {
        int count = 0;
        for (const Pass& pass : ground.path.passes)
            count += pass.lobe == lobe ? pass.turns : 0;
        return count;
    };
    CHECK(turns(1) > turns(0));
}

TEST_CASE("a casting is cut from what is left on it, whatever its machine") {
    for (const CutterAxis axis : {CutterAxis::parallel, CutterAxis::radial, CutterAxis::tangential}) {
        Job job = mill_and_grinder();
        job.operations.clear();
        job.machines.clear();
        job.machine = machine(axis, "rs274ngc-xza");
        job.cut = operation("", "", axis == CutterAxis::parallel ? "disc" : "em20", 0.0, 0.005).cut;
        job.stock.left_on = 1.5;
        job.shaft.blank_diameter = 20.0;
        if (axis == CutterAxis::radial) job.cut->rough_depth = 0.6;
        const auto all = works(job);
        const ProvenProgram program = proven(all, 0);
        CHECK(program.proof.within_tolerance);
        CHECK(program.proof.largest_depth <= 1.25 * job.cut->rough_depth.value_or(0.5));
        CHECK_THAT(
            in_one_line(program.text),
            ContainsSubstring("The stock that this expects: every lobe with 1.5 mm left on the design."));
    }
}

TEST_CASE("check has a row for each operation, in order, by its name") {
    const Job job = mill_and_grinder();
    const auto lobes = taken(solve_lobes(job));
    const std::vector<Dialect> dialects = {shipped_dialect("rs274ngc-zxa"), shipped_dialect("rs274ngc-xza")};
    const std::vector<Way> ways = ways_by_operations(job, lobes, dialects);
    REQUIRE(ways.size() == 2);
    CHECK(ways[0].name == "rough");
    CHECK(ways[1].name == "grind");
    CHECK(ways[1].method == "operation grind: wheel, parallel to the shaft");
    for (const Way& way : ways) {
        CHECK(way.verdict != Verdict::no);
        CHECK(way.wanted);
        CHECK(way.minutes.value_or(0.0) > 0.0);
    }
    Job impossible = job;
    impossible.operations[0].cut.side_shift = 30.0;  // beside the lobes
    const std::vector<Way> then = ways_by_operations(impossible, lobes, dialects);
    CHECK(then[0].verdict == Verdict::no);
    CHECK(then[1].verdict != Verdict::no);  // on what the job says that the first leaves
    CHECK(fails_by(then[0], then));
}

TEST_CASE("random operations on random stock pass their proofs, and take no more than they say") {
    constexpr unsigned seed = 1907;
    std::mt19937 random(seed);
    const auto between = [&](double low, double high) {
        return low + (high - low) * (static_cast<double>(random()) / 4294967296.0);
    };
    int programs = 0;
    for (int i = 0; i < 6; ++i) {
        INFO("job " << i << " of seed " << seed);
        Job job = mill_and_grinder();
        job.profiles["profile"] = basalt::lopsided(between(5.5, 6.4), between(1.2, 2.4));
        if (i % 2 == 1) job.stock.left_on = between(0.6, 2.0);
        job.shaft.blank_diameter = 20.0;
        Cut &first = job.operations[0].cut, &last = job.operations[1].cut;
        first.tolerance = between(0.005, 0.03);
        first.allowance = between(0.1, 0.4);
        first.rough_depth = between(0.3, 0.9);
        last.tolerance = between(0.001, 0.004);
        if (i % 3 == 0) last.rough_depth = between(0.05, 0.3);
        if (i % 3 == 1) last.finish_depth = between(0.05, 0.3);
        const auto all = works(job);
        for (std::size_t k = 0; k < all.size(); ++k) {
            const ProvenProgram program = proven(all, k);
            const Cut& cut = *all[k].job.cut;
            CHECK(program.proof.within_tolerance);
            CHECK(program.proof.largest_depth <=
                  1.25 * cut.rough_depth.value_or(cut.finish_depth.value_or(0.5)));
            ++programs;
        }
        const double most = first.allowance + first.tolerance + last.tolerance;
        CHECK(proven(all, 1).proof.largest_depth <= most);
    }
    CHECK(programs == 12);
}
