// What stands round a lobe, and which part of the cutter touches it: against closed forms and points of the
// bodies themselves.

#include "toolpath/neighbours/neighbours.h"

#include "catch.h"
#include "five_lobes.h"
#include "toolpath/neighbours/clash_cures.h"
#include "toolpath/neighbours/cutter_bodies.h"
#include "toolpath/neighbours/obstacles.h"

#include <random>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

constexpr double gap = 1e-3;  // mm: by which things overlap, or stay clear

/// A disc of 32 mm, 6 mm wide, over a lobe of 6 mm base radius whose middle lies at z 20 mm.
struct Case {
    Job job;
    std::vector<SolvedLobe> lobes;

    Case() {
        lobes = {five_lobes::all()[0].lobe};
        job = five_lobes::job_for(lobes.front(), 0.002);
        job.cutters["disc"].width = 6.0;
    }
    void add_lobe(double z, double width) {
        SolvedLobe other = lobes.front();
        other.z = z, other.width = width;
        lobes.push_back(other);
    }
    [[nodiscard]] std::optional<Clash> clash(std::size_t own = 0) const {
        const Setup setup = set_up(job, {});
        const auto nodes = contacts(lobes[own].contour, setup.section, 0.0, {1e-5});
        return find_clash(setup, lobes, {own, {lobes[own].z}, nodes});
    }
};

}  // namespace

TEST_CASE(
    "a journal stands over its whole width, whatever that is: half of it to either side of its middle") {
    Case c;
    for (const double width : {1.0, 10.0, 40.0}) {
        for (const double side : {-1.0, 1.0}) {
            // The disc's edges end 3 mm from the lobe's middle; the journal is thicker than the base circle.
            const double touching = 20.0 + side * (3.0 + 0.5 * width);
            INFO(width << " mm wide, on side " << side);
            c.job.shaft.journals = {{touching + side * gap, width, 20.0}};
            CHECK_FALSE(c.clash());
            c.job.shaft.journals = {{touching - side * gap, width, 20.0}};
            const auto clash = c.clash();
            REQUIRE(clash);
            CHECK(clash->with == ObstacleKind::journal);
            CHECK(clash->part == BodyPart::edge);
            CHECK(clash->index == 0);
        }
    }
}

TEST_CASE("a neighbour stands over its whole width, as its blank or as what has been cut of it") {
    for (const double side : {-1.0, 1.0}) {
        const double touching = 20.0 + side * (3.0 + 0.5 * 4.0);
        Case clear, close;
        clear.add_lobe(touching + side * gap, 4.0);
        close.add_lobe(touching - side * gap, 4.0);
        INFO("on side " << side);
        CHECK_FALSE(clear.clash());
        const auto clash = close.clash();
        REQUIRE(clash);
        CHECK(clash->index == 1);
        CHECK(clash->with == (side < 0.0 ? ObstacleKind::finished_lobe : ObstacleKind::blank));
    }
}

TEST_CASE("a neck goes clear of what it passes over up to the radius that the edge leaves it") {
    // On the base circle of 6 mm the disc's axis stands 22 mm out, less the tolerance that it may come
    // deeper.
    for (const double neck : {6.0, 12.0, 20.0}) {
        Case c;
        c.job.cutters["disc"].neck_diameter = neck;
        const double room = 22.0 - 0.002 - 0.5 * neck;
        INFO("neck of " << neck);
        c.job.shaft.journals = {{60.0, 10.0, 2.0 * (room - gap)}};
        CHECK_FALSE(c.clash());
        c.job.shaft.journals = {{60.0, 10.0, 2.0 * (room + gap)}};
        const auto clash = c.clash();
        REQUIRE(clash);
        CHECK(clash->part == BodyPart::shank);
    }
}

TEST_CASE("the neck lies on the spindle's side only, and the holder from the reach on") {
    Case c;
    Cutter& disc = c.job.cutters["disc"];
    disc.neck_diameter = 12.0, disc.reach = 30.0, disc.holder_diameter = 40.0;
    // The holder's radius of 20 mm comes down to 2 mm from the shaft's axis from 30 mm past the disc's far
    // edge on.
    const double from = 20.0 - 3.0 + 30.0;
    c.job.shaft.journals = {{from - 0.5 * 8.0 - gap, 8.0, 10.0}};
    CHECK_FALSE(c.clash());
    c.job.shaft.journals = {{from - 0.5 * 8.0 + gap, 8.0, 10.0}};
    REQUIRE(c.clash());
    CHECK(c.clash()->part == BodyPart::holder);
    c.job.machine->spindle_side = SpindleSide::drive;
    CHECK_FALSE(c.clash());
}

