#include "basalt.h"
#include "inspect/probe/contour_probe.h"

#include <lobewright/inspect.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace lobewright;
using inspection::ContourProbe;

namespace {

constexpr CamAngle coarse = CamAngle::from_degrees(90.0);
constexpr double over = 1e-4;  // mm: what still counts as on the base circle

Segment to(double degrees, double lift, LawKind law = LawKind::cycloidal) {
    return {CamAngle::from_degrees(degrees), lift, law, {}};
}
Segment stay(double degrees) {
    return {CamAngle::from_degrees(degrees), std::nullopt, LawKind::cycloidal, {}};
}
SegmentsProfile segments(double base, std::vector<Segment> all) {
    SegmentsProfile profile;
    profile.base_radius = base, profile.segments = std::move(all);
    return profile;
}

double in_degrees(double radians) {
    return radians * 180.0 / std::numbers::pi;
}

/// What many places round the lobe say: never more than there is.
struct Sampled {
    double largest = 0.0, across = 0.0, reach = 0.0;
    double heel = 0.0;  // the longest stretch, degrees
};

Sampled sampled(const SolvedLobe& lobe, const Probe& probe, int places) {
    const ContourProbe on(lobe.contour, lobe.base_radius, probe), anvil(lobe.contour, lobe.base_radius, {});
    Sampled most;
    const int half = places / 2;
    std::vector<double> heights;
    std::vector<bool> low;
    for (int i = 0; i < places; ++i) {
        const double ray = full_turn * i / places;
        const auto touch = anvil.touch(ray);
        heights.push_back(touch.height);
        most.reach = std::max(most.reach, std::abs(touch.slope));
        const double reading = on.height(ray);
        most.largest = std::max(most.largest, reading);
        low.push_back(reading <= over);
    }
    for (int i = 0; i < half; ++i)
        most.across =
            std::max(most.across, heights[static_cast<std::size_t>(i)] +
                                      heights[static_cast<std::size_t>(i + half)] + 2.0 * lobe.base_radius);
    int run = 0, longest = 0;
    for (int i = 0; i < 2 * places; ++i) {
        run = low[static_cast<std::size_t>(i % places)] ? run + 1 : 0;
        longest = std::max(longest, run);
    }
    most.heel = std::max(0, longest - 1) * 360.0 / places;
    return most;
}

double width_of(const std::optional<HeelStretch>& heel) {
    return heel ? (heel->to - heel->from).degrees() : 0.0;
}

/// Any number of bumps of any width.
SegmentsProfile random_profile(std::mt19937& random) {
    const auto part = [&] { return static_cast<double>(random()) / 4294967295.0; };
    std::vector<Segment> all;
    const int bumps = 1 + static_cast<int>(3.0 * part());
    for (int i = 0; i < bumps; ++i) {
        const double high = 0.2 + 2.5 * part();
        const double angle = 15.0 + 30.0 * part();
        all.push_back(to(angle, high));
        if (part() < 0.5) all.push_back(stay(1.0 + 15.0 * part()));
        all.push_back(to(15.0 + 30.0 * part(), 0.0));
        if (i + 1 < bumps) all.push_back(stay(2.0 + 10.0 * part()));
    }
    return segments(12.0 + 6.0 * part(), std::move(all));
}

}  // namespace

TEST_CASE("a bump between two quarter degrees ends the base circle under a knife") {
    // Two tenths of a degree wide, and a hundredth of a millimetre high: 100.1 to 100.2 degrees after the
    // nose.
    const SolvedLobe lobe = basalt::solved(
        segments(12.0, {to(60.0, 2.0), to(60.0, 0.0), stay(40.05), to(0.05, 0.01), to(0.05, 0.0)}),
        basalt::knife());
    const ExpectedReadings expected = expected_readings(lobe, {ProbeKind::knife, 0.0, {}}, coarse);
    REQUIRE(expected.heel);
    // The longer part of what is left: from the bump's end to where the lobe opens, at 300.
    CHECK_THAT(expected.heel->from.degrees(), Near(100.15, 0.011));
    CHECK_THAT(expected.heel->to.degrees(), Near(300.0, 4.0));
    CHECK(expected.heel->from.degrees() > 100.1);
    // A ball rolls over it before and after it, by acos of the triangle of its centre.
    const ExpectedReadings under_ball = expected_readings(lobe, {ProbeKind::ball, 3.0, {}}, coarse);
    REQUIRE(under_ball.heel);
    const double a = 12.01, b = 15.0001, c = 3.0;
    const double earlier = in_degrees(std::acos((a * a + b * b - c * c) / (2.0 * a * b)));
    CHECK_THAT(under_ball.heel->from.degrees(), Near(100.1 + earlier, 0.02));
}

