#include "catch.h"
#include "job_text.h"

#include <lobewright/needs.h>
#include <lobewright/operations.h>

#include <algorithm>

using namespace lobewright;
using namespace job_text;

namespace {

const std::string machines = R"([machine.mill]
post = "rs274ngc-zxa"
cutter_axis = "radial"
rotary_positive = "ccw"
[machine.grinder]
post = "rs274ngc-xza"
cutter_axis = "parallel"
rotary_positive = "cw"
[machine.grinder.limits]
rotary_speed = 720
)";

const std::string rough = R"([[operation]]
name = "rough"
machine = "mill"
cutter = "em10"
tolerance = 0.02
allowance = 0.25
rough_depth = 0.8
surface_feed = 120.0
spindle_speed = 2000
)";

const std::string grind = R"([[operation]]
name = "grind"
machine = "grinder"
cutter = "disc"
tolerance = 0.002
surface_feed = 60.0
spindle_speed = 3000
)";

/// The whole job without its machine and its cut, and with `more` at its end.
std::string with_more(const std::string& more) {
    std::string text = whole_job();
    for (const char* section : {"machine.tool_change", "machine.limits", "machine", "cut"})
        text = without(text, section);
    return text + more;
}

std::string two_operations() {
    return with_more(machines + rough + grind);
}

/// With one place of the text changed.
std::string changed(const std::string& text, const std::string& part, const std::string& by) {
    std::string made = text;
    const auto at = made.find(part);
    REQUIRE(at != std::string::npos);
    return made.replace(at, part.size(), by);
}

Job job_of(const std::string& text) {
    const auto job = read(text);
    INFO(complaints(job));
    REQUIRE(job.ok());
    return *job;
}

/// The only complaint, which stands at the line on which `part` first stands.
void check_refused(const std::string& text, const std::string& part, const std::string& words) {
    const auto job = read(text);
    INFO(complaints(job));
    REQUIRE_FALSE(job.ok());
    REQUIRE(job.diagnostics().size() == 1);
    const Diagnostic& complaint = job.diagnostics().front();
    CHECK(complaint.fault == Fault::bad_input);
    const auto at = static_cast<std::ptrdiff_t>(text.find(part));
    CHECK(complaint.place.line == 1 + std::count(text.begin(), text.begin() + at, '\n'));
    CHECK_THAT(to_text(complaint), ContainsSubstring(words));
}

}  // namespace

TEST_CASE("operations are read in their order, each with its machine and its lobes") {
    const Job job = job_of(changed(two_operations(), "machine = \"grinder\"\n",
                                   "machine = \"grinder\"\nlobes = [\"1 exhaust\"]\n"));
    CHECK_FALSE(job.cut.has_value());
    CHECK_FALSE(job.machine.has_value());
    REQUIRE(job.operations.size() == 2);
    CHECK(job.operations[0].name == "rough");
    CHECK(job.operations[0].machine == "mill");
    CHECK(job.operations[0].cut.allowance == 0.25);
    CHECK(lobes_of_operation(job, job.operations[0]) == std::vector<std::string>{"1 inlet", "1 exhaust"});
    CHECK(lobes_of_operation(job, job.operations[1]) == std::vector<std::string>{"1 exhaust"});
    CHECK(job.machines.at("grinder").limits.rotary_speed == 720.0);
    CHECK(job.machines.at("mill").cutter_axis == CutterAxis::radial);
    CHECK(unmet_needs(job, Purpose::cut).empty());
}

TEST_CASE("the job of an operation has its cut, its machine, their places, and what those before it leave") {
    const std::string text =
        changed(two_operations(), "machine = \"mill\"\n", "machine = \"mill\"\nlobes = [\"1 inlet\"]\n");
    const Job job = job_of(text);
    const Job first = job_of_operation(job, 0), second = job_of_operation(job, 1);
    CHECK(first.operation == "rough");
    CHECK(first.machine->post == "rs274ngc-zxa");
    CHECK_FALSE(first.stock.of("1 inlet").has_value());
    CHECK(second.cut->cutter == "disc");
    CHECK(second.machine->rotary_positive == Sense::cw);
    const auto standing = second.stock.of("1 inlet");
    REQUIRE(standing.has_value());
    CHECK(standing->left_on == 0.25);
    CHECK(standing->within == 0.02);
    CHECK(standing->left_by == "rough");
    CHECK_FALSE(second.stock.of("1 exhaust").has_value());
    const auto line = [&](const std::string& part) {
        const auto at = static_cast<std::ptrdiff_t>(text.find(part));
        return 1 + std::count(text.begin(), text.begin() + at, '\n');
    };
    CHECK(first.place_of("cut.tolerance").line == line("tolerance = 0.02\n"));
    CHECK(second.place_of("cut.tolerance").line == line("tolerance = 0.002\nsurface_feed = 60"));
    CHECK(second.place_of("machine.limits.rotary_speed").line == line("rotary_speed = 720"));
    CHECK(first.place_of("machine.post").line == line("post = \"rs274ngc-zxa\""));
    CHECK(jobs_of_operations(job).size() == 2);
    CHECK(finished_tolerance(job) == 0.002);
}

