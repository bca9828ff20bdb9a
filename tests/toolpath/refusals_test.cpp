#include "catch.h"
#include "five_lobes.h"

#include <lobewright/number_text.h>

using namespace lobewright;

namespace {

Diagnostic refused(const Job& job, const std::vector<SolvedLobe>& lobes, const WordGrid& grid = {}) {
    const auto path = plan_toolpath(job, lobes, grid);
    REQUIRE_FALSE(path.ok());
    CHECK_FALSE(path.diagnostics().front().remedy.empty());
    return path.diagnostics().front();
}

bool planned(const Job& job, const std::vector<SolvedLobe>& lobes, const WordGrid& grid = {}) {
    const auto path = plan_toolpath(job, lobes, grid);
    for (const Diagnostic& d : path.diagnostics())
        UNSCOPED_INFO(to_text(d));
    return path.ok();
}

/// The figure that a remedy names: the first number in it, in mm.
double figure(const std::string& remedy) {
    const std::size_t from = remedy.find_first_of("0123456789");
    REQUIRE(from != std::string::npos);
    const std::size_t to = remedy.find_first_not_of("0123456789.", from);
    const auto value = parse_decimal(remedy.substr(from, to - from));
    REQUIRE(value.has_value());
    return *value;
}

/// One lobe beside another, 1.5 mm between their faces.
struct Pair {
    Job job;
    std::vector<SolvedLobe> lobes;
};

Pair pair_of_lobes() {
    SolvedLobe first = five_lobes::all()[0].lobe, second = first;
    Pair pair{five_lobes::job_for(first, 0.002), {}};
    first.z = 20.0, second.z = 27.5;
    second.name = "other", second.entry = 1;
    pair.lobes = {first, second};
    LobeEntry entry = pair.job.lobes.front();
    entry.name = "other", entry.z = 27.5;
    pair.job.lobes.push_back(entry);
    pair.job.cutters["disc"].width = 6.0;
    return pair;
}

Job with_end_mill(const SolvedLobe& lobe, CutterAxis axis, double diameter) {
    Job job = five_lobes::job_for(lobe, 0.002);
    job.cutters["disc"] = basalt::end_mill(diameter, 30.0);
    job.machine->cutter_axis = axis;
    return job;
}

}  // namespace

TEST_CASE("a job without machine, cut, blank or cutter is told what is missing, all of it at once") {
    Job job = basalt::four();
    const auto lobes = solve_lobes(job);
    REQUIRE(lobes.ok());
    Job bare = job;
    bare.machine.reset();
    bare.cut.reset();
    bare.shaft.blank_diameter.reset();
    const auto path = plan_toolpath(bare, *lobes, {});
    REQUIRE(path.diagnostics().size() == 3);
    for (const Diagnostic& d : path.diagnostics())
        CHECK(d.fault == Fault::bad_input);
    job.cut->cutter = "none";
    CHECK(refused(job, *lobes).what == "there is no [cutter.none]");
}

TEST_CASE(
    "lobes that overlap along the shaft, and a blank too small for them, are refused with what would do") {
    Pair pair = pair_of_lobes();
    CHECK(planned(pair.job, pair.lobes));
    const auto move_to = [&](double z) { pair.job.lobes[1].z = pair.lobes[1].z = z; };
    move_to(25.0);
    const Diagnostic overlap = refused(pair.job, pair.lobes);
    CHECK(overlap.code == "overlap");
    move_to(figure(overlap.remedy));
    Job blank = pair.job;
    blank.shaft.blank_diameter = 16.0;
    const Diagnostic small = refused(blank, pair.lobes);
    CHECK(small.code == "blank-too-small");
    CHECK_NEAR(figure(small.remedy), 16.8, 1e-4);
}

TEST_CASE("a disc too large for a hollow flank is refused with the largest that works, and that one works") {
    const SolvedLobe lobe = five_lobes::all()[2].lobe;
    Job job = five_lobes::job_for(lobe, 0.002);
    job.cutters["disc"].diameter = 400.0;
    const Diagnostic first = refused(job, {lobe});
    CHECK(first.code == "cutter-too-large");
    job.cutters["disc"].diameter = figure(first.remedy);
    CHECK_RELATIVE(figure(first.remedy), 2.0 * lobe.contour.smallest_hollow_radius(), 1e-3);
    CHECK(planned(job, {lobe}));
    job.cutters["disc"].diameter += 0.01;
    CHECK_FALSE(planned(job, {lobe}));
}

