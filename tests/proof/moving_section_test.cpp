/// One step of one section: its entry by its closed form, by brute force, and what may be left out.
#include "catch.h"
#include "inside_cases.h"
#include "near.h"
#include "trials.h"

#include <algorithm>
#include <cmath>

using namespace inside;

namespace {

SweepStep standing(double facing, double low) {
    SweepStep step;
    step.from = unit(facing), step.low = low;
    return step;
}

SweepStep random_step(std::mt19937& random) {
    const auto pick = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    SweepStep step = standing(pick(0.0, full_turn), pick(5.0, 9.0));
    step.span = pick(0.0, full_turn / 360.0), step.slope = pick(-8.0, 8.0);
    return step;
}

std::vector<PlaneSection> sections() {
    std::vector<PlaneSection> all{*disc(16.0, 6.0).section(0.0), *upright(5.0, 0.0).section(1.0),
                                  *upright(5.0, 1.0).section(0.0), *upright(5.0, 1.0).section(4.5),
                                  *upright(5.0, 5.0).section(2.0)};
    for (PlaneSection shifted : {all[1], all[4]}) {
        shifted.shift = 1.5;
        all.push_back(shifted);
    }
    return all;
}

/// The least entry over the step, of many places that it stands at.
double sampled(const PlaneSection& section, const SweepStep& step, Vec2 ray) {
    constexpr int places = 2000;
    double least = nowhere;
    for (int i = 0; i <= places; ++i) {
        const double way = step.span * i / places;
        SweepStep here = step;
        here.from = turned(step.from, unit(way)), here.low = step.low + step.slope * way;
        here.span = 0.0, here.slope = 0.0;
        least = std::min(least, least_entry(section, here, ray).radius);
    }
    return least;
}

/// A mill with a rounded rim and a hollow end, in the plane at `off` from its axis, as a solid: how high its
/// end stands over its tip at `y` from the middle. The rounding's circle about (radius - corner, corner) ends
/// where its tangent rises by the cone's slope.
struct HollowMill {
    double radius, corner, slope, off;

    double wall() const { return std::sqrt(radius * radius - off * off); }
    double end_at(double y) const {
        const double lean = std::atan(slope), from_axis = std::hypot(y, off);
        const double ring = radius - corner, touch = ring - corner * std::sin(lean);
        if (from_axis < touch) return corner * (1.0 - std::cos(lean)) + (touch - from_axis) * slope;
        const double out = from_axis - ring;
        return corner - std::sqrt(std::max(0.0, corner * corner - out * out));
    }
    /// How deep the place lies in it, its tip at `tip` over the shaft's axis and its middle at `shift`: along
    /// u or off the nearer wall, the lesser. Negative outside.
    double depth(Vec2 place, double tip, double shift) const {
        const double y = place.y - shift;
        const double within = wall() - std::abs(y);
        return within < 0.0 ? within : std::min(within, place.x - tip - end_at(y));
    }
};

}  // namespace

TEST_CASE("a disc that stands still is entered where the circle's equation says") {
    const PlaneSection section = *disc(16.0, 6.0).section(0.0);
    for (const double turn : {0.0, 0.1, -0.4}) {
        // Centre 24 from the axis: the ray at that turn meets it at 24 cos - sqrt(16² - 24² sin²).
        const double expected =
            24.0 * std::cos(turn) - std::sqrt(256.0 - 576.0 * std::sin(turn) * std::sin(turn));
        CHECK_NEAR(least_entry(section, standing(1.0, 8.0), unit(1.0 + turn)).radius, expected, 1e-12);
    }
    CHECK(least_entry(section, standing(1.0, 8.0), unit(1.0 + 0.8)).radius == nowhere);
}

TEST_CASE("a flat is entered at its height by the cosine, and past its end not at all") {
    const PlaneSection section = *upright(5.0, 0.0).section(0.0);
    CHECK_NEAR(least_entry(section, standing(0.0, 8.0), unit(0.5)).radius, 8.0 / std::cos(0.5), 1e-12);
    CHECK(least_entry(section, standing(0.0, 8.0), unit(0.6)).radius == nowhere);  // tan 0.6 > 5/8
}