TEST_CASE("a job with [cut] is its only operation") {
    const Job job = job_of(whole_job());
    REQUIRE(jobs_of_operations(job).size() == 1);
    CHECK(jobs_of_operations(job).front().cut->cutter == job.cut->cutter);
    CHECK(finished_tolerance(job) == job.cut->tolerance);
}

TEST_CASE("left_on of [stock] goes for every lobe, and has a range") {
    const Job job = job_of(with_more(machines + rough + grind + "[stock]\nleft_on = 0.5\n"));
    CHECK(job_of_operation(job, 0).stock.of("1 exhaust")->left_on == 0.5);
    CHECK(job_of_operation(job, 1).stock.of("1 exhaust")->left_on == 0.25);
    CHECK_FALSE(read(with_more("[stock]\n")).ok());
    for (const char* bad : {"0", "-0.1", "100.001", "\"0.3\""})
        CHECK_FALSE(read(with_more(std::string("[stock]\nleft_on = ") + bad + "\n")).ok());
    for (const char* good : {"0.001", "100"})
        CHECK(read(with_more(std::string("[stock]\nleft_on = ") + good + "\n")).ok());
    check_refused(with_more("[stock]\nleft_on = 0.3\nleft = 1\n"), "left = 1", "unknown key 'stock.left'");
}

TEST_CASE("one machine needs no name in the operations, named or not") {
    const std::string one =
        "[machine]\npost = \"rs274ngc-xza\"\ncutter_axis = \"parallel\"\n"
        "rotary_positive = \"cw\"\n";
    const std::string alone = changed(grind, "machine = \"grinder\"\n", "");
    CHECK(job_of_operation(job_of(with_more(one + alone)), 0).machine->post == "rs274ngc-xza");
    const std::string named = changed(one, "[machine]", "[machine.grinder]");
    CHECK(job_of_operation(job_of(with_more(named + alone)), 0).machine->post == "rs274ngc-xza");
    const std::string cut = changed(changed(alone, "[[operation]]", "[cut]"), "name = \"grind\"\n", "");
    CHECK(job_of(with_more(named + cut)).machine->post == "rs274ngc-xza");
}

TEST_CASE("what operations and machines name must be there, and stand there once") {
    const std::string text = two_operations();
    check_refused(changed(text, "machine = \"mill\"", "machine = \"mil\""), "machine = \"mil\"",
                  "there is no [machine.mil]: did you mean \"mill\"?");
    check_refused(changed(text, "machine = \"mill\"\n", ""), "[[operation]]",
                  "the job has several: name one of \"grinder\", \"mill\"");
    check_refused(changed(text, "cutter = \"disc\"", "cutter = \"dics\""), "cutter = \"dics\"",
                  "there is no [cutter.dics]: did you mean \"disc\"?");
    check_refused(changed(text, "name = \"grind\"\n", "name = \"grind\"\nlobes = [\"1 inlt\"]\n"),
                  "lobes = [", "there is no lobe '1 inlt': did you mean \"1 inlet\"?");
    check_refused(
        changed(text, "name = \"grind\"\n", "name = \"grind\"\nlobes = [\"1 inlet\", \"1 inlet\"]\n"),
        "lobes = [", "lobe '1 inlet' stands there twice");
    check_refused(changed(text, "name = \"grind\"\n", "name = \"grind\"\nlobes = []\n"), "lobes = []",
                  "is empty");
    check_refused(changed(text, "name = \"grind\"", "name = \"rough\""),
                  "name = \"rough\"\nmachine = \"grinder\"",
                  "there is an operation 'rough' already, in line");
    check_refused(changed(text, "name = \"grind\"", "name = \"a/b\""), "name = \"a/b\"",
                  "can't stand in a file's name");
    check_refused(changed(text, "name = \"grind\"\n", ""), grind.substr(0, 13) + "\nmachine = \"grinder\"",
                  "has no 'name'");
    check_refused(changed(text, "machine = \"grinder\"\n", "machine = \"grinder\"\nzeal = 1\n"), "zeal = 1",
                  "unknown key 'operation[1].zeal'");
}