TEST_CASE(
    "flutes lying across that are too short for the contact's way are refused with the length that does") {
    const SolvedLobe lobe = five_lobes::all()[0].lobe;
    Job job = with_end_mill(lobe, CutterAxis::tangential, 10.0);
    CHECK(planned(job, {lobe}));
    job.cutters["disc"].flute_length = 5.0;
    const Diagnostic first = refused(job, {lobe});
    CHECK(first.code == "cutter-too-narrow");
    job.cutters["disc"].flute_length = figure(first.remedy);
    CHECK(planned(job, {lobe}));
    job.cutters["disc"].flute_length = figure(first.remedy) - 0.05;
    CHECK_FALSE(planned(job, {lobe}));
}

TEST_CASE(
    "an end narrower than the contact's way rides on its corner, in finer axial steps, until these are too "
    "fine") {
    const SolvedLobe lobe = five_lobes::all()[3].lobe;
    Job job = with_end_mill(lobe, CutterAxis::radial, 16.0);
    const auto wide = plan_toolpath(job, {lobe}, {});
    REQUIRE(wide.ok());
    job.cutters["disc"].diameter = 2.0;
    const auto narrow = plan_toolpath(job, {lobe}, {});
    REQUIRE(narrow.ok());
    CHECK(wide->passes.size() == 1);
    CHECK(narrow->passes.size() > 20);
    job.cutters["disc"].kind = CutterKind::ball_nose;
    job.cutters["disc"].diameter = 0.01;
    CHECK(refused(job, {lobe}).code == "axial-steps-too-fine");
}

TEST_CASE("a cutter so narrow that it would pass the lobe more than a thousand times is refused") {
    Pair pair = pair_of_lobes();
    // So wide that 1,000 places, of which 999 count 95 %, just cover the lobe, but for two steps of the grid.
    const double lobe = pair.lobes[0].width, steps = 2.0 * WordGrid{}.axial_step;
    pair.job.cutters["disc"].width = lobe / 949.0 + steps;
    CHECK(plan_toolpath(pair.job, pair.lobes, {}).ok());
    for (const double width : {lobe / 951.0 + steps, 1.5 * steps, steps, 0.5 * steps}) {
        pair.job.cutters["disc"].width = width;
        const Diagnostic refusal = refused(pair.job, pair.lobes);
        CHECK(refusal.code == "axial-steps-too-fine");
        CHECK_THAT(refusal.what, ContainsSubstring("which take too long"));
        CHECK(refusal.remedy == "use a wider cutter");
    }
}

TEST_CASE("a disc that overhangs into a neighbour is refused with the widest that fits, and that one fits") {
    Pair pair = pair_of_lobes();
    pair.job.cutters["disc"].width = 12.0;
    const Diagnostic first = refused(pair.job, pair.lobes);
    CHECK(first.code == "neighbour-in-the-way");
    CHECK_NEAR(figure(first.remedy), 9.0, 1e-3);  // 6 mm of lobe and 1.5 mm either side
    pair.job.cutters["disc"].width = figure(first.remedy);
    CHECK(planned(pair.job, pair.lobes));
}

TEST_CASE("a neck that rubs on the next blank is refused with the slimmest that fits, and that one fits") {
    Pair pair = pair_of_lobes();
    pair.job.cutters["disc"].neck_diameter = 30.0;
    const Diagnostic first = refused(pair.job, pair.lobes);
    CHECK(first.code == "neighbour-in-the-way");
    CHECK(first.what.find("the neck of") != std::string::npos);
    // Edge on the base circle of 6 mm: the neck's radius is at most 16 + 6 - 8.7 mm (blank 17.4).
    CHECK_NEAR(figure(first.remedy), 2.0 * (16.0 + 6.0 - 8.7), 0.01);
    pair.job.cutters["disc"].neck_diameter = figure(first.remedy);
    CHECK(planned(pair.job, pair.lobes));
    pair.job.cutters["disc"].neck_diameter = figure(first.remedy) + 0.01;
    CHECK_FALSE(planned(pair.job, pair.lobes));
}