TEST_CASE(
    "a hollow end is entered where steps along the ray first find its solid, from inside and from beside") {
    std::mt19937 random(8);
    const auto pick = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    int on_end = 0, on_wall = 0, missed = 0;
    for (int i = 0; i < trials(600); ++i) {
        const double corner = i % 3 == 0 ? 0.0 : pick(0.2, 2.0);
        const HollowMill mill{pick(4.0, 9.0), corner, pick(0.01, 0.1), pick(0.0, 3.0)};
        CutterPart part = upright(mill.radius, mill.corner);
        part.dish = mill.slope;
        PlaneSection section = *part.section(mill.off);
        section.shift = pick(-12.0, 12.0);
        const double tip = pick(5.0, 9.0);
        const Vec2 ray = unit(pick(-1.4, 1.4));
        // Off the ring of its lowest points, the section's own lowest one stands higher.
        const double found = least_entry(section, standing(0.0, tip + section.raise), ray).radius;
        CAPTURE(i, mill.radius, mill.corner, mill.slope, mill.off, section.shift, tip, ray.x, ray.y);
        constexpr double step = 0.002, far = 80.0;
        double seen = 0.0;
        while (seen < far && mill.depth(seen * ray, tip, section.shift) < 0.0)
            seen += step;
        if (found == nowhere || found > far) {
            ++missed;
            CHECK(seen >= far);
            continue;
        }
        CHECK(found <= seen + 1e-9);
        CHECK(std::abs(mill.depth(found * ray, tip, section.shift)) < 1e-9);
        // Nothing lies before it that the steps have not seen, and what they have not seen is less than one.
        if (seen < far) CHECK(found > seen - step - 1e-9);
        const double beside = std::abs(found * ray.y - section.shift);
        (beside > mill.wall() - 1e-9 ? on_wall : on_end) += 1;
    }
    CHECK(on_end > trials(600) / 5);
    CHECK(on_wall > trials(600) / 50);
    CHECK(missed > trials(600) / 20);
}

TEST_CASE("the least entry of a step is that of the place where it comes deepest") {
    std::mt19937 random(5);
    for (const PlaneSection& section : sections()) {
        for (int i = 0; i < 60; ++i) {
            const SweepStep step = random_step(random);
            const double turn = std::uniform_real_distribution<double>(-0.5, 0.5)(random);
            const Vec2 ray = turned(step.from, unit(turn));
            const double exact = least_entry(section, step, ray).radius, seen = sampled(section, step, ray);
            CAPTURE(i, turn, step.low, step.slope, step.span, section.half_flat, section.corner);
            CHECK((exact == seen || exact <= seen + 1e-9));
            // Between two of the sampled places a section that moves leaves nothing deeper than this; where
            // an end just passes the ray, the sample may have missed it.
            if (seen != nowhere) CHECK(exact > seen - 2e-3);
        }
    }
}

TEST_CASE("what may not reach below a radius does not, on any ray round about") {
    std::mt19937 random(6);
    int left_out = 0;
    for (const PlaneSection& section : sections()) {
        for (int i = 0; i < 2000; ++i) {
            const SweepStep step = random_step(random);
            const auto pick = [&](double low, double high) {
                return std::uniform_real_distribution<double>(low, high)(random);
            };
            const double turn = pick(-1.0, 1.0), radius = pick(5.0, 10.0), around = pick(0.0, 0.02);
            const Vec2 ray = turned(step.from, unit(turn));
            if (may_reach_below(section, step, ray, radius, around)) continue;
            ++left_out;
            for (const double share : {-1.0, -0.5, 0.0, 0.5, 1.0}) {
                const Vec2 near = turned(ray, unit(share * around));
                CHECK(least_entry(section, step, near).radius >= radius);
            }
        }
    }
    CHECK(left_out > 3000);
}

TEST_CASE("what reaches a radius is never left out from a hair above it on") {
    std::mt19937 random(7);
    constexpr double hair = 1e-7;
    int reached = 0;
    for (const PlaneSection& section : sections()) {
        for (int i = 0; i < 2000; ++i) {
            const SweepStep step = random_step(random);
            const double turn = std::uniform_real_distribution<double>(-0.6, 0.6)(random);
            const Vec2 ray = turned(step.from, unit(turn));
            const double radius = least_entry(section, step, ray).radius;
            if (radius == nowhere) continue;
            ++reached;
            CAPTURE(i, turn, step.low, step.slope, step.span, section.half_flat, section.corner);
            CHECK(may_reach_below(section, step, ray, radius + hair));
            const double around = std::uniform_real_distribution<double>(-0.02, 0.02)(random);
            CHECK(may_reach_below(section, step, turned(ray, unit(around)), radius + hair, std::abs(around)));
        }
    }
    CHECK(reached > 3000);
}
