// Whether a section gets everywhere on a lobe: against the lobe's own points, turned under the section.

#include "toolpath/section/reach.h"

#include "by_definition.h"
#include "catch.h"
#include "contours.h"
#include "five_lobes.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

double never_touched(const PlaneSection& s, const Contour& contour) {
    return by_definition::never_touched({s.half_flat, s.corner, s.shift},
                                        by_definition::points_of(contour, 0.0, 900), 1440);
}

Hindrance hindrance_of(const Contour& contour, const PlaneSection& section) {
    return hindrance(contacts(contour, section, 0.0, {1e-5}), section);
}

Setup setup_with(CutterAxis axis, const Cutter& cutter) {
    const SolvedLobe lobe = five_lobes::all()[0].lobe;
    Job job = five_lobes::job_for(lobe, 0.002);
    job.machine->cutter_axis = axis;
    job.cutters["disc"] = cutter;
    return set_up(job, {});
}

Cutter disc_of(double diameter) {
    return basalt::disc(diameter, 8.0, 2.0);
}

SolvedLobe hollow_lobe() {
    SolvedLobe lobe;
    lobe.base_radius = 10.0;
    lobe.contour = contours::polar_bump(10.0, 3.0, 2, 4);
    return lobe;
}

/// Base circle and a nose whose centre lies `out` of the axis, with straight flanks between them.
Contour steep_flanks(double base, double nose, double out) {
    const double turn = std::acos((base - nose) / out);  // of the flank's normal from the nose's direction
    const auto flank = [=](double side) {
        const Vec2 normal = unit(side * turn), along = quarter_turn(normal);
        const Vec2 on_base = base * normal, on_nose = Vec2{out, 0.0} + nose * normal;
        const Vec2 from = side > 0.0 ? on_nose : on_base, to = side > 0.0 ? on_base : on_nose;
        return ContourPiece{"flank", 0.0, dot(to - from, along),
                            [=](double t) {
                                return ContourPoint{from + t * along, normal, 0.0, 1.0};
                            },
                            true};
    };
    return Contour({contours::arc("nose", {out, 0.0}, nose, -turn, turn), flank(1.0),
                    contours::arc("base circle", {}, base, turn, full_turn - turn), flank(-1.0)});
}

std::optional<CannotCut> hindered(const Setup& setup, const SolvedLobe& lobe) {
    return unreached(setup, lobe, contacts(lobe.contour, setup.section, 0.0, {1e-5}));
}

}  // namespace

TEST_CASE("a round section gets into every hollow that is wider than itself, and into no narrower one") {
    constexpr unsigned seed = 1717;
    std::mt19937 random(seed);
    const auto between = [&](double a, double b) {
        return std::uniform_real_distribution<double>(a, b)(random);
    };
    int free = 0, kept_off = 0;
    for (int trial = 0; trial < 40; ++trial) {
        const Contour contour = contours::polar_bump(10.0, between(2.6, 4.0), 2, 3 + trial % 3);
        const double hollow = contour.smallest_hollow_radius();
        if (!std::isfinite(hollow)) continue;
        const double radius = hollow * between(0.5, 2.0);
        if (std::abs(radius - hollow) < 0.3 * hollow)
            continue;  // next to the limit it is off by next to nothing
        const PlaneSection section{0.0, radius, 0.0, 0.0, true};
        const double off = never_touched(section, contour);
        INFO("trial " << trial << " of seed " << seed << ": radius " << radius << " in " << hollow << ", off "
                      << off);
        const bool hindrance_found = hindrance_of(contour, section) == Hindrance::hollow;
        CHECK(hindrance_found == (off > 5e-4));
        (hindrance_found ? kept_off : free) += 1;
    }
    CHECK(free > 5);
    CHECK(kept_off > 5);
}

TEST_CASE("a flat end gets into a hollow with its corner, but bridges it where it is wider") {
    const Contour contour = hollow_lobe().contour;
    int bridged_over = 0;
    for (const double half : {0.5, 2.0, 6.0}) {
        const PlaneSection section{half, 0.1, 0.0, 0.0, true};
        const double off = never_touched(section, contour);
        INFO("half width " << half << ", off " << off);
        const Hindrance found = hindrance_of(contour, section);
        CHECK(found == (off > 1e-3 ? Hindrance::hollow : Hindrance::none));
        bridged_over += found == Hindrance::hollow ? 1 : 0;
    }
    CHECK(bridged_over > 0);
    CHECK(bridged_over < 3);
}

