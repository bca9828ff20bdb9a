/// What stands on the drawings, and where.
#include "basalt.h"
#include "job_kit.h"
#include "near.h"

#include <lobewright/drawing.h>
#include <lobewright/timing.h>

#include <algorithm>
#include <cmath>
#include <sstream>

using namespace lobewright;

namespace {

template <class Kind>
std::vector<Kind> all_of(const Drawing& drawing) {
    std::vector<Kind> found;
    for (const Shape& shape : drawing.shapes)
        if (const auto* one = std::get_if<Kind>(&shape)) found.push_back(*one);
    return found;
}

const DrawnText* text_of(const std::vector<DrawnText>& texts, const std::string& wanted) {
    const auto found =
        std::find_if(texts.begin(), texts.end(), [&](const DrawnText& text) { return text.text == wanted; });
    return found == texts.end() ? nullptr : &*found;
}

struct Fixture {
    Job job = example_job("basalt-single-lathe");
    std::vector<SolvedLobe> lobes = taken(solve_lobes(job));
    HandPlan plan = taken(plan_hand(job, lobes, "lathe"));
};

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t times = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size()))
        ++times;
    return times;
}

}  // namespace

TEST_CASE("a lobe of arcs carries the dimensions that it was asked for by") {
    const Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 16.0), basalt::flat());
    const auto texts = all_of<DrawnText>(lobe_drawing(job, basalt::solved(job)));
    for (const char* words : {"base circle R 6", "flank R 16", "action angle 120°", "2.4", "14.4"}) {
        CAPTURE(words);
        CHECK(text_of(texts, words) != nullptr);
    }
}

TEST_CASE("a dimension is as long on paper as the thing at the drawing's scale") {
    const Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 16.0), basalt::flat());
    const Drawing drawing = lobe_drawing(job, basalt::solved(job), 5.0);
    const auto lines = all_of<DrawnLine>(drawing);
    CHECK(std::any_of(lines.begin(), lines.end(), [](const DrawnLine& line) {
        return line.pen == Pen::dimension && std::abs(length(line.to - line.from) - 5.0 * 14.4) < 1e-9;
    }));
    const auto outline = all_of<DrawnChain>(drawing);
    REQUIRE(!outline.empty());
}

TEST_CASE("the check lines of a drawing are 50 mm and 2 in long") {
    const Fixture fixture;
    const auto lines = all_of<DrawnLine>(lobe_drawing(fixture.job, fixture.lobes[0]));
    for (const double wanted : {50.0, 50.8}) {
        CHECK(std::any_of(lines.begin(), lines.end(), [&](const DrawnLine& line) {
            return line.from.y == line.to.y && std::abs(line.to.x - line.from.x - wanted) < 1e-9;
        }));
    }
}

TEST_CASE("every mark of the index wheel stands where its number turns the shaft to") {
    const Fixture fixture;
    const Drawing drawing = taken(index_wheel_drawing(fixture.job, fixture.lobes, fixture.plan, {}));
    const HandMethod& method = fixture.job.hand.at("lathe");
    std::vector<Vec2> marks;
    double rim = 0.0;
    for (const DrawnArc& arc : all_of<DrawnArc>(drawing))
        if (arc.pen == Pen::outline) rim = std::max(rim, arc.radius);
    for (const DrawnLine& line : all_of<DrawnLine>(drawing))
        if (std::abs(length(line.from) - rim) < 1e-9) marks.push_back(line.from);
    REQUIRE(marks.size() == static_cast<std::size_t>(method.divisions));
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const double wanted = method.zero.degrees() + (method.counts == Sense::ccw ? 1.0 : -1.0) * 360.0 *
                                                          static_cast<double>(i) / method.divisions;
        CHECK_NEAR(std::remainder(
                       std::atan2(marks[i].y, marks[i].x) * 180.0 / 3.14159265358979323846 - wanted, 360.0),
                   0.0, 1e-9);
    }
}

TEST_CASE("at its rim the index wheel says what is cut at each mark, in the direction that it faces") {
    const Fixture fixture;
    const Drawing drawing = taken(index_wheel_drawing(fixture.job, fixture.lobes, fixture.plan, {}));
    const auto texts = all_of<DrawnText>(drawing);
    int flanks = 0;
    for (const HandSetting& setting : fixture.plan.settings) {
        if (setting.work != HandWork::flank) continue;
        ++flanks;
        const std::string word =
            (setting.part == HandPart::opening_flank ? "O" : "C") + std::to_string(setting.lobe + 1);
        const bool stands = std::any_of(texts.begin(), texts.end(), [&](const DrawnText& text) {
            const bool names = (" " + text.text + " ").find(" " + word + " ") != std::string::npos;
            const double off =
                std::remainder(std::atan2(text.at.y, text.at.x) - setting.shaft_angle.radians(),
                               2.0 * 3.14159265358979323846);
            return names && std::abs(off) * length(text.at) < text.height;
        });
        CAPTURE(word);
        CHECK(stands);
    }
    CHECK(flanks >= 2);
}

