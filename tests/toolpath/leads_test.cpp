// How passes come to the surface and leave it.

#include "toolpath/path/leads.h"

#include "catch.h"
#include "contours.h"
#include "five_lobes.h"
#include "single_pass.h"
#include "toolpath/path/way_down.h"

#include <algorithm>
#include <cmath>

using namespace lobewright;
using namespace lobewright::toolpath;
using contours::angle_of;

namespace {

struct Case : single_pass::SinglePass {
    explicit Case(const Contour& contour, const AxisLimits& limits = {})
        : SinglePass(contour, set_up(five_lobes::job_for(five_lobes::all()[0].lobe, 0.002), {})) {
        setup.machine.limits = limits;
    }
};

Contour arcs() {
    return contours::three_arcs(6.0, 2.4, 60.0 * full_turn / 360.0, 25.0);
}

}  // namespace

TEST_CASE(
    "a lead-in falls along a parabola that ends on the surface along its tangent, never below the surface") {
    const Case c(arcs());
    const PassFrame frame = c.frame();
    const Heel heel = widest_heels(c.function).front();
    const long long start = frame.steps(0.5 * (heel.start + heel.end)), length = frame.steps(angle_of(0.3));
    const Knots in = lead_knots(frame, {start - length, start, 0.5, true});
    REQUIRE(in.size() >= 3);
    for (const GridKnot& knot : in) {
        const double share = static_cast<double>(start - knot.rotary) / static_cast<double>(length);
        CHECK(knot.rotary < start);
        CHECK_NEAR(c.over(knot), 0.5 * share * share, 1.1 * c.setup.steps.radial);
        CHECK(c.over(knot) >= 0.0);
    }
    const Knots out = lead_knots(frame, {start, start + length, 0.5, false});
    REQUIRE(out.size() == in.size());
    for (std::size_t i = 0; i < out.size(); ++i) {  // the same the other way round
        CHECK(std::abs(out[i].rotary - start - (start - in[in.size() - 1 - i].rotary)) <= 1);
        CHECK(out[i].radial == in[in.size() - 1 - i].radial);
    }
}

TEST_CASE("a lead over a flank keeps off it everywhere between its knots") {
    const Case c(contours::polar_bump(8.0, 2.0, 2, 1));
    const PassFrame frame = c.frame();
    for (const double facing : {-2.0, -1.0, 0.3, 1.2, 2.5}) {
        const long long start = frame.steps(angle_of(facing)), length = frame.steps(angle_of(0.25));
        Knots in = lead_knots(frame, {start - length, start, 0.01, true});
        in.push_back(
            {start, frame.radial_steps(c.function.at(frame.travel(start)).radial)});  // the contour's
        for (std::size_t i = 0; i + 1 < in.size(); ++i) {
            for (int k = 0; k <= 10; ++k) {
                const auto mix = [k](long long a, long long b) { return a + (b - a) * k / 10; };
                INFO(facing << ", block " << i);
                CHECK(c.over({mix(in[i].rotary, in[i + 1].rotary), mix(in[i].radial, in[i + 1].radial)}) >=
                      -2e-4);
            }
        }
    }
}

TEST_CASE("where jumps of the radial speed are limited a lead has parts enough to keep them") {
    AxisLimits limits;
    limits.radial_jump = 3.0;
    const Case c(arcs(), limits);
    const PassFrame frame = c.frame();
    const Heel heel = widest_heels(c.function).front();
    const long long start = frame.steps(0.5 * (heel.start + heel.end)), length = frame.steps(angle_of(0.3));
    const Knots in = lead_knots(frame, {start - length, start, 0.5, true});
    const auto speed = [&](const GridKnot& a, const GridKnot& b) {
        const double arc = static_cast<double>(b.rotary - a.rotary) * c.setup.steps.rotary * 6.0;
        return static_cast<double>(b.radial - a.radial) * c.setup.steps.radial / arc * 120.0;
    };
    for (std::size_t i = 0; i + 2 < in.size(); ++i)
        CHECK(std::abs(speed(in[i + 1], in[i + 2]) - speed(in[i], in[i + 1])) <= 3.0 * 1.2);
}

