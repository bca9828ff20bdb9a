// A wide lobe finished in one continuous pass along it.

#include "basalt.h"
#include "catch.h"
#include "five_lobes.h"
#include "planned.h"
#include "sweep.h"
#include "toolpath/section/axial_steps.h"
#include "word_limits.h"

#include <algorithm>
#include <cmath>

using namespace lobewright;
using toolpath::spacing_share;

namespace {

SolvedLobe wide_lobe() {
    SolvedLobe lobe = five_lobes::all()[0].lobe;
    lobe.width = 14.0;
    lobe.z = 30.0;
    return lobe;
}

Job job_of(const SolvedLobe& lobe, const Cutter& cutter, CutterAxis axis, CutAlong along,
           double tolerance = 0.01) {
    Job job = five_lobes::job_for(lobe, tolerance);
    job.machine->cutter_axis = axis;
    job.cutters["disc"] = cutter;
    job.cut->along = along;
    job.lobes = {{lobe.name, "p", "f", lobe.at, 0, Valve::inlet, lobe.z, lobe.width, 1}};
    job.places["cut.along"] = {"job.toml", 33, 1};
    return job;
}

Cutter ball(double diameter) {
    Cutter cutter = basalt::end_mill(diameter, 40.0);
    cutter.kind = CutterKind::ball_nose;
    cutter.teeth = 2;
    return cutter;
}

struct Case {
    const char* name;
    Cutter cutter;
    CutterAxis axis;
};

std::vector<Case> cases() {
    return {{"a narrow disc beside the shaft", basalt::disc(32.0, 3.0, 10.0), CutterAxis::parallel},
            {"a ball over it", ball(10.0), CutterAxis::radial},
            {"a disc across it", basalt::disc(60.0, 20.0, 20.0), CutterAxis::tangential}};
}

int finish_passes(const Toolpath& path) {
    return static_cast<int>(std::count_if(path.passes.begin(), path.passes.end(),
                                          [](const Pass& pass) { return pass.kind == PassKind::finish; }));
}

}  // namespace

TEST_CASE("a helix finishes a wide lobe within the tolerance everywhere, with one way in") {
    const SolvedLobe lobe = wide_lobe();
    for (const Case& c : cases()) {
        INFO(c.name);
        const Job job = job_of(lobe, c.cutter, c.axis, CutAlong::helix);
        const Toolpath path = planned(job, {lobe});
        REQUIRE(finish_passes(path) == 1);
        const Pass& pass = path.passes.back();
        REQUIRE(pass.slides_to.has_value());
        for (std::size_t i = pass.contour_first; i + 1 < pass.last; ++i)
            CHECK(path.moves[i].kind == MoveKind::feed);
        const auto positions = sweep::positions_of(path);
        for (const double share : {-0.4999, -0.31, -0.02, 0.17, 0.4, 0.4999}) {
            const sweep::Slab slab(positions, sweep::cutting_body(job), lobe.z + share * lobe.width,
                                   0.5 * *job.shaft.blank_diameter);
            const sweep::Comparison left = sweep::compare(slab, lobe, 0.0, 120);
            INFO(share << " of the width");
            CHECK(left.deepest >= -0.01 - 1e-4);
            CHECK(left.proudest <= 0.01 + 1e-4);
        }
        word_limits::check(path, job.machine->limits);
    }
}

TEST_CASE("a helix begins and ends with a whole turn that stands still along the shaft") {
    const SolvedLobe lobe = wide_lobe();
    for (const Case& c : cases()) {
        INFO(c.name);
        const Toolpath path = planned(job_of(lobe, c.cutter, c.axis, CutAlong::helix), {lobe});
        const Pass& pass = path.passes.back();
        const std::size_t end = pass.contour_first + static_cast<std::size_t>(pass.contour_blocks);
        const auto turned = [&](std::size_t from, std::size_t to) {
            return std::abs(static_cast<double>(path.moves[to].to.rotary - path.moves[from].to.rotary)) *
                   path.grid.rotary_step;
        };
        std::size_t first = pass.contour_first - 1, last = end - 1;
        while (path.moves[first].to.axial == path.moves[pass.contour_first - 1].to.axial)
            ++first;
        while (path.moves[last].to.axial == path.moves[end - 1].to.axial)
            --last;
        CHECK(turned(pass.contour_first - 1, first - 1) >= 360.0 - 1e-6);
        CHECK(turned(last + 1, end - 1) >= 360.0 - 1e-6);
        for (std::size_t i = first; i <= last + 1; ++i)  // one way, as far as the shaft turns
            CHECK(path.moves[i].to.axial != path.moves[i - 1].to.axial);
        const double mm = static_cast<double>(path.moves[end - 1].to.axial) * path.grid.axial_step;
        CHECK_NEAR(mm, *pass.slides_to, path.grid.axial_step);
    }
}