TEST_CASE("a method without an index wheel is refused by its own name") {
    const Job job = example_job("basalt-four");
    const auto lobes = taken(solve_lobes(job));
    const HandPlan plan = taken(plan_hand(job, lobes, "head"));
    const auto wheel = index_wheel_drawing(job, lobes, plan, {});
    REQUIRE(!wheel.ok());
    CHECK(wheel.diagnostics()[0].code == "no-index-wheel");
    CHECK(wheel.diagnostics()[0].place.line > 0);
    const auto nose = nose_drawing(job, lobes, plan, 0);
    REQUIRE(!nose.ok());
    CHECK(nose.diagnostics()[0].code == "no-nose-template");
}

TEST_CASE("the nose's notch has its radius, its mouth and its depth") {
    const Fixture fixture;
    const HandNose& nose = fixture.plan.noses[0];
    REQUIRE(nose.radius);
    const Drawing drawing = taken(nose_drawing(fixture.job, fixture.lobes, fixture.plan, nose.lobe, 2.0));
    const DrawnChain plate = all_of<DrawnChain>(drawing).at(0);
    const auto bent = std::find_if(plate.points.begin(), plate.points.end(),
                                   [](const ChainPoint& p) { return p.bulge != 0.0; });
    REQUIRE(bent != plate.points.end());
    const Vec2 from = bent->at, to = (bent + 1)->at;
    const double chord = length(to - from), sagitta = std::abs(bent->bulge) * chord / 2.0;
    CHECK_NEAR(chord, 2.0 * nose.template_mouth, 1e-9);
    CHECK_NEAR(sagitta, 2.0 * nose.template_depth, 1e-6);
    CHECK_NEAR((chord * chord / 4.0 + sagitta * sagitta) / (2.0 * sagitta), 2.0 * *nose.radius, 1e-6);
    CHECK(bent->bulge < 0.0);  // the notch goes into the plate, above its edge
}

TEST_CASE(
    "events on the degree wheel stand at their angles, and the other way round for a crank that turns ccw") {
    const Job job = example_job("basalt-four");
    const auto lobes = taken(solve_lobes(job));
    for (const Sense crank : {Sense::cw, Sense::ccw}) {
        const Drawing drawing = taken(degree_wheel_drawing(job, lobes, 180.0, crank));
        const auto arrows = all_of<DrawnArrow>(drawing);
        // The card: inlet 14 before TDC and 46 after BDC, exhaust 58 before BDC and 24 after TDC.
        for (const double after_tdc : {-14.0, 226.0, 122.0, 24.0}) {
            const double turned =
                (crank == Sense::cw ? 1.0 : -1.0) * after_tdc * 3.14159265358979323846 / 180.0;
            const Vec2 wanted{-std::sin(turned), std::cos(turned)};
            const bool stands = std::any_of(arrows.begin(), arrows.end(), [&](const DrawnArrow& arrow) {
                return length(arrow.along - wanted) < 0.1 * 3.14159265358979323846 / 180.0;
            });
            CAPTURE(after_tdc);
            CHECK(stands);
        }
    }
}

TEST_CASE("names are text in both formats, whatever they hold") {
    Job job = basalt::job(basalt::arcs_with_flank(6.0, 2.4, 120.0, 16.0), basalt::flat());
    job.title = "<script>\"&%%d^J\\P\n\u202Eé";
    const Drawing drawing = lobe_drawing(job, basalt::solved(job));
    const std::string svg = svg_text(drawing), dxf = dxf_text(drawing);
    CHECK(svg.find("<script>") == std::string::npos);
    CHECK(svg.find("&lt;script&gt;&quot;&amp;%%d^J") != std::string::npos);
    CHECK(dxf.find("<script>\"&%%037%%037d^ J\\U+005CP \\U+202E\\U+00E9") != std::string::npos);
    CHECK(count(dxf, "%%d") == 0);
}

TEST_CASE("an SVG closes what it opens and has the paper's size in mm") {
    const Fixture fixture;
    const Drawing drawing = shaft_drawing(fixture.job, fixture.lobes);
    const std::string svg = svg_text(drawing);
    CHECK(count(svg, "<text ") == count(svg, "</text>"));
    CHECK(count(svg, "<") == count(svg, ">"));
    std::ostringstream width;
    width << "width=\"" << std::round((drawing.high.x - drawing.low.x) * 1000.0) / 1000.0;
    CHECK(svg.find(width.str().substr(0, 10)) != std::string::npos);
    CHECK(svg.find("nan") == std::string::npos);
    CHECK(svg.find("inf") == std::string::npos);
}

