// Where the cutter stands along the shaft, and what it leaves between: against closed forms and the cutter's
// own points.

#include "toolpath/section/axial_steps.h"

#include "catch.h"
#include "contours.h"
#include "five_lobes.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <variant>

using namespace lobewright;
using namespace lobewright::toolpath;

namespace {

Setup setup_with(CutterAxis axis, const Cutter& cutter, SpindleSide side = SpindleSide::far) {
    Job job = five_lobes::job_for(five_lobes::all()[0].lobe, 0.002);
    job.machine->cutter_axis = axis;
    job.machine->spindle_side = side;
    job.cutters["disc"] = cutter;
    return set_up(job, {});
}

SolvedLobe smooth_lobe(double width) {
    SolvedLobe lobe;
    lobe.base_radius = 8.0, lobe.z = 30.0, lobe.width = width;
    lobe.contour = contours::smooth_bump(8.0, 2.0, 3);
    return lobe;
}

std::vector<CutterContact> nodes_of(const Setup& setup, const SolvedLobe& lobe) {
    return contacts(lobe.contour, setup.section, 0.0, {1e-6});
}

AxialSteps steps_of(const Setup& setup, const SolvedLobe& lobe, double allowed) {
    const auto found = axial_steps(setup, lobe, nodes_of(setup, lobe), allowed);
    REQUIRE(why_not(found) == nullptr);
    return std::get<AxialSteps>(found);
}

/// What an end mill of flat and corner leaves proud at worst in the slice `y` from its axis: the slice's
/// points are swept round the lobe, each facing by itself, and each of the contour's points is looked at
/// along its normal.
double left_by_points(const PlaneSection& s, const SolvedLobe& lobe, double y) {
    const RadialFunction function(contacts(lobe.contour, s, 0.0, {1e-6}));
    const double half = std::sqrt((s.half_flat + s.corner) * (s.half_flat + s.corner) - y * y);
    const auto height = [&](double v) {
        const double over = std::sqrt(v * v + y * y) - s.half_flat;
        return over <= 0.0 ? 0.0 : s.corner - std::sqrt(std::max(0.0, s.corner * s.corner - over * over));
    };
    double worst = 0.0;
    constexpr int looks = 90, facings = 361;
    for (int i = 0; i < looks; ++i) {
        const ContourPoint p = lobe.contour.on_ray(ShaftAngle::from_radians(full_turn * i / looks - 3.0)).at;
        double least =
            std::numeric_limits<double>::infinity();  // along the normal, to the nearest of the slices
        for (int k = 0; k < facings; ++k) {
            const double facing = direction(p.normal) + 1.2 * (2.0 * k / (facings - 1) - 1.0);
            const Vec2 u = unit(facing), v = quarter_turn(u);
            const double tip = function.at(contours::angle_of(facing)).radial;
            // Where the normal from p meets the slice, by halving: outside the slice at 0, inside far out.
            const auto inside = [&](double off) {
                const Vec2 q = p.point + off * p.normal;
                const double side = dot(q, v);
                return std::abs(side) <= half && dot(q, u) >= tip + height(side);
            };
            if (!inside(1.0)) continue;
            double low = -1e-3, high = 1.0;
            for (int h = 0; h < 25; ++h)
                (inside(0.5 * (low + high)) ? high : low) = 0.5 * (low + high);
            least = std::min(least, high);
        }
        if (std::isfinite(least)) worst = std::max(worst, least);
    }
    return worst;
}

}  // namespace

