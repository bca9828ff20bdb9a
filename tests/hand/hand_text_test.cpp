#include "catch.h"
#include "lines.h"
#include "planned_bench.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <regex>

using namespace hand_jobs;

namespace {

std::string text_of(const Job& job, const std::vector<SolvedLobe>& lobes, HandFormat format) {
    return hand_text(job, lobes, planned_bench(job, lobes), format);
}

std::vector<SolvedLobe> one_lobe(const std::string& name = "inlet") {
    return {arcs_lobe({6, 2.4, 120, 25}, 40, name)};
}

}  // namespace

TEST_CASE(
    "csv of an offset fixture has the documented columns, dial readings, and empty cells for crank and "
    "holes") {
    const auto lines =
        lines_of(text_of(job_of(one_lobe(), fixture(19, 72), 17), one_lobe(), HandFormat::csv));
    CHECK(lines[0] == "order,index,turns,hole,circle,shaft_angle,lobe,work,start,finish");
    CHECK(lines[1] == "1,20,,,,100,inlet,flank,27.5,25");  // the nose at 40, flanks 60 either side
    CHECK(lines[2] == "2,68,,,,340,inlet,flank,27.5,25");
    CHECK(lines[3] == "3,21,,,,105,inlet,clear,27.5,25");  // the heel from flank to flank
    CHECK(lines.back() == "49,67,,,,335,inlet,clear,27.5,25");
}

TEST_CASE("csv of a dividing head counts turns and holes from zero, depths from the shaft's axis") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 0, "inlet")};
    const auto lines = lines_of(text_of(job_of(lobes, head({}, 22.5), 17), lobes, HandFormat::csv));
    REQUIRE(lines.size() == 17);
    CHECK(lines[1] == "1,0,0,0,16,0,inlet,facet,8.5,8.4");
    CHECK(lines[5] == "5,90,10,0,16,90,inlet,facet,8.5,6");
    CHECK(lines[6] == "6,112.5,12,8,16,112.5,inlet,facet,8.5,6");
    CHECK(lines[16] == "16,337.5,37,8,16,337.5,inlet,facet,8.5," +
                           lines[2].substr(lines[2].rfind(',') + 1));  // it is symmetrical
}

TEST_CASE("lengths of an inch job are inches, angles stay degrees") {
    const Arcs arcs{6 * 25.4, 2.4 * 25.4, 120, 25 * 25.4};
    const std::vector<SolvedLobe> lobes = {arcs_lobe(arcs, 40, "inlet")};
    HandMethod method = fixture(19 * 25.4, 72);
    method.infeed = 2.54;
    const auto lines =
        lines_of(text_of(job_of(lobes, method, 17 * 25.4, Units::inch), lobes, HandFormat::csv));
    CHECK(lines[1] == "1,20,,,,100,inlet,flank,27.5,25");
}

TEST_CASE("a name with a comma or a quote is quoted in csv, and escaped in json") {
    const auto lobes = one_lobe("in, \"left\"");
    const Job job = job_of(lobes, fixture(19, 72), 17);
    CHECK_THAT(text_of(job, lobes, HandFormat::csv), ContainsSubstring(",\"in, \"\"left\"\"\",flank,"));
    CHECK_THAT(text_of(job, lobes, HandFormat::json), ContainsSubstring("\"lobe\": \"in, \\\"left\\\"\""));
}

TEST_CASE("json has settings, lands and findings by their documented names") {
    const std::string text = text_of(job_of(one_lobe(), fixture(19, 72), 17), one_lobe(), HandFormat::json);
    CHECK_THAT(text, ContainsSubstring(
                         "{\"order\": 1, \"index\": 20, \"turns\": null, \"hole\": null, \"circle\": null, "
                         "\"shaft_angle\": 100, \"lobe\": \"inlet\", \"work\": \"flank\", \"start\": 27.5, "
                         "\"finish\": 25}"));
    CHECK_THAT(text,
               ContainsSubstring(
                   "\"lands\": [\n    {\"lobe\": \"inlet\", \"chord\": 1.899891405, \"arc\": 1.903868716}"));
    CHECK_THAT(text, ContainsSubstring("\"noses\": [\n    {\"lobe\": \"inlet\", \"radius\": 2.383098592, "
                                       "\"at\": 40}"));
    CHECK_THAT(text, ContainsSubstring("\"wheels\": [\n    {\"divisions\": 72, \"zero\": 0, "
                                       "\"worst_flank_error\": 0}"));
    const auto json = nlohmann::json::parse(text);
    CHECK(json["wheels"].size() >= 3);
    CHECK(json["travel"][1]["travel"] == "along");
    CHECK(json["findings"].empty());
}

