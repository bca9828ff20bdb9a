// The sheet as paper: its pages, its columns, its steps.
#include "basalt.h"
#include "base/text/angle_text.h"
#include "base/text/characters.h"
#include "hand/sheet/pages.h"
#include "job_kit.h"
#include "lines.h"
#include "planned_bench.h"

#include <lobewright/hand_route.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace hand_jobs;
using namespace lobewright::hand;

namespace {

std::string example_sheet(Job job, const std::string& method) {
    const auto lobes = taken(solve_lobes(job));
    return hand_text(job, lobes, taken(plan_hand(job, lobes, method)), HandFormat::markdown);
}

bool is_row(const std::string& line) {
    return line.starts_with("| ");
}

bool is_rule(const std::string& line) {
    return line.starts_with("|-");
}

/// Every page's first row of a table has heads and a rule right under it.
void check_pages(const std::string& text) {
    const auto lines = lines_of(text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        INFO("line " << i + 1 << ": " << lines[i]);
        CHECK(characters(lines[i]) <= 80);
        if (!is_row(lines[i])) continue;
        const bool first = i % lines_a_page == 0 || !(is_row(lines[i - 1]) || is_rule(lines[i - 1]));
        if (first) {
            REQUIRE(i + 1 < lines.size());
            CHECK(is_rule(lines[i + 1]));
        }
    }
}

/// The figure that stands after `before` in the text.
double figure_after(const std::string& text, const std::string& before) {
    const std::string joined = unbroken(text);
    const std::size_t at = joined.find(before);
    INFO(before);
    REQUIRE(at != std::string::npos);
    return std::stod(joined.substr(at + before.size()));
}

}  // namespace

TEST_CASE("a table that runs over a page has its heads again, and no heading stands alone at a foot") {
    for (int before = 0; before < 70; ++before) {
        Route route;
        route.title("A trial");
        for (int i = 0; i < before; ++i)
            route.bullet("line");
        route.step("Rows");
        MarkdownTable table({"mark", "lobes"});
        for (int i = 0; i < 130; ++i)
            table.row({std::to_string(i), "a"});
        route.table(table);
        const std::string text = paper_text(route, "Trial");
        const auto lines = lines_of(text);
        int rows = 0;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            rows += is_row(lines[i]) && !lines[i].starts_with("| mark");
            if (lines[i].starts_with("## ")) CHECK(i % lines_a_page + 4 < lines_a_page);
        }
        CHECK(rows == 130);
        check_pages(text);
        CHECK(lines[lines_a_page].starts_with("Trial, page 2"));
    }
}

TEST_CASE("the Basalt single's route fits six pages of A4 at 60 lines, whichever way the tool travels") {
    Job job = example_job("basalt-single-lathe");
    for (const HandTravel travel : {HandTravel::plunge, HandTravel::along}) {
        job.hand.at("lathe").travel = travel;
        const std::string text = example_sheet(job, "lathe");
        INFO(text);
        CHECK(lines_of(text).size() <= 6 * lines_a_page);
        check_pages(text);
    }
}

TEST_CASE("fed along, the Basalt single takes at most a third of the strokes of today's 94 cuts") {
    Job job = example_job("basalt-single-lathe");
    job.hand.at("lathe").travel = HandTravel::along;
    const auto lobes = taken(solve_lobes(job));
    const HandPlan plan = taken(plan_hand(job, lobes, "lathe"));
    CHECK(plan.settings.size() == 94);
    // A tool of 2 mm was to plunge three times on 6 mm: in 25 passes for each of four flanks, and in 352 for
    // the 90 cuts of both heels (the sheet of before: 5 down to 1, as the stock between them grows less).
    const long long before = 3 * (4 * 25 + 352);
    CHECK(3 * plan.fixture->along.strokes <= before);
    long long strokes = 0;
    for (const HandSetting& setting : plan.settings)
        strokes += setting.strokes;
    CHECK(strokes == plan.fixture->along.strokes);
    CHECK(plan.fixture->rounds.size() <= 4 + 1);
}