TEST_CASE("[cut] and [[operation]], and [machine] and [machine.NAME], exclude each other") {
    const std::string one =
        "[machine]\npost = \"rs274ngc-xza\"\ncutter_axis = \"parallel\"\n"
        "rotary_positive = \"cw\"\n";
    const std::string cut =
        changed(changed(grind, "[[operation]]", "[cut]"), "name = \"grind\"\nmachine = \"grinder\"\n", "");
    check_refused(with_more(one + cut + changed(grind, "machine = \"grinder\"\n", "")), "[cut]",
                  "the job has both [cut] and [[operation]]");
    check_refused(with_more(machines + cut), "[cut]",
                  "the job has several machines, and [cut] can't name one");
    check_refused(with_more(one + "[machine.mill]\npost = \"rs274ngc-zxa\"\n"), "[machine.mill]",
                  "[machine] is a machine itself, and holds [machine.mill] beside it");
    check_refused(with_more(one + "[machine.limit]\nrotary_speed = 7\n"), "[machine.limit]",
                  "did you mean 'limits'?");
}

// 0.25 less 0.02 is what stands there at least; the ground surface is at most 0.002 over the design.
TEST_CASE("an operation that would find too little to cut is refused, with what the one before must leave") {
    const std::string text = two_operations();
    CHECK(read(changed(text, "allowance = 0.25", "allowance = 0.022")).ok());
    check_refused(
        changed(text, "allowance = 0.25", "allowance = 0.0219"), "[[operation]]\nname = \"grind\"",
        "'grind' would cut air in places: on lobe '1 inlet' operation 'rough' leaves 0.0219 mm give "
        "or take 0.02 mm");
    const std::string deeper = changed(text, "tolerance = 0.002\n", "tolerance = 0.002\nallowance = 0.3\n");
    check_refused(deeper, "allowance = 0.3",
                  "operation 'grind' would cut air: on lobe '1 inlet' operation 'rough' leaves 0.25 mm");
    check_refused(deeper, "allowance = 0.3", "raise the allowance of operation 'rough' to 0.322");
    CHECK(read(changed(deeper, "name = \"grind\"\n", "name = \"grind\"\nlobes = [\"1 exhaust\"]\n"))
              .diagnostics()
              .size() == 1);
    // Lobes that the one before didn't cut are bar.
    std::string apart = changed(deeper, "name = \"grind\"\n", "name = \"grind\"\nlobes = [\"1 exhaust\"]\n");
    apart = changed(apart, "name = \"rough\"\n", "name = \"rough\"\nlobes = [\"1 inlet\"]\n");
    CHECK(read(apart).ok());
    check_refused(set(whole_job(), "cut", "allowance", "0.3") + "[stock]\nleft_on = 0.3\n", "allowance = 0.3",
                  "the cut would cut air: on lobe '1 inlet' [stock] leaves 0.3 mm");
    check_refused(set(whole_job(), "cut", "allowance", "0.3") + "[stock]\nleft_on = 0.301\n",
                  "allowance = 0.3", "raise left_on of [stock] to 0.302");
}

TEST_CASE("what an operation lacks is told at its own place") {
    const std::string text = changed(two_operations(), "flute_length = 22.0\n", "");
    const Job job =
        job_of(changed(text, "cutter_axis = \"radial\"\nrotary", "cutter_axis = \"parallel\"\nrotary"));
    const Diagnostics unmet = unmet_needs(job, Purpose::cut);
    REQUIRE(unmet.size() == 1);
    CHECK_THAT(to_text(unmet.front()), ContainsSubstring("[cutter.em10] has no 'flute_length'"));
    const Job none = job_of(with_more(changed(grind, "machine = \"grinder\"\n", "")));
    CHECK_THAT(to_text(unmet_needs(none, Purpose::cut).front()),
               ContainsSubstring("the job has no [machine]"));
}