TEST_CASE("where jumps are limited the way down gains speed and loses it by steps of no more than the jump") {
    AxisLimits limits;
    limits.radial_jump = 60.0, limits.radial_speed = 600.0;
    const Case c(arcs(), limits);
    const PassFrame frame = c.frame();
    for (const double drop : {0.05, 0.5, 40.0}) {
        INFO(drop << " mm down");
        const long long radial = frame.safe() - std::llround(drop / c.setup.steps.radial);
        const auto way = way_down(frame, radial);
        long long at = frame.safe();
        double speed = 0.0;
        for (const Down& down : way) {
            CHECK(down.to < at);
            CHECK(std::abs(down.feed - speed) <= 60.0);
            at = down.to, speed = down.feed;
        }
        CHECK(at == radial);
        CHECK(speed <= 60.0);  // to rest
    }
}

TEST_CASE("a start lies on the heel with room for its leads, at the first turn that comes in time") {
    const Heel heel{angle_of(1.0), angle_of(4.0)};
    const LeadAngles leads = lead_angles(heel, 6.0, 0.3, 0.05, angle_of(0.1));
    CHECK(leads.on_heel);
    constexpr double step = 1e-5;
    for (const double earliest : {-20.0, -3.0, 0.0, 2.0, 3.9, 7.3, 50.0}) {
        const double start =
            static_cast<double>(start_after(heel, leads, angle_of(0.1), angle_of(earliest), step)) * step;
        INFO("earliest " << earliest);
        CHECK(start >= earliest - 1e-9);
        CHECK(start < earliest + full_turn);
        double on_heel = start - heel.start.radians();
        on_heel -= full_turn * std::floor(on_heel / full_turn);
        CHECK(on_heel >= leads.in.radians() - 2.0 * step);
        CHECK(on_heel + 0.1 + leads.out.radians() <= heel.width().radians() + 2.0 * step);
    }
}

TEST_CASE(
    "on a heel too short for them leads shrink with it, and give it up where a lead-in would be a drop") {
    const LeadAngles wide = lead_angles({angle_of(0.0), angle_of(3.0)}, 6.0, 0.3, 0.05, {});
    CHECK_NEAR(wide.in.radians(), 5.0 * 0.3 / 6.0, 1e-12);
    const LeadAngles tight = lead_angles({angle_of(0.0), 0.6 * (wide.in + wide.out)}, 6.0, 0.3, 0.05, {});
    CHECK(tight.on_heel);
    CHECK_NEAR(tight.in.radians(), 0.6 * wide.in.radians(), 1e-12);
    CHECK_NEAR(tight.out.radians(), 0.6 * wide.out.radians(), 1e-12);
    CHECK_FALSE(lead_angles({angle_of(0.0), angle_of(0.01)}, 6.0, 0.3, 0.05, {}).on_heel);
}

TEST_CASE(
    "the cutter comes straight down without turning back, the last of it no faster than the cut's feed") {
    for (const five_lobes::Case& c : five_lobes::all()) {
        Job job = five_lobes::job_for(c.lobe, 0.002);
        for (const bool roughs : {false, true}) {
            if (roughs) job.cut->rough_depth = 0.4;
            const auto path = plan_toolpath(job, {c.lobe}, {});
            REQUIRE(path.ok());
            const double step = set_up(job, {}).steps.radial;
            INFO(c.name);
            int down = 0;
            Words at = path->start;
            double before = 0.0;  // mm down by the straight feed before, where there was one
            for (const Move& move : path->moves) {
                const bool straight =
                    move.kind == MoveKind::feed && move.to.rotary == at.rotary && move.to.axial == at.axial;
                const double drop = straight ? static_cast<double>(at.radial - move.to.radial) * step : 0.0;
                if (before > 0.0 && straight) {
                    CHECK(drop >= 0.0);
                    CHECK(drop / move.seconds * 60.0 <= job.cut->surface_feed * (1.0 + 1e-6));
                    ++down;
                }
                before = drop;
                at = move.to;
            }
            CHECK(down > 0);
        }
    }
}