TEST_CASE("json tells each flank that is off its mark") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 41, "inlet")};
    const std::string text = text_of(job_of(lobes, fixture(19, 72), 17), lobes, HandFormat::json);
    CHECK_THAT(
        text, ContainsSubstring(
                  "{\"severity\": \"note\", \"lobe\": \"inlet\", \"message\": \"the opening flank wants "
                  "mark 20.2; 20 "
                  "is the nearest setting: 1° of cam, 2° of crank too late\", \"code\": \"between-marks\"}"));
    CHECK_THAT(text, ContainsSubstring("\"lobe\": null"));
}

TEST_CASE(
    "json tells what the cuts make of each lobe, in the job's units, and no time of a valve that is held "
    "open") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    const auto finish = [&](int divisions, Units units) {
        const Job job = job_of(lobes, fixture(19, divisions), 17, units);
        return nlohmann::json::parse(text_of(job, lobes, HandFormat::json))["finish"][0];
    };
    const auto mm = finish(72, Units::mm), inch = finish(72, Units::inch);
    const double ridge =
        std::sqrt(25.0 * 25.0 - std::pow(19 * std::sin(rad(2.5)), 2)) - 19 * std::cos(rad(2.5)) - 6;
    CHECK(mm["lobe"] == "inlet");
    CHECK_NEAR(mm["highest_ridge"].get<double>(), ridge, 1e-9);
    CHECK_NEAR(inch["highest_ridge"].get<double>(), ridge / 25.4, 1e-9);
    CHECK_NEAR(mm["proudest"].get<double>(), ridge, 1e-9);
    CHECK_NEAR(mm["deepest"].get<double>(), 0.0, 1e-9);
    CHECK_NEAR(mm["opens_late"].get<double>(), 0.0, 1e-6);
    const auto held = finish(9, Units::mm);
    CHECK(held["opens_late"].is_null());
    CHECK(held["closes_late"].is_null());
}

TEST_CASE("the sheet says units and senses first, cautions before the work, and has a row for every cut") {
    for (const HandMethod& method : {fixture(19, 72), head(0.01, {})}) {
        const Job job = job_of(one_lobe(), method, 17);
        const HandPlan plan = planned_bench(job, one_lobe());
        const std::string text = hand_text(job, one_lobe(), plan, HandFormat::markdown);
        const auto at = [&](const std::string& part) {
            INFO(part);
            CHECK(text.find(part) != std::string::npos);
            return text.find(part);
        };
        const std::size_t units = at("All lengths in mm"), care = at("## Take care"),
                          first = at("cuts 1 to ");
        CHECK(units < care);
        CHECK(at("eye protection") < first);
        CHECK(at("grow counter-clockwise") < first);
        for (const HandSetting& setting : plan.settings)
            at(plan.fixture ? "[ ]  | " + std::string(setting.order < 10 ? " " : "")
                            : " " + std::to_string(setting.order) + " of " +
                                  std::to_string(plan.settings.size()) + " |");
    }
}

TEST_CASE("the sheet's checks are arithmetic that a micrometer can read") {
    const Job job = job_of(one_lobe(), fixture(19, 72), 17);
    std::string text = text_of(job, one_lobe(), HandFormat::markdown);
    CHECK_THAT(text, ContainsSubstring("14.400 |"));  // 8.4 + 6 across the nose
    text = std::regex_replace(text, std::regex("\n *"), " ");
    CHECK_THAT(text, ContainsSubstring("19.000 more, the offset"));
    CHECK_THAT(text, ContainsSubstring("the bar opposite reads 14.500"));  // 8.5 + 6
    CHECK_THAT(text, ContainsSubstring("then 27.400, 27.300"));
}

TEST_CASE(
    "the sheet's facets that lie opposite are checked across, and the crank's way on is told beside its "
    "place") {
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 0, "1", 0),
                                           arcs_lobe({6, 2.4, 120, 25}, 90, "2", 1)};
    const std::string text = text_of(job_of(lobes, head({}, 30.0), 17), lobes, HandFormat::markdown);
    // The nose's flat at 8.4 and the heel's at 6 from the axis.
    CHECK_THAT(std::regex_replace(text, std::regex("\n *"), " "),
               ContainsSubstring("Check after cut 7: a micrometer over that cut and cut 1, opposite it, "
                                 "reads 14.400."));
    CHECK_THAT(text, ContainsSubstring("| zero     |"));
    CHECK_THAT(text, ContainsSubstring("| 3 + 5/15 |"));
    CHECK_THAT(text, ContainsSubstring("plate 1 (15, 16, 17, 18, 19, 20)"));
    CHECK_THAT(text, ContainsSubstring("Set the sector arms: 5 spaces"));
    CHECK_THAT(text, ContainsSubstring("5 spaces (6 holes, the pin's own counted)"));
}