TEST_CASE("the offset check's two readings differ by the offset as the dial shows it, on the tool's side") {
    for (const Units units : {Units::mm, Units::inch}) {
        for (const DialReading dial : {DialReading::radius, DialReading::diameter}) {
            const double scale = units == Units::mm ? 1.0 : 25.4;
            const std::vector<SolvedLobe> lobes = {
                arcs_lobe({6 * scale, 2.4 * scale, 120, 25 * scale}, 40, "inlet")};
            HandMethod method = fixture(19 * scale, 72);
            method.infeed = 0.1 * scale;
            method.dial = dial;
            method.dial_zero = 1.5 * scale;
            Job job = job_of(lobes, method, 17 * scale, units);
            job.shaft.blank_measured = 17.08 * scale;
            const std::string text = hand_text(job, lobes, planned_bench(job, lobes), HandFormat::markdown);
            const double own = figure_after(text, "stop, and set the dial to "),
                         swung = figure_after(text, "touch it again. The dial shows ");
            const double twice = dial == DialReading::diameter ? 2.0 : 1.0;
            CHECK_NEAR(own, 1.5 + twice * 8.54, 1e-9);
            CHECK_NEAR(swung, 1.5 + twice * 27.54, 1e-9);
            CHECK_NEAR((swung - own) / twice, 19.0, 1e-9);
            CHECK(own > 1.5);  // 1.5 is what it shows on the lathe's axis
            CHECK_THAT(unbroken(text), ContainsSubstring(twice > 1.0 ? "more, twice the offset of 19.0"
                                                                     : "more, the offset."));
        }
    }
}

TEST_CASE("the steps stand in the order in which they are done") {
    Job job = example_job("basalt-single-lathe");
    job.shaft.journals = {{6, 10, 10}};
    job.shaft.holes = {{24, "inlet", ShaftAngle::from_degrees(180), 1.5}};
    job.hand.at("lathe").allowance = 0.02;
    const std::string text = example_sheet(job, "lathe");
    std::size_t before = 0;
    for (const char* step :
         {"Bar and centres", "Journals and gaps", "Datum", "Fixture: its offset proven",
          "Tool, speed and feed", "Flanks of the whole shaft", "Lands, before", "Heels:", "Noses, by file",
          "Stone or lap", "Oil holes", "Hardening", "Gear or sprocket", "Installing"}) {
        INFO(step);
        const std::size_t at = text.find(step, before);
        REQUIRE(at != std::string::npos);
        before = at;
    }
    CHECK_THAT(text, ContainsSubstring("10.040"));  // the journal of 10, the allowance left on either side
    CHECK_THAT(text, !ContainsSubstring("no source"));
    CHECK_THAT(unbroken(text), ContainsSubstring("points straight out from the lathe's axis"));
    CHECK_THAT(text, !ContainsSubstring("faces the cutter"));
    CHECK(std::count(text.begin(), text.end(), '[') > 80);  // a box for every mark
}