TEST_CASE("obstacles: everything but the lobe itself; before it in the shaft's order lobes are finished") {
    Case c;
    c.add_lobe(40.0, 5.0), c.add_lobe(5.0, 3.0);
    c.job.cut->allowance = 0.2;
    c.job.shaft.journals = {{60.0, 12.0, 15.0}};
    const Setup setup = set_up(c.job, {});
    const auto found = other_obstacles(setup, c.lobes, 0);
    REQUIRE(found.size() == 3);
    CHECK(found[0].kind == ObstacleKind::blank);
    CHECK_NEAR(found[0].along.low, 37.5, 1e-12);
    CHECK_NEAR(found[0].along.high, 42.5, 1e-12);
    CHECK_NEAR(found[0].radius, setup.blank_radius, 1e-12);
    CHECK(found[1].kind == ObstacleKind::finished_lobe);
    CHECK_NEAR(found[1].radius, c.lobes[2].contour.largest_radius() + 0.2, 1e-12);
    CHECK(found[2].kind == ObstacleKind::journal);
    CHECK_NEAR(found[2].along.low, 54.0, 1e-12);
    CHECK_NEAR(found[2].along.high, 66.0, 1e-12);
    CHECK_NEAR(found[2].radius, 7.5, 1e-12);
}

namespace {

/// The least that a body of revolution reaches down, over its own tip, at the distance `off` of its axis
/// along the shaft and `side` of it across: a ball, a cylinder across, or a flat end with a rounded corner.
double height_of_ball(double radius, double off, double side) {
    return radius - std::sqrt(radius * radius - off * off - side * side);
}

double height_of_slice(const Slice& slice, double side) {
    const double over = std::max(0.0, std::abs(side - slice.section.shift) - slice.section.half_flat);
    const double corner = slice.section.corner;
    return slice.raise + corner - std::sqrt(std::max(0.0, corner * corner - over * over));
}

Setup setup_with(CutterAxis axis, const Cutter& cutter) {
    Case c;
    c.job.machine->cutter_axis = axis;
    c.job.cutters["disc"] = cutter;
    return set_up(c.job, {});
}

}  // namespace

TEST_CASE("a ball's slices are the ball's own circles") {
    const Setup setup = setup_with(CutterAxis::radial, basalt::ball_nose(10.0, 20.0));
    const RoundBody edge = bodies_of(setup).front();
    for (const double off : {0.0, 1.0, 3.0, 4.9}) {
        const auto slice = slice_of(setup, edge, 20.0, {20.0 + off, 20.0 + off + 5.0});
        REQUIRE(slice);
        const double half = std::sqrt(25.0 - off * off);
        for (const double share : {-0.99, -0.5, 0.0, 0.3, 0.9}) {
            INFO(off << " mm off, " << share << " of the width");
            CHECK_NEAR(height_of_slice(*slice, share * half), height_of_ball(5.0, off, share * half), 1e-9);
        }
    }
    CHECK_FALSE(slice_of(setup, edge, 20.0, {25.0, 30.0}));
}

TEST_CASE("slices of a cutter lying across are its cylinder's straight lines") {
    const Setup setup = setup_with(CutterAxis::tangential, basalt::end_mill(12.0, 30.0));
    const RoundBody edge = bodies_of(setup).front();
    for (const double off : {0.0, 2.0, 5.5}) {
        const auto slice = slice_of(setup, edge, 20.0, {10.0, 20.0 - off});
        REQUIRE(slice);
        CHECK_NEAR(slice->raise, height_of_ball(6.0, off, 0.0), 1e-9);
        CHECK(slice->section.corner == 0.0);
        CHECK_NEAR(slice->section.shift - slice->section.half_flat, -15.0, 1e-9);  // the tip
    }
}

TEST_CASE("the rounded tip of a parallel ball nose is as slim as the ball over the stretch that it reaches") {
    const Cutter ball = basalt::ball_nose(10.0, 25.0);
    for (const SpindleSide side : {SpindleSide::far, SpindleSide::drive}) {
        Case c;
        c.job.machine->spindle_side = side;
        c.job.cutters["disc"] = ball;
        const Setup setup = set_up(c.job, {});
        const RoundBody edge = bodies_of(setup).front();
        for (const double reaches : {0.5, 2.0, 4.9, 5.0, 9.0}) {  // mm past the tip
            const bool far = side == SpindleSide::far;
            const Interval stretch = far ? Interval(0.0, 20.0 + reaches) : Interval(20.0 - reaches, 60.0);
            const auto slice = slice_of(setup, edge, 20.0, stretch);
            REQUIRE(slice);
            const double from_middle = std::max(0.0, 5.0 - reaches);
            INFO(reaches << " mm");
            CHECK_NEAR(slice->section.corner, std::sqrt(25.0 - from_middle * from_middle), 1e-9);
        }
    }
}

TEST_CASE("the size that cures a clash goes clear, and a hundredth of a millimetre past it doesn't") {
    Case c;
    c.job.cutters["disc"].width = 12.0;
    c.job.shaft.journals = {{20.0 + 4.0 + 5.0, 10.0, 20.0}};  // begins 4 mm from the lobe's middle
    const auto clash = c.clash();
    REQUIRE(clash);
    const auto cure = with_cure(set_up(c.job, {}), c.lobes, 0, *clash);
    CHECK(cure.size == CutterSize::width);
    REQUIRE(cure.fits);
    CHECK_NEAR(*cure.fits, 8.0, 1e-5);
    c.job.cutters["disc"].width = *cure.fits;
    CHECK_FALSE(c.clash());
    c.job.cutters["disc"].width = *cure.fits + 0.01;
    CHECK(c.clash());
}