TEST_CASE("balls step so that the ridges between them are as high as allowed: h = R - sqrt(R² - (p/2)²)") {
    const Setup setup = setup_with(CutterAxis::radial, basalt::ball_nose(8.0, 40.0));
    for (const double allowed : {0.0005, 0.002, 0.02}) {
        const SolvedLobe lobe = smooth_lobe(6.0);
        const AxialSteps steps = steps_of(setup, lobe, allowed);
        REQUIRE(steps.places.size() > 1);
        double pitch = 0.0;
        for (std::size_t i = 1; i < steps.places.size(); ++i)
            pitch = std::max(pitch, steps.places[i] - steps.places[i - 1]);
        const double ridge = 4.0 - std::sqrt(16.0 - 0.25 * pitch * pitch);
        CHECK(ridge <= allowed);
        CHECK(steps.proud <= allowed);
        // So near to each other that they leave the least for their number: they overlap by a twentieth, and
        // reach a step of the grid past either face.
        const double least =
            6.0 / (1.0 + 0.95 * static_cast<double>(steps.places.size() - 1)) + 2.0 * setup.grid.axial_step;
        CHECK_NEAR(steps.proud, 4.0 - std::sqrt(16.0 - 0.25 * least * least), 1e-9);
        // One place fewer would not do.
        const double cover = std::sqrt(16.0 - (4.0 - allowed) * (4.0 - allowed));
        CHECK(2.0 * cover * static_cast<double>(steps.places.size() - 1) < 1.1 * lobe.width + 2.0 * cover);
        CHECK(steps.places.front() - cover <= lobe.z - 0.5 * lobe.width);
        CHECK(steps.places.back() + cover >= lobe.z + 0.5 * lobe.width);
    }
}

TEST_CASE("discs cover their width, away from the spindle last") {
    for (const SpindleSide side : {SpindleSide::far, SpindleSide::drive}) {
        const Setup setup = setup_with(CutterAxis::parallel, basalt::disc(32.0, 5.0, 12.0), side);
        CHECK(steps_of(setup, smooth_lobe(5.0), 0.001).places == std::vector<double>{30.0});
        const AxialSteps steps = steps_of(setup, smooth_lobe(12.0), 0.001);
        REQUIRE(steps.places.size() == 3);
        CHECK(steps.proud == 0.0);
        const auto [first, last] = std::minmax_element(steps.places.begin(), steps.places.end());
        CHECK(*first - 2.5 <= 24.0);
        CHECK(*last + 2.5 >= 36.0);
        // The neck comes over what is cut: from the spindle's end of the lobe towards the other.
        CHECK((steps.places.front() > steps.places.back()) == (side == SpindleSide::far));
    }
}

TEST_CASE(
    "a parallel end mill spans the lobe with its straight flutes, tip past the face, or is too short for "
    "it") {
    const Setup setup = setup_with(CutterAxis::parallel, basalt::end_mill(10.0, 9.0, 1.0));
    const AxialSteps steps = steps_of(setup, smooth_lobe(6.0), 0.001);
    REQUIRE(steps.places.size() == 1);
    CHECK(steps.places.front() + 1.0 <= 27.0);  // straight from the tip's rounding on
    CHECK(steps.places.front() + 9.0 >= 33.0);
    const SolvedLobe wide = smooth_lobe(8.5);
    const auto found = axial_steps(setup, wide, nodes_of(setup, wide), 0.001);
    REQUIRE(why_not(found) != nullptr);
    const auto* too_short = std::get_if<FlutesTooShort>(why_not(found));
    REQUIRE(too_short != nullptr);
    CHECK_NEAR(too_short->straight, 8.0, 1e-12);
    CHECK_NEAR(too_short->least, 9.5, 1e-12);
}

TEST_CASE("with room past the face a mill's tip goes a tenth of a millimetre past it, or half of the room") {
    for (const SpindleSide side : {SpindleSide::far, SpindleSide::drive}) {
        // The tip lies away from the spindle: below the lobe of z 27 to 33, or above it.
        const double face = side == SpindleSide::far ? 27.0 : 33.0;
        const double away = side == SpindleSide::far ? -1.0 : 1.0;
        const auto tip = [&](double flutes) {
            const Setup setup = setup_with(CutterAxis::parallel, basalt::end_mill(10.0, flutes, 1.0), side);
            const AxialSteps steps = steps_of(setup, smooth_lobe(6.0), 0.001);
            REQUIRE(steps.places.size() == 1);
            return steps.places.front();
        };
        CHECK_NEAR(tip(9.0), face + away * (0.1 + 1.0), 1e-12);  // 2 mm more than the lobe, and the rounding
        CHECK_NEAR(tip(7.1), face + away * (0.05 + 1.0), 1e-12);
        CHECK_NEAR(tip(7.0), face + away * 1.0, 1e-12);
    }
}