TEST_CASE("as steps the route has every setting once, in order, and every stop and setting of the arms") {
    const std::vector<std::pair<std::string, std::string>> jobs = {{"basalt-single-lathe", "lathe"},
                                                                   {"basalt-four", "head"}};
    for (const auto& [example, method] : jobs) {
        const Job job = example_job(example);
        const auto lobes = taken(solve_lobes(job));
        const HandPlan plan = taken(plan_hand(job, lobes, method));
        const std::vector<RouteStep> route = hand_route(job, lobes, plan);
        INFO(example);
        std::size_t next = 0, stops = 0;
        for (const RouteStep& step : route) {
            stops += step.stop.has_value();
            CHECK_FALSE(step.part.empty());
            CHECK(step.set.has_value() == (step.count > 0));
            if (step.count == 0) continue;
            CHECK(step.first == next);
            next += step.count;
            if (!plan.fixture) continue;
            const double mark = *plan.settings[step.first].mark;
            for (std::size_t i = step.first; i < next; ++i)
                CHECK(*plan.settings[i].mark == mark);
            CHECK(std::stod(step.set->value) == std::floor(mark));
        }
        CHECK(next == plan.settings.size());
        if (plan.fixture) {
            std::size_t set = 0;
            for (std::size_t i = 0; i < plan.fixture->rounds.size(); ++i)
                set += i == 0 || plan.fixture->rounds[i].stop != plan.fixture->rounds[i - 1].stop;
            CHECK(stops == set);
        } else {
            const auto& arms = plan.facets->arms;
            CHECK(std::count_if(route.begin(), route.end(), [&](const RouteStep& step) {
                      return step.circle && *step.circle == *plan.facets->circle;
                  }) == 1);
            for (const RouteStep& step : route)
                if (step.arms) CHECK(std::find(arms.begin(), arms.end(), *step.arms) != arms.end());
            CHECK(std::any_of(route.begin(), route.end(),
                              [](const RouteStep& step) { return step.arms.has_value(); }));
        }
    }
}

TEST_CASE("a check that is due after a cut comes right after it in the steps") {
    const Job job = example_job("basalt-single-lathe");
    const auto lobes = taken(solve_lobes(job));
    const auto route = hand_route(job, lobes, taken(plan_hand(job, lobes, "lathe")));
    const auto check = std::find_if(route.begin(), route.end(), [](const RouteStep& step) {
        return step.text.starts_with("After cut 1:");
    });
    REQUIRE(check != route.end());
    CHECK((check - 1)->first == 0);
    CHECK((check - 1)->count == 1);
    CHECK((check - 1)->notes.size() == 1);  // the ladder of its passes
    CHECK_THAT((check - 1)->notes[0], ContainsSubstring("Cut 1 goes down a ladder"));
}

TEST_CASE("numbers on a fixed wheel are told to grow the other way") {
    HandMethod method = fixture(19, 72);
    const std::vector<SolvedLobe> lobes = {arcs_lobe({6, 2.4, 120, 25}, 40, "inlet")};
    const auto sheet = [&] {
        const Job job = job_of(lobes, method, 17);
        return unbroken(hand_text(job, lobes, planned_bench(job, lobes), HandFormat::markdown));
    };
    CHECK_THAT(sheet(), ContainsSubstring("turns with the shaft grow counter-clockwise") &&
                            ContainsSubstring("pointer that turns with the shaft, clockwise"));
    method.counts = Sense::cw;
    CHECK_THAT(sheet(), ContainsSubstring("turns with the shaft grow clockwise"));
}

TEST_CASE("on the installing table the valve opens and closes where the card says, at its clearance") {
    const Job job = example_job("basalt-single-lathe");
    const std::string text = example_sheet(job, "lathe");
    std::vector<std::string> rows;
    for (const std::string& line : lines_of(text))
        if (line.find("TDC") != std::string::npos && is_row(line)) rows.push_back(line);
    REQUIRE(rows.size() >= 8);
    const auto full = [&](const std::string& name) {
        for (const std::string& line : lines_of(text))
            if (line.starts_with("| " + name) && line.find("full") != std::string::npos) return line;
        return std::string();
    };
    CHECK_THAT(full("inlet"), ContainsSubstring("80.0° before BDC"));   // 100 after TDC
    CHECK_THAT(full("exhaust"), ContainsSubstring("80.0° after BDC"));  // 100 before TDC
}