TEST_CASE(
    "straight edges hold the contact of a lobe up to the way that it runs to the side, and no further") {
    // A flat follower's contact runs sideways by the slope of the lift: on a smooth bump by its largest h'.
    const Contour contour = contours::smooth_bump(8.0, 2.0, 3);
    double travel = 0.0;
    for (int i = 0; i <= 100000; ++i) {
        const double t = full_turn * i / 100000.0, c = 0.5 * (1.0 + std::cos(t)), s = -0.5 * std::sin(t);
        travel = std::max(travel, std::abs(2.0 * 3.0 * c * c * s));
    }
    const auto edges = [&](double half) { return PlaneSection{half, 0.0, 0.0, 0.0, false}; };
    CHECK(hindrance_of(contour, edges(1.001 * travel)) == Hindrance::none);
    CHECK(hindrance_of(contour, edges(0.999 * travel)) == Hindrance::too_narrow);
    SolvedLobe lobe;
    lobe.base_radius = 8.0, lobe.contour = contour;
    Cutter mill = basalt::end_mill(6.0, 2.0);
    const auto why = hindered(setup_with(CutterAxis::tangential, mill), lobe);
    REQUIRE(why);
    const auto* narrow = std::get_if<EdgesTooNarrow>(&*why);
    REQUIRE(narrow != nullptr);
    CHECK_NEAR(narrow->travel, travel, 1e-4);
    CHECK_NEAR(narrow->reach, 1.0, 1e-12);
    CHECK_NEAR(narrow->length, 2.0 * travel, 1e-3);
    mill.flute_length = narrow->length;
    CHECK_FALSE(hindered(setup_with(CutterAxis::tangential, mill), lobe));
}

TEST_CASE("the largest disc that gets into a hollow is as wide as the hollow") {
    const SolvedLobe lobe = hollow_lobe();
    const double hollow = lobe.contour.smallest_hollow_radius();
    const auto why = hindered(setup_with(CutterAxis::parallel, disc_of(4.0 * hollow)), lobe);
    REQUIRE(why);
    const auto* large = std::get_if<TooLargeForHollow>(&*why);
    REQUIRE(large != nullptr);
    CHECK_NEAR(large->hollow_radius, hollow, 1e-12);
    REQUIRE(large->largest_diameter);
    CHECK_RELATIVE(*large->largest_diameter, 2.0 * hollow, 1e-3);
    CHECK_FALSE(hindered(setup_with(CutterAxis::parallel, disc_of(*large->largest_diameter)), lobe));
}

TEST_CASE("an end so narrow that its corner would climb a flank is told the smallest that needn't") {
    SolvedLobe lobe;
    lobe.base_radius = 4.0;
    lobe.contour = steep_flanks(4.0, 0.5, 19.5);
    Cutter mill;
    mill.diameter = 1.0;
    const auto why = hindered(setup_with(CutterAxis::radial, mill), lobe);
    REQUIRE(why);
    const auto* narrow = std::get_if<EndTooNarrow>(&*why);
    REQUIRE(narrow != nullptr);
    REQUIRE(narrow->smallest_diameter);
    mill.diameter = *narrow->smallest_diameter;
    CHECK_FALSE(hindered(setup_with(CutterAxis::radial, mill), lobe));
    mill.diameter = 0.99 * *narrow->smallest_diameter;
    CHECK(hindered(setup_with(CutterAxis::radial, mill), lobe));
}

TEST_CASE(
    "a shift puts a section beside the lobe when it passes half of base circle and corner past its flat") {
    Cutter mill;
    mill.diameter = 10.0, mill.corner_radius = 1.0;
    SolvedLobe lobe;
    lobe.base_radius = 8.0;
    Setup setup = setup_with(CutterAxis::radial, mill);
    const double most = 4.0 + 0.5 * (8.0 + 1.0);
    for (const double side : {-1.0, 1.0}) {
        setup.section.shift = side * (most - 1e-9);
        CHECK_FALSE(shift_too_large(setup, lobe));
        setup.section.shift = side * (most + 1e-9);
        REQUIRE(shift_too_large(setup, lobe));
        CHECK_NEAR(shift_too_large(setup, lobe)->most, most, 1e-12);
    }
}