TEST_CASE("however far its blocks turn, a helix goes no further on in a turn than the cutter covers") {
    for (const Case& c : cases()) {
        for (const double width : {5.2, 6.3, 7.9, 9.4, 11.1}) {
            INFO(c.name << ", " << width << " wide");
            SolvedLobe lobe = wide_lobe();  // on whose heel a block turns far
            lobe.width = width;
            const Toolpath steps = planned(job_of(lobe, c.cutter, c.axis, CutAlong::steps), {lobe});
            std::vector<double> places;
            for (const Pass& pass : steps.passes)
                if (pass.kind == PassKind::finish) places.push_back(pass.axial);
            if (places.size() < 2) continue;
            const Toolpath helix = planned(job_of(lobe, c.cutter, c.axis, CutAlong::helix), {lobe});
            double most = 0.0;
            for (std::size_t i = helix.passes.back().contour_first; i < helix.passes.back().last; ++i) {
                const Words &a = helix.moves[i - 1].to, &b = helix.moves[i].to;
                if (a.axial == b.axial || a.rotary == b.rotary) continue;
                const auto steps_along = static_cast<double>(std::abs(b.axial - a.axial));
                const double turned =
                    static_cast<double>(std::abs(b.rotary - a.rotary)) * helix.grid.rotary_step / 360.0;
                // But for the rounding of its words.
                most = std::max(most, (steps_along - 1.0) * helix.grid.axial_step / turned);
            }
            CHECK(most <= std::abs(places[1] - places[0]) / spacing_share + 1e-6);
        }
    }
}

TEST_CASE("a helix takes no longer than steps, and fewer ways in") {
    const SolvedLobe lobe = wide_lobe();
    for (const Case& c : cases()) {
        INFO(c.name);
        const Toolpath helix = planned(job_of(lobe, c.cutter, c.axis, CutAlong::helix), {lobe});
        const Toolpath steps = planned(job_of(lobe, c.cutter, c.axis, CutAlong::steps), {lobe});
        CHECK(finish_passes(steps) > 2);
        CHECK(helix.cycle_seconds < 1.15 * steps.cycle_seconds);
    }
}

TEST_CASE("where one place covers the lobe a helix is a plain pass") {
    const SolvedLobe lobe = wide_lobe();
    const Cutter wide = basalt::disc(32.0, 16.0, 10.0);
    const Toolpath path = planned(job_of(lobe, wide, CutterAxis::parallel, CutAlong::helix), {lobe});
    CHECK(finish_passes(path) == 1);
    CHECK_FALSE(path.passes.back().slides_to.has_value());
}

TEST_CASE("a helix that the controller would run away with is refused") {
    const SolvedLobe lobe = wide_lobe();
    WordGrid grid;
    grid.least_linear_feed = 2.54;
    const Job job = job_of(lobe, ball(10.0), CutterAxis::radial, CutAlong::helix);
    const auto refused = plan_toolpath(job, {lobe}, grid);
    REQUIRE_FALSE(refused.ok());
    const Diagnostic& why = refused.diagnostics().front();
    CHECK(why.code == "helix-too-slow");
    CHECK(why.place.line == 33);
    CHECK_THAT(why.remedy, ContainsSubstring("cut.along = \"steps\""));
    grid.least_linear_feed = 0.1;
    CHECK(plan_toolpath(job, {lobe}, grid).ok());
}

TEST_CASE("spring passes go along the lobe once more") {
    const SolvedLobe lobe = wide_lobe();
    Job job = job_of(lobe, ball(10.0), CutterAxis::radial, CutAlong::helix);
    job.cut->spring_passes = 1;
    const Toolpath path = planned(job, {lobe});
    REQUIRE(path.passes.size() == 2);
    CHECK(path.passes.back().kind == PassKind::spring);
    CHECK(path.passes.back().slides_to == path.passes.front().slides_to);
}

TEST_CASE("roughing goes in coarse steps, and leaves the finish pass no more than a ring's depth") {
    const SolvedLobe lobe = wide_lobe();
    Job job = job_of(lobe, ball(10.0), CutterAxis::radial, CutAlong::steps, 0.005);
    job.shaft.blank_diameter = 20.0;
    job.cut->rough_depth = 0.6;
    const Toolpath path = planned(job, {lobe});
    int places = 0;
    for (const Pass& pass : path.passes)
        places += pass.kind == PassKind::roughing && pass.ring == 1 ? 1 : 0;
    CHECK(places > 1);
    CHECK(3 * places < finish_passes(path));
    const auto positions = sweep::positions_of(path);
    const std::size_t finish = std::find_if(path.passes.begin(), path.passes.end(), [](const Pass& pass) {
                                   return pass.kind == PassKind::finish;
                               })->first;
    for (const double share : {-0.49, -0.2, 0.0, 0.11, 0.33}) {
        const sweep::Slab slab(positions, sweep::cutting_body(job), lobe.z + share * lobe.width, 10.0, false,
                               1, finish + 1);
        CHECK(sweep::compare(slab, lobe, 0.0, 90).proudest <= 0.6);
    }
}