TEST_CASE("a holder that comes down on a neighbour is refused with the shortest reach that fits") {
    Pair pair = pair_of_lobes();
    Cutter& cutter = pair.job.cutters["disc"];
    cutter.reach = 8.0;
    cutter.holder_diameter = 40.0;
    const Diagnostic first = refused(pair.job, pair.lobes);
    CHECK(first.code == "neighbour-in-the-way");
    CHECK(first.what.find("the holder of") != std::string::npos);
    cutter.reach = figure(first.remedy);
    CHECK(planned(pair.job, pair.lobes));
    cutter.reach = figure(first.remedy) - 0.01;
    CHECK_FALSE(planned(pair.job, pair.lobes));
}

TEST_CASE("the holder of a cutter lying across stands beside the shaft if its reach is long enough") {
    const SolvedLobe lobe = five_lobes::all()[0].lobe;
    Job job = with_end_mill(lobe, CutterAxis::tangential, 10.0);
    Cutter& cutter = job.cutters["disc"];
    cutter.holder_diameter = 50.0;
    cutter.reach = 20.0;  // 5 mm past the flutes' middle, over the blank of 8.7 mm radius
    const Diagnostic first = refused(job, {lobe});
    CHECK(first.code == "neighbour-in-the-way");
    CHECK_NEAR(figure(first.remedy), 15.0 + 8.7, 0.01);
    cutter.reach = figure(first.remedy);
    CHECK(planned(job, {lobe}));
}

TEST_CASE("a parallel end mill on a shaft of several lobes is refused, and told what to take") {
    Pair pair = pair_of_lobes();
    Cutter& cutter = pair.job.cutters["disc"];
    cutter = Cutter{};
    cutter.diameter = 10.0;
    cutter.flute_length = 22.0;
    const Diagnostic first = refused(pair.job, pair.lobes);
    CHECK(first.code == "neighbour-in-the-way");
    CHECK(first.remedy.find("disc with a slim neck") != std::string::npos);
}

TEST_CASE(
    "a radial end mill that reaches a journal is refused with the largest that fits, and that one fits") {
    const SolvedLobe lobe = five_lobes::all()[0].lobe;  // at z 20 mm, 6 mm wide
    Job job = with_end_mill(lobe, CutterAxis::radial, 16.0);
    job.shaft.journals = {{11.0, 6.0, 20.0}};  // ends 6 mm from the lobe's middle
    const Diagnostic first = refused(job, {lobe});
    CHECK(first.code == "neighbour-in-the-way");
    CHECK_NEAR(figure(first.remedy), 12.0, 0.01);
    job.cutters["disc"].diameter = figure(first.remedy);
    CHECK(planned(job, {lobe}));
}

TEST_CASE(
    "a shank thicker than its mill stays off the blank by the flutes' length, and that one goes clear") {
    const SolvedLobe lobe = five_lobes::all()[0].lobe;
    Job job = with_end_mill(lobe, CutterAxis::radial, 16.0);
    Cutter& cutter = job.cutters["disc"];
    cutter.shank_diameter = 20.0;
    cutter.flute_length = 2.5;
    const Diagnostic first = refused(job, {lobe});
    CHECK(first.code == "neighbour-in-the-way");
    CHECK_THAT(first.what, ContainsSubstring("the shank of") && ContainsSubstring("the blank of lobe"));
    // The end on the base circle of 6 mm, the tolerance of 2 um deeper at worst; the blank's radius is 8.7
    // mm.
    CHECK_NEAR(figure(first.remedy), 8.7 - 6.0 + 0.002, 1e-4);
    cutter.flute_length = figure(first.remedy);
    CHECK(planned(job, {lobe}));
    cutter.flute_length = figure(first.remedy) - 0.001;
    CHECK_FALSE(planned(job, {lobe}));
    cutter.holder_diameter = 40.0, cutter.reach = 2.6;  // longer flutes alone leave this one in the way
    CHECK(refused(job, {lobe}).remedy == "use a shank no thicker than the cutter");
}