TEST_CASE("a micrometer across reads the lobe, whichever cutter makes it") {
    // The side of a round cutter touches the lobe where a flat does: nose and heel lie square to the axis.
    Cutter cutter;
    cutter.diameter = 10;
    cutter.flute_length = 22;
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 0, "1")};
    Job job = job_of(lobes, head({}, 30.0), 17);
    job.cutters["em"] = cutter;
    job.hand["bench"].cutter_axis = CutterAxis::parallel;
    job.hand["bench"].cutter = "em";
    const std::string text =
        std::regex_replace(text_of(job, lobes, HandFormat::markdown), std::regex("\n *"), " ");
    CHECK_THAT(text,
               ContainsSubstring("cut 7: a micrometer over that cut and cut 1, opposite it, reads 14.400."));
}

TEST_CASE("what must not be overlooked is marked on the sheet by how grave it is") {
    // A wheel of 9 marks leaves ridges that hold the valve open, which is an error, and sets flanks off their
    // places, which is a warning; where all is well nothing has a mark.
    const auto text = [](int divisions) {
        return text_of(job_of(one_lobe(), fixture(19, divisions), 17), one_lobe(), HandFormat::markdown);
    };
    CHECK_THAT(text(9), ContainsSubstring("- **Error.** inlet: the ridges") &&
                            ContainsSubstring("- **Warning.** inlet: a flank"));
    CHECK_THAT(text(72), !ContainsSubstring("**"));
}

TEST_CASE("what swings is told as the circles about the lathe's axis") {
    HandMethod method = fixture(19, 72);
    method.wheel_diameter = 60;
    const std::string text = text_of(job_of(one_lobe(), method, 17), one_lobe(), HandFormat::markdown);
    CHECK_THAT(text, ContainsSubstring("the wheel swings a circle of") &&
                         ContainsSubstring("| 98.000 "));  // twice 19 + 30
    CHECK_THAT(text, ContainsSubstring("| 55.000 "));      // twice 19 + 8.5
}

TEST_CASE("the sheet tells every place of a tool that is narrower than its lobe") {
    // 2.5 mm on 6 mm about z 20: the edges meet the lobe's faces at 17 and 23, the third stands between.
    HandMethod method = fixture(19, 72);
    method.tool_width = 2.5;
    const std::string text = text_of(job_of(one_lobe(), method, 17), one_lobe(), HandFormat::markdown);
    CHECK_THAT(text, ContainsSubstring("| 18.250, 20.000, 21.750 |"));
    method.tool_width = 1.0;  // seven and more are told by first, last and step
    CHECK_THAT(text_of(job_of(one_lobe(), method, 17), one_lobe(), HandFormat::markdown),
               ContainsSubstring("places, 17.500 to 22.500"));
}

TEST_CASE("a rotary table's sheet has degrees and minutes, and the handwheel's turns and divisions") {
    HandMethod method = head({}, 2.5);
    method.kind = HandKind::rotary_table;
    method.ratio = 90;
    method.handwheel_divisions = 120;
    const std::string text = text_of(job_of(one_lobe(), method, 17), one_lobe(), HandFormat::markdown);
    CHECK_THAT(text, ContainsSubstring("2° 30'"));
    CHECK_THAT(text, ContainsSubstring("0 + 75.0"));   // 2.5 of 4 degrees a turn
    CHECK_THAT(text, ContainsSubstring("89 + 45.0"));  // 357.5 = 89 turns of 4 and 1.5
}

TEST_CASE("every table of the sheet has as many cells in each row as in its head") {
    for (const HandMethod& method : {fixture(19, 71), head(0.01, {})}) {
        const auto lobes = one_lobe("in|let");
        std::size_t bars = 0;
        for (const std::string& line :
             lines_of(text_of(job_of(lobes, method, 17), lobes, HandFormat::markdown))) {
            CHECK(line.find_last_not_of(' ') + 1 == line.size());
            if (line.empty() || line[0] != '|') {
                bars = 0;
                continue;
            }
            std::size_t here = 0;
            for (std::size_t i = 0; i < line.size(); ++i)
                here += line[i] == '|' && (i == 0 || line[i - 1] != '\\');
            if (bars) CHECK(here == bars);
            bars = here;
        }
    }
}

TEST_CASE("the summary is one line with the count, the ridges and the timing") {
    const Job job = job_of(one_lobe(), fixture(19, 72), 17);
    CHECK(hand_summary(job, one_lobe(), planned_bench(job, one_lobe())) ==
          "49 cuts; ridges up to 0.0043 mm; timing within 0° of crank");
    const std::vector<SolvedLobe> off = {arcs_lobe({6, 2.4, 120, 25}, 41.5, "inlet")};
    const Job job_off = job_of(off, fixture(19, 72), 17);
    CHECK_THAT(hand_summary(job_off, off, planned_bench(job_off, off)),
               ContainsSubstring("below the design; timing within 3° of crank (inlet)"));
}
