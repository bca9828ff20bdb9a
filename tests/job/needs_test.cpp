#include "basalt.h"
#include "catch.h"
#include "job_text.h"

#include <lobewright/hand.h>
#include <lobewright/needs.h>
#include <lobewright/proof.h>
#include <lobewright/toolpath.h>

using namespace lobewright;
using namespace job_text;

namespace {

std::string told(const Diagnostics& diagnostics) {
    std::string text;
    for (const Diagnostic& each : diagnostics)
        text += each.code + " | " + to_text(each) + '\n';
    return text;
}

Job job_of(const std::string& text) {
    const auto job = read(text);
    INFO(complaints(job));
    REQUIRE(job.ok());
    return *job;
}

}  // namespace

TEST_CASE("a job that has everything lacks nothing for any purpose") {
    const Job job = job_of(whole_job());
    CHECK(told(unmet_needs(job, Purpose::cut)).empty());
    CHECK(told(unmet_needs(job, Purpose::prove)).empty());
    for (const auto& [name, method] : job.hand)
        CHECK(told(unmet_needs(job, Purpose::index, name)).empty());
}

TEST_CASE("a need is one sentence for every purpose, at the place where the key should stand") {
    const std::string text = unset(unset(whole_job(), "shaft", "blank_diameter"), "shaft", "blank_measured");
    const Job job = job_of(text);
    const Spot shaft = header_of(text, "shaft");
    const std::string wanted = "missing-key | dir/job.toml:" + std::to_string(shaft.line) + ':' +
                               std::to_string(shaft.column) +
                               ": [shaft] has no 'blank_diameter': add it: the diameter of the stock over "
                               "the lobes before cutting\n";
    CHECK(told(unmet_needs(job, Purpose::cut)) == wanted);
    CHECK(told(unmet_needs(job, Purpose::prove)) == wanted);
    CHECK(told(unmet_needs(job, Purpose::index, "lathe")) == wanted);
    CHECK(unmet_needs(job, Purpose::index, "head").empty());  // its depths count from the axis
}

TEST_CASE("what is needed is asked for by those who do the work, in the same words and with exit code 2") {
    Job job = basalt::four();
    HandMethod fixture;
    fixture.offset = 19.0, fixture.divisions = 72;
    job.hand["lathe"] = fixture;
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    job.shaft.blank_diameter.reset();
    const std::string wanted = told(unmet_needs(job, Purpose::cut));
    CHECK_THAT(wanted, ContainsSubstring("[shaft] has no 'blank_diameter'"));
    CHECK(told(plan_toolpath(job, *lobes, {}).diagnostics()) == wanted);
    CHECK(told(prove(job, *lobes, {}, "", "program.ngc").diagnostics()) == wanted);
    CHECK(told(plan_hand(job, *lobes, "lathe").diagnostics()) == wanted);
    for (const Diagnostic& each : unmet_needs(job, Purpose::cut))
        CHECK(each.fault == Fault::bad_input);
}

TEST_CASE("all that is missing is told in one go") {
    std::string text =
        without(without(without(whole_job(), "machine.limits"), "machine.tool_change"), "machine");
    text = unset(unset(text, "shaft", "blank_diameter"), "shaft", "blank_measured");
    text = without(text, "cut");
    const Diagnostics unmet = unmet_needs(job_of(text), Purpose::cut);
    REQUIRE(unmet.size() == 3);
    CHECK_THAT(unmet[0].what, ContainsSubstring("no [machine]"));
    CHECK_THAT(unmet[1].what, ContainsSubstring("no [cut]"));
    CHECK_THAT(unmet[2].what, ContainsSubstring("blank_diameter"));
    for (const Diagnostic& each : unmet)
        CHECK(each.fault == Fault::bad_input);
}

TEST_CASE("a method that is not there, and a facet without a width, are needs too") {
    Job job = job_of(whole_job());
    CHECK_THAT(told(unmet_needs(job, Purpose::index, "mill")),
               ContainsSubstring("the job has no [hand.mill]"));
    job.hand["table"].step.reset();
    CHECK_THAT(
        told(unmet_needs(job, Purpose::index, "table")),
        ContainsSubstring("[hand.table] has no 'cusp': give it (the highest ridge to leave), or step"));
    job.hand["head"].cutter = "none";
    CHECK_THAT(told(unmet_needs(job, Purpose::index, "head")),
               ContainsSubstring("unknown-cutter | dir/job.toml:") && ContainsSubstring("[cutter.none]"));
    job.hand.clear();
    CHECK_THAT(told(unmet_needs(job, Purpose::index)), ContainsSubstring("the job has no [hand]"));
}

TEST_CASE("a cutter is unfit by its end, without flutes, or with flutes that are all rounded end") {
    Job job = job_of(whole_job());
    const auto unfit = [&](CutterAxis axis, const Cutter& cutter) {
        job.machine->cutter_axis = axis;
        const auto found = unfit_cutter(job, cutter);
        return found ? found->code : "";
    };
    Cutter disc = job.cutters.at("disc"), mill = job.cutters.at("em10"), ball = job.cutters.at("ball");
    for (const CutterAxis axis : {CutterAxis::parallel, CutterAxis::tangential}) {
        CHECK(unfit(axis, disc).empty());
        CHECK(unfit(axis, mill).empty());
        CHECK(unfit(axis, ball).empty());
    }
    CHECK(unfit(CutterAxis::radial, disc) == "cutter-held-so");
    mill.flute_length.reset();
    CHECK(unfit(CutterAxis::radial, mill).empty());  // its end cuts
    CHECK(unfit(CutterAxis::parallel, mill) == "missing-key");
    CHECK(unfit(CutterAxis::tangential, mill) == "missing-key");
    ball.flute_length = 4.0;  // half of its 8 mm
    CHECK(unfit(CutterAxis::parallel, ball).empty());
    CHECK(unfit(CutterAxis::tangential, ball) == "no-straight-flutes");
}

TEST_CASE("lift by crank degree needs an engine") {
    Job job = job_of(whole_job());
    CHECK(unmet_needs(job, Purpose::installed).empty());
    job.engine.reset();
    CHECK_THAT(told(unmet_needs(job, Purpose::installed)),
               ContainsSubstring("the job has no [engine]: add it: crank degrees are the engine's"));
}