TEST_CASE("a mill too short for the lobe steps along it from face to face, where its shank is slimmer") {
    for (const SpindleSide side : {SpindleSide::far, SpindleSide::drive}) {
        Cutter mill = basalt::end_mill(10.0, 3.0, 0.5);  // 2.5 mm of straight flutes
        mill.shank_diameter = 8.0;
        const Setup setup = setup_with(CutterAxis::parallel, mill, side);
        const AxialSteps steps = steps_of(setup, smooth_lobe(6.0), 0.001);
        // Straight flutes lie from 0.5 to 3 mm from the tip, towards the spindle.
        const double towards = side == SpindleSide::far ? 1.0 : -1.0;
        double low = 1e9, high = -1e9, widest_gap = 0.0;
        for (std::size_t i = 0; i < steps.places.size(); ++i) {
            const double a = steps.places[i] + towards * 0.5, b = steps.places[i] + towards * 3.0;
            low = std::min({low, a, b}), high = std::max({high, a, b});
            if (i > 0) widest_gap = std::max(widest_gap, std::abs(steps.places[i] - steps.places[i - 1]));
        }
        const double grid = setup.grid.axial_step;
        CHECK(low <= 27.0);
        CHECK(low >= 27.0 - 2.0 * grid);
        CHECK(high >= 33.0);
        CHECK(high <= 33.0 + 2.0 * grid);
        CHECK(widest_gap < 2.5);
        CHECK(steps.places.size() == 3);
    }
}

TEST_CASE("what an end mill's slice leaves proud is no more than is said of it") {
    const SolvedLobe lobe = smooth_lobe(6.0);
    for (const double corner : {0.0, 0.5, 1.5}) {
        const Setup setup = setup_with(CutterAxis::radial, basalt::end_mill(7.0, 40.0, corner));
        const auto nodes = nodes_of(setup, lobe);
        for (const double y : {0.5, 1.5, 2.4}) {
            const double said = left_by_slice(setup, nodes, y);
            const double left = left_by_points(setup.section, lobe, y);
            INFO("corner " << corner << ", " << y << " mm off: " << left << " left, " << said << " said");
            CHECK(left <= said + 2e-4);
            CHECK(said < 1.0);  // on this lobe no slice within the mill leaves as much
        }
    }
}

TEST_CASE("steps finer than a hundredth of a millimetre are none") {
    const Setup setup = setup_with(CutterAxis::radial, basalt::ball_nose(0.02, 40.0));
    const SolvedLobe lobe = smooth_lobe(6.0);
    const auto found = axial_steps(setup, lobe, nodes_of(setup, lobe), 0.0005);
    REQUIRE(why_not(found) != nullptr);
    const auto* fine = std::get_if<AxialStepsTooFine>(why_not(found));
    REQUIRE(fine != nullptr);
    CHECK(fine->step < 0.01);
}

TEST_CASE("one place covers a lobe from wherever the grid lets the cutter stand") {
    const double radius = 3.0;
    Setup setup = setup_with(CutterAxis::tangential, basalt::disc(2.0 * radius, 20.0, 3.0));
    setup.grid.axial_step = 0.01;
    const SolvedLobe lobe = smooth_lobe(1.0);
    // The word lies up to 0.005 mm beside the lobe's middle: so far is it to the other face.
    const double far = 0.5 + 0.005, left = radius - std::sqrt(radius * radius - far * far);
    const AxialSteps alone = steps_of(setup, lobe, left + 1e-9);
    CHECK(alone.places.size() == 1);
    CHECK_NEAR(alone.proud, left, 1e-9);
    CHECK(steps_of(setup, lobe, left - 1e-6).places.size() > 1);
}