TEST_CASE("the installing table is read where the valve opens, and at the quarters of the lift above that") {
    Job job = example_job("basalt-single-lathe");
    const double lift = taken(solve_lobes(job)).front().lift;
    const auto rows_at = [&](double clearance) {
        job.engine->inlet->clearance = clearance;
        const auto lines = lines_of(example_sheet(job, "lathe"));
        return std::count_if(lines.begin(), lines.end(), [](const std::string& line) {
            return line.starts_with("| inlet") && line.find("DC") != std::string::npos;
        });
    };
    CHECK(rows_at(0.24 * lift) == 1 + 3 + 1);  // and where it is full
    CHECK(rows_at(0.26 * lift) == 1 + 2 + 1);
}

TEST_CASE("an oil hole is drilled at the mark that brings it straight out") {
    Job job = example_job("basalt-single-lathe");
    const auto lobes = taken(solve_lobes(job));
    job.shaft.holes = {{24, "inlet", ShaftAngle::from_degrees(180), 1.5},
                       {36, "", ShaftAngle::from_degrees(12.5), 2.0}};
    const std::string text = example_sheet(job, "lathe");
    const double heel = full_circle_degrees(lobes[0].at + ShaftAngle::from_degrees(180));
    bool by_nose = false, by_datum = false;
    for (const std::string& line : lines_of(text)) {
        by_nose =
            by_nose || (is_row(line) && line.find(short_degrees(heel / 5.0, 2) + " ") != std::string::npos &&
                        line.find("1.500") != std::string::npos);
        by_datum = by_datum || (is_row(line) && line.find(" 2.5 ") != std::string::npos &&
                                line.find("2.000") != std::string::npos);
    }
    CHECK(by_nose);
    CHECK(by_datum);
}

TEST_CASE(
    "every cut of the fixture stands in one row, and a mark's lobes share a row where their passes agree") {
    std::vector<SolvedLobe> lobes;
    for (std::size_t i = 0; i < 8; ++i)
        lobes.push_back(arcs_lobe({i % 2 ? 6.2 : 6.0, 2.4, 120, i % 2 ? 25.2 : 25.0},
                                  45.0 * static_cast<double>(i), "long name " + std::to_string(i), i));
    const Job job = job_of(lobes, fixture(19, 72), 17.4);
    const HandPlan plan = planned_bench(job, lobes);
    const std::string text = hand_text(job, lobes, plan, HandFormat::markdown);
    check_pages(text);
    std::size_t cuts = 0, rows = 0, expected = 1;
    for (const std::string& line : lines_of(text)) {
        if (!line.starts_with("| [ ]")) continue;
        ++rows;
        const std::size_t at = line.find('|', 2) + 1;
        const std::string cell = line.substr(at, line.find('|', at) - at);
        const std::size_t to = cell.find(" to ");
        const std::size_t first = std::stoul(cell),
                          last = to == std::string::npos ? first : std::stoul(cell.substr(to + 4));
        CHECK(first == expected);
        expected = last + 1;
        cuts += last + 1 - first;
    }
    CHECK(cuts == plan.settings.size());
    CHECK(rows < cuts);
    // Two base radii: two stops, each set in the largest type.
    std::size_t stops = 0;
    for (const std::string& line : lines_of(text))
        stops += line.starts_with("# SET THE STOP");
    CHECK(stops == 3);
}

TEST_CASE("without an engine the lifts are told by cam degrees from the peak") {
    const Arcs arcs{6, 2.4, 120, 25};
    const std::vector<SolvedLobe> lobes = {arcs_lobe(arcs, 40, "inlet")};
    const Job job = job_of(lobes, fixture(19, 72), 17);
    const std::string text = hand_text(job, lobes, planned_bench(job, lobes), HandFormat::markdown);
    // A flat follower on the nose stands r + d cos α from the axis: at half of 2.4 mm, 6 + 1.2.
    const double half = std::acos((7.2 - arcs.nose()) / arcs.nose_centre()) * 180.0 / std::numbers::pi;
    const std::string figure = fixed(half, 1);
    CHECK_THAT(text, ContainsSubstring(figure + "° of cam before it") &&
                         ContainsSubstring(figure + "° of cam after it") && ContainsSubstring("| peak "));
}
