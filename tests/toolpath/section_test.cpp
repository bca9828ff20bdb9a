// The cutter's section in the plane across the shaft, for each cutter and each way of holding it.

#include "toolpath/section/section.h"

#include "catch.h"
#include "toolpath/setup.h"

#include <cmath>
#include <limits>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

Machine machine(CutterAxis axis, CutterZero zero = CutterZero::centre) {
    Machine made;
    made.cutter_axis = axis, made.cutter_zero = zero;
    return made;
}

Cutter cutter(CutterKind kind, double diameter, double corner = 0.0) {
    Cutter made;
    made.kind = kind, made.diameter = diameter, made.corner_radius = corner;
    made.flute_length = 30.0, made.width = 5.0;
    return made;
}

/// X at which the section comes to touch a disc of that radius, by points of its edge.
double touching(const PlaneSection& s, double radius) {
    double most = -std::numeric_limits<double>::infinity();
    constexpr int points = 400000;
    for (int i = 0; i <= points; ++i) {
        const double angle = -0.5 * full_turn / 2.0 + 0.5 * full_turn * i / points;
        const double up = radius * std::cos(angle), side = radius * std::sin(angle);
        const double over = std::abs(side - s.shift) - s.half_flat;
        if (over > s.corner) continue;
        most = std::max(most,
                        up - (over <= 0.0 ? 0.0 : s.corner - std::sqrt(s.corner * s.corner - over * over)));
    }
    return most;
}

}  // namespace

TEST_CASE("a cutter parallel to the shaft is a circle, whose word is that of its axis or of its edge") {
    for (const CutterKind kind : {CutterKind::end_mill, CutterKind::ball_nose, CutterKind::disc}) {
        const PlaneSection s = section_of(machine(CutterAxis::parallel), {}, cutter(kind, 32.0, 1.0));
        CHECK(s.half_flat == 0.0);
        CHECK(s.corner == 16.0);
        CHECK(s.shift == 0.0);
        CHECK(s.word_offset == 16.0);
        const PlaneSection edge =
            section_of(machine(CutterAxis::parallel, CutterZero::edge), {}, cutter(kind, 32.0));
        CHECK(edge.word_offset == 0.0);
    }
}

TEST_CASE("a radial cutter is its flat with its corners, or a ball, shifted sideways by side_shift") {
    Cut cut;
    cut.side_shift = -2.5;
    const PlaneSection mill =
        section_of(machine(CutterAxis::radial), cut, cutter(CutterKind::end_mill, 12.0, 1.5));
    CHECK(mill.half_flat == 4.5);
    CHECK(mill.corner == 1.5);
    CHECK(mill.shift == -2.5);
    CHECK(mill.word_offset == 0.0);
    const PlaneSection ball =
        section_of(machine(CutterAxis::radial), cut, cutter(CutterKind::ball_nose, 12.0));
    CHECK(ball.half_flat == 0.0);
    CHECK(ball.corner == 6.0);
}

TEST_CASE("a cutter lying across is the straight part of its flutes, whose ends don't cut") {
    const Machine across = machine(CutterAxis::tangential);
    const PlaneSection mill = section_of(across, {}, cutter(CutterKind::end_mill, 12.0, 2.0));
    CHECK(mill.half_flat == 14.0);
    CHECK(mill.corner == 0.0);
    CHECK_FALSE(mill.corners_may_ride);
    CHECK(section_of(across, {}, cutter(CutterKind::ball_nose, 12.0)).half_flat == 12.0);
    CHECK(section_of(across, {}, cutter(CutterKind::disc, 40.0)).half_flat == 2.5);
}

TEST_CASE(
    "where a section touches a round bar: by the bar's own points, and nowhere where it passes beside it") {
    const PlaneSection sections[] = {{0.0, 16.0, 0.0, 16.0, true}, {5.0, 1.0, 0.0, 0.0, true},
                                     {5.0, 0.0, 3.0, 0.0, true},   {2.0, 1.5, 6.0, 0.0, true},
                                     {0.0, 4.0, -5.0, 0.0, true},  {1.0, 0.5, 9.0, 0.0, true}};
    for (const PlaneSection& s : sections) {
        for (const double radius : {3.0, 8.5, 20.0}) {
            INFO("flat " << s.half_flat << ", corner " << s.corner << ", shift " << s.shift << ", bar "
                         << radius);
            const double wanted = touching(s, radius), found = touch_of_circle(s, radius);
            if (std::isinf(wanted)) {
                CHECK(std::isinf(found));
            } else {
                // A bar that is steep under a sharp corner falls by its slope times the points' distance.
                CHECK_NEAR(found, wanted, s.corner == 0.0 ? 1e-3 : 1e-6);
            }
        }
    }
}

TEST_CASE(
    "climb milling turns the shaft against the teeth: the spindle's side and the direction settle which "
    "way") {
    Machine parallel = machine(CutterAxis::parallel);
    CHECK(facing_sign_of(parallel, CutDirection::climb) == 1);
    CHECK(facing_sign_of(parallel, CutDirection::conventional) == -1);
    parallel.spindle_side = SpindleSide::drive;
    CHECK(facing_sign_of(parallel, CutDirection::climb) == -1);
    CHECK(facing_sign_of(parallel, CutDirection::conventional) == 1);
    Machine radial = machine(CutterAxis::radial);
    radial.spindle_side = SpindleSide::drive;
    CHECK(facing_sign_of(radial, CutDirection::climb) == 1);
}