TEST_CASE("two peaks hardly apart in height are told apart, however narrow the higher one") {
    // The anvils find the narrow one, a tenth of a micrometre higher than a broad one opposite.
    for (const Sense turns : {Sense::ccw, Sense::cw}) {
        const SolvedLobe lobe = basalt::solved(
            segments(12.0, {to(50.0, 2.0), to(30.0, 1.5), to(0.06, 1.5001), to(0.06, 1.5), to(40.0, 0.0)}),
            basalt::knife(), turns);
        const ExpectedReadings expected = expected_readings(lobe, {}, coarse);
        CHECK_THAT(expected.largest, Near(2.0, 1e-12));
        CHECK_THAT(expected.largest_at.degrees(), Near(0.0, 1e-6));
        CHECK_THAT(expected.across_nose, Near(26.0, 1e-8));
    }
}

TEST_CASE("extremes of gauges are never less than what many places say, nor more than lies between those") {
    constexpr unsigned seed = 415;
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const Probe probes[] = {{}, {ProbeKind::ball, 2.0, {}}, {ProbeKind::knife, 0.0, {}}};
    for (int i = 0; i < 18; ++i) {
        const Follower follower = i % 3 == 0 ? basalt::roller(9.0) : basalt::knife();
        Job job = basalt::job(random_profile(random), follower, i % 2 == 0 ? Sense::ccw : Sense::cw);
        job.lobes[0].at = ShaftAngle::from_degrees(37.0 * i);
        const auto solved = solve_lobes(job);
        if (!solved) continue;  // a roller that can't follow such a bump
        const SolvedLobe& lobe = solved->front();
        const Probe& probe = probes[i / 3 % 3];
        const ExpectedReadings expected = expected_readings(lobe, probe, coarse);
        const Sampled most = sampled(lobe, probe, 18000);
        INFO("lobe " << i << ", probe " << static_cast<int>(probe.kind));
        CHECK(expected.largest > most.largest - 1e-12);
        CHECK(expected.largest < most.largest + 1e-3);
        CHECK(expected.across_nose > most.across - 1e-8);
        CHECK(expected.across_nose < most.across + 1e-6);
        if (probe.kind == ProbeKind::flat) {
            CHECK(expected.anvil_reach > most.reach - 1e-9);
            CHECK(expected.anvil_reach < most.reach + 0.01);
        }
        CHECK(width_of(expected.heel) > most.heel - 1e-9);
        CHECK(width_of(expected.heel) < most.heel + 0.05);
    }
}

TEST_CASE("an anvil's reach over a hollow flank ends at the ends of its bridge") {
    const SolvedLobe lobe =
        basalt::solved(basalt::arcs_with_flank(12.0, 5.0, 120.0, -40.0), basalt::roller(8.0));
    const ExpectedReadings expected = expected_readings(lobe, {}, coarse);
    // The bridge is the common tangent of base circle and nose: it touches the base circle square to the
    // axis, and the nose circle as far along as the centres lie apart along the tangent.
    const double nose = lobe.arcs->nose_radius, centre = 17.0 - nose;
    const double along = std::sqrt(centre * centre - (12.0 - nose) * (12.0 - nose));
    CHECK_THAT(expected.anvil_reach, Near(along, 1e-9));
}

TEST_CASE("lobes round a ring have the same extremes as one of them, and a base circle between each two") {
    Job job = basalt::job(segments(20.0, {to(30.0, 2.0), stay(4.0), to(30.0, 0.0)}), basalt::roller(6.0));
    job.lobes[0].repeat = 4;
    const SolvedLobe lobe = basalt::solved(job);
    const ExpectedReadings expected = expected_readings(lobe, {ProbeKind::ball, 6.0, {}}, coarse);
    CHECK_THAT(expected.largest, Near(2.0, 1e-12));
    CHECK_THAT(expected.across_nose, Near(44.0, 1e-8));  // noses opposite each other
    REQUIRE(expected.heel);
    const Sampled most = sampled(lobe, {ProbeKind::ball, 6.0, {}}, 36000);
    CHECK_THAT(width_of(expected.heel), Near(most.heel, 0.03));
    REQUIRE(most.heel > 20.0);
}

TEST_CASE("a base circle that both anvils can't reach at once gives no size across it") {
    // Lifted over 200 degrees: no place of the base circle has another half a turn on.
    const SolvedLobe lobe =
        basalt::solved(segments(15.0, {to(80.0, 3.0), stay(40.0), to(80.0, 0.0)}), basalt::roller(6.0));
    CHECK_FALSE(expected_readings(lobe, {}, coarse).across_heel);
    const SolvedLobe shorter =
        basalt::solved(segments(15.0, {to(60.0, 3.0), stay(20.0), to(60.0, 0.0)}), basalt::roller(6.0));
    const auto size = expected_readings(shorter, {}, coarse).across_heel;
    REQUIRE(size);
    CHECK_THAT(*size, Near(30.0, 1e-12));
}