TEST_CASE("a DXF is pairs of lines at the thing's own size in the job's units") {
    Job job = basalt::job(basalt::arcs_with_flank(25.4, 5.08, 120.0, 76.2), basalt::flat(60.0));
    job.units = Units::inch;
    const SolvedLobe lobe = basalt::solved(job);
    const std::string once = dxf_text(lobe_drawing(job, lobe, 1.0)),
                      twice = dxf_text(lobe_drawing(job, lobe, 2.0));
    std::istringstream lines(once);
    std::vector<std::string> all;
    for (std::string line; std::getline(lines, line);)
        all.push_back(line);
    REQUIRE(all.size() % 2 == 0);
    bool circle = false, vertex = false;
    for (std::size_t i = 0; i + 1 < all.size(); i += 2) {
        if (all[i] == "40" && all[i + 1] == "1") circle = true;  // the base circle's radius: 25.4 mm is 1 in
        if (all[i] == "10" && all[i + 1] == "-0.5") vertex = vertex || true;
    }
    CHECK(circle);
    CHECK(twice.find("\n40\n1\n") != std::string::npos);  // the same whatever the scale
    CHECK(all[1] == "lengths in inches, the thing's own size");
}

TEST_CASE(
    "what is drawn at no scale of one's own fits A4 and Letter with margins, so that no printer shrinks it") {
    constexpr double widest = 190.0, tallest = 257.0;  // mm: 210 x 297 and 215.9 x 279.4 less 10 all round
    const Fixture single;
    const Job four = example_job("basalt-four");
    const auto lobes = taken(solve_lobes(four));
    for (const Drawing& drawing :
         {lobe_drawing(four, lobes[0]), lobe_drawing(four, lobes[1]), shaft_drawing(four, lobes),
          motion_drawing(four, lobes[0]), taken(degree_wheel_drawing(four, lobes, 165.0, Sense::cw)),
          taken(index_wheel_drawing(single.job, single.lobes, single.plan, {150.0, 20.0, 0.0})),
          taken(nose_drawing(single.job, single.lobes, single.plan, 0))}) {
        CAPTURE(drawing.title);
        CHECK(drawing.high.x - drawing.low.x <= widest);
        CHECK(drawing.high.y - drawing.low.y <= tallest);
    }
}

TEST_CASE("an oil hole is drawn and noted where it is drilled, counted from its lobe's nose") {
    Job job = example_job("basalt-four");
    const auto lobes = taken(solve_lobes(job));
    const auto before = all_of<DrawnArrow>(shaft_drawing(job, lobes));
    job.shaft.holes = {{20.0, lobes[0].name, ShaftAngle::from_degrees(180.0), 1.5}};
    const Drawing drawing = shaft_drawing(job, lobes);
    const auto arrows = all_of<DrawnArrow>(drawing);
    REQUIRE(arrows.size() == before.size() + 1);
    const Vec2 wanted = -unit(lobes[0].at.radians());
    CHECK(std::any_of(arrows.begin(), arrows.end(),
                      [&](const DrawnArrow& arrow) { return length(arrow.along - wanted) < 1e-9; }));
    // "1 exhaust" points at 235 degrees, by its timing card: the hole at 55.
    CHECK(text_of(all_of<DrawnText>(drawing), "hole 1.5 across, 20 from the drive end, at 55°") != nullptr);
}

TEST_CASE("the usual scale is the largest that fits") {
    CHECK(usual_scale(16.8, 110.0) == 5.0);
    CHECK(usual_scale(11.0, 110.0) == 10.0);
    CHECK(usual_scale(11.1, 110.0) == 5.0);
    CHECK(usual_scale(110.1, 110.0) == 0.5);
    CHECK(usual_scale(1.0, 110.0) == 50.0);
}

TEST_CASE("the motion's curves reach their peaks where the axes say") {
    const Job job =
        basalt::job(basalt::law(LawKind::cycloidal, 20.0, 4.0, 60.0, 60.0), basalt::endless_flat());
    const auto chains = all_of<DrawnChain>(motion_drawing(job, basalt::solved(job)));
    REQUIRE(chains.size() == 4);
    // Cycloidal motion: peak velocity 2 h/beta, peak acceleration 2 pi h/beta^2 on both sides: symmetrical
    // plots.
    for (const DrawnChain& curve : chains) {
        const auto [low, high] =
            std::minmax_element(curve.points.begin(), curve.points.end(),
                                [](const ChainPoint& a, const ChainPoint& b) { return a.at.y < b.at.y; });
        CHECK_NEAR(high->at.y - low->at.y, 38.0, 1e-9);
        CHECK(curve.points.front().at.x < curve.points.back().at.x);
    }
}