TEST_CASE(
    "a disc so small that no neck goes clear is told the diameter that lifts its neck, or another cutter") {
    Pair pair = pair_of_lobes();
    Cutter& cutter = pair.job.cutters["disc"];
    cutter.diameter = 5.0, cutter.neck_diameter = 4.0;
    const Diagnostic first = refused(pair.job, pair.lobes);
    CHECK(first.code == "neighbour-in-the-way");
    // The neck's radius of 2 mm over the next blank's 8.7 mm, the edge on the base circle, 2 um deeper at
    // worst.
    CHECK_NEAR(figure(first.remedy), 2.0 * (8.7 + 2.0 - 6.0 + 0.002), 1e-4);
    cutter.diameter = figure(first.remedy);
    CHECK(planned(pair.job, pair.lobes));
    cutter.diameter = figure(first.remedy) - 0.001;
    CHECK_FALSE(planned(pair.job, pair.lobes));
    cutter.diameter = 0.7, cutter.neck_diameter = 0.6;  // eight times that are 5.6 mm, and it takes 6
    CHECK(refused(pair.job, pair.lobes).remedy == "cut it with a radial cutter");
}

TEST_CASE("where no size of the cutting edges goes clear another cutter is named") {
    Pair pair = pair_of_lobes();
    pair.job.cutters["disc"].width = 12.0;
    pair.job.cutters["disc"].neck_diameter = 30.0;  // in the way of any width
    CHECK(refused(pair.job, pair.lobes).remedy == "use a disc with a slimmer neck, or a radial cutter");
    const SolvedLobe lobe = five_lobes::all()[0].lobe;
    Job job = with_end_mill(lobe, CutterAxis::radial, 16.0);
    job.shaft.journals = {{11.0, 6.0, 20.0}};
    Cutter& mill = job.cutters["disc"];
    mill.holder_diameter = 40.0, mill.reach = 3.0;  // over the journal of any diameter
    CHECK(refused(job, {lobe}).remedy == "use a narrow disc parallel to the shaft");
}

TEST_CASE("flutes lying across a hollow flank are refused: their straight side bridges it") {
    const SolvedLobe lobe = five_lobes::all()[2].lobe;
    const Diagnostic first = refused(with_end_mill(lobe, CutterAxis::tangential, 10.0), {lobe});
    CHECK(first.code == "cutter-too-large");
    CHECK_THAT(first.remedy, ContainsSubstring("bridges any hollow"));
}

TEST_CASE("a tolerance finer than the words' own steps is refused") {
    const SolvedLobe lobe = five_lobes::all()[0].lobe;
    const Job job = five_lobes::job_for(lobe, 0.0004);
    CHECK(planned(job, {lobe}, {1e-4, 1e-4, 1e-3, 0.0, 0.0}));
    CHECK(refused(job, {lobe}, {1e-3, 1e-3, 1e-3, 0.0, 0.0}).code == "tolerance-too-fine");
}

TEST_CASE("a disc can't cut with its end, nor an end mill with flutes that nobody has measured") {
    const SolvedLobe lobe = five_lobes::all()[0].lobe;
    Job job = five_lobes::job_for(lobe, 0.002);
    job.machine->cutter_axis = CutterAxis::radial;
    CHECK(refused(job, {lobe}).code == "cutter-held-so");
    job = with_end_mill(lobe, CutterAxis::parallel, 10.0);
    job.cutters["disc"].flute_length.reset();
    CHECK(refused(job, {lobe}).fault == Fault::bad_input);
}

TEST_CASE("a ball nose steps so finely along the shaft that its ridges stay within the tolerance") {
    const SolvedLobe lobe = five_lobes::all()[0].lobe;
    Job job = with_end_mill(lobe, CutterAxis::radial, 8.0);
    job.cutters["disc"].kind = CutterKind::ball_nose;
    const auto path = plan_toolpath(job, {lobe}, {});
    REQUIRE(path.ok());
    double widest = 0.0;
    for (std::size_t i = 1; i < path->passes.size(); ++i) {
        widest = std::max(widest, path->passes[i].axial - path->passes[i - 1].axial);
    }
    // h = r - sqrt(r² - (p/2)²), the ridge between balls of radius r at the pitch p.
    CHECK(4.0 - std::sqrt(16.0 - 0.25 * widest * widest) <= 0.85 * 0.002 + 1e-9);
    const double half = std::sqrt(16.0 - (4.0 - 0.85 * 0.002) * (4.0 - 0.85 * 0.002));
    CHECK(path->passes.front().axial - half <= 17.0);
    CHECK(path->passes.back().axial + half >= 23.0);
}
