#include "basalt.h"
#include "precise.h"

#include <lobewright/motion.h>

using namespace lobewright;

namespace {

constexpr LawKind all_laws[] = {LawKind::simple_harmonic, LawKind::cycloidal,     LawKind::polynomial_345,
                                LawKind::polynomial_4567, LawKind::modified_sine, LawKind::modified_trapezoid,
                                LawKind::power_polynomial};
const std::vector<int> powers{2, 10, 18, 26};

/// All that a motion profile can have, unequal on both sides.
MotionProfile full(LawKind kind) {
    MotionProfile profile = basalt::law(kind, 90.0, 8.0, 61.0, 73.0,
                                        kind == LawKind::power_polynomial ? powers : std::vector<int>{});
    profile.dwell_angle = basalt::cam_degrees(7.0);
    profile.opening_ramp = basalt::ramp(0.3, 19.0);
    profile.closing_ramp = basalt::ramp(0.4, 31.0);
    return profile;
}

Motion motion_of(const MotionProfile& profile) {
    return basalt::solved(profile, basalt::flat()).motion;
}

Lift at(const Motion& motion, double degrees) {
    return motion.at(CamAngle::from_degrees(degrees));
}

}  // namespace

TEST_CASE("a motion's derivatives are those of ramp and law, taken by differences in 113 bits") {
    for (const LawKind kind : all_laws) {
        const MotionProfile profile = full(kind);
        const Motion motion = motion_of(profile);
        Lift largest{8.0, 0.0, 0.0, 0.0};
        for (int i = 0; i < 720; ++i) {
            const Lift l = at(motion, 0.5 * i - 180.0);
            largest.velocity = std::max(largest.velocity, std::abs(l.velocity));
            largest.acceleration = std::max(largest.acceleration, std::abs(l.acceleration));
            largest.jerk = std::max(largest.jerk, std::abs(l.jerk));
        }
        for (int i = 0; i < 1000; ++i) {
            const double alpha = CamAngle::from_degrees(-90.0 + 0.2013 * (i + 0.1234)).radians();
            const Lift found = motion.at(CamAngle::from_radians(alpha));
            const Lift wanted = precise::differences(
                [&](const precise::Real& a) { return precise::motion(profile, a); }, alpha);
            INFO("law " << static_cast<int>(kind) << ", cam angle " << alpha);
            CHECK_NEAR(found.lift, wanted.lift, 1e-9 * std::abs(wanted.lift) + 1e-13 * largest.lift);
            CHECK_NEAR(found.velocity, wanted.velocity,
                       1e-9 * std::abs(wanted.velocity) + 1e-13 * largest.velocity);
            CHECK_NEAR(found.acceleration, wanted.acceleration,
                       1e-9 * std::abs(wanted.acceleration) + 1e-12 * largest.acceleration);
            CHECK_NEAR(found.jerk, wanted.jerk, 1e-9 * std::abs(wanted.jerk) + 1e-10 * largest.jerk);
        }
    }
}

TEST_CASE("lift and velocity are continuous at every joint, and the acceleration is finite") {
    for (const LawKind kind : all_laws) {
        const Motion motion = motion_of(full(kind));
        const auto& pieces = motion.pieces();
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            const MotionPiece& next = pieces[(i + 1) % pieces.size()];
            const Lift before = pieces[i].at(pieces[i].end), after = next.at(next.start);
            INFO(pieces[i].name << " to " << next.name);
            CHECK_NEAR(before.lift, after.lift, 1e-12);
            CHECK_NEAR(before.velocity, after.velocity, 1e-11);
            CHECK(std::isfinite(before.acceleration));
        }
    }
}

TEST_CASE(
    "the acceleration is continuous where the law starts and ends without one, with ramps and dwell too") {
    for (const LawKind kind : {LawKind::cycloidal, LawKind::polynomial_345, LawKind::polynomial_4567,
                               LawKind::modified_sine, LawKind::modified_trapezoid}) {
        const Motion motion = motion_of(full(kind));
        const auto& pieces = motion.pieces();
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            const MotionPiece& next = pieces[(i + 1) % pieces.size()];
            INFO(pieces[i].name << " to " << next.name);
            CHECK_NEAR(pieces[i].at(pieces[i].end).acceleration, next.at(next.start).acceleration, 1e-10);
        }
    }
}

TEST_CASE(
    "a power polynomial's acceleration steps at its peak alone, and not there where both sides are alike") {
    MotionProfile profile = full(LawKind::power_polynomial);
    profile.powers = {2, 6, 10};
    profile.dwell_angle = CamAngle{};
    const auto steps = [](const Motion& motion) {
        std::vector<double> found;
        const auto& pieces = motion.pieces();
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            const MotionPiece& next = pieces[(i + 1) % pieces.size()];
            const double step = next.at(next.start).acceleration - pieces[i].at(pieces[i].end).acceleration;
            if (std::abs(step) > 1e-9) found.push_back(pieces[i].end);
        }
        return found;
    };
    CHECK(steps(motion_of(profile)) == std::vector<double>{0.0});
    profile.closing_angle = profile.opening_angle, profile.closing_ramp = profile.opening_ramp;
    CHECK(steps(motion_of(profile)).empty());
}

// The sentence of examples/job-file.md: v = r / (0.875 R), held after the first quarter.
TEST_CASE("a ramp rises at its constant speed after its first quarter and hands it on to the law") {
    const MotionProfile profile = full(LawKind::polynomial_345);
    const Motion motion = motion_of(profile);
    const double opens = -(3.5 + 61.0 + 19.0);
    const double speed = 0.3 / (0.875 * 19.0);  // mm/degree
    const double per_degree = std::numbers::pi / 180.0;
    CHECK_NEAR(at(motion, opens).velocity, 0.0, 1e-12);
    CHECK_NEAR(at(motion, opens + 19.0 / 8.0).velocity * per_degree, 0.5 * speed, 1e-12);
    for (const double x : {0.25, 0.5, 0.75, 1.0})
        CHECK_NEAR(at(motion, opens + 19.0 * x).velocity * per_degree, speed, 1e-12);
    CHECK_NEAR(at(motion, opens + 19.0).lift, 0.3, 1e-12);
    CHECK_NEAR(at(motion, 3.5 + 73.0).lift, 0.4, 1e-12);
    CHECK_NEAR(at(motion, 3.5 + 73.0).velocity * per_degree, -0.4 / (0.875 * 31.0), 1e-12);
}

TEST_CASE("the lift stands on the dwell and on the base circle") {
    const Motion motion = motion_of(full(LawKind::modified_sine));
    for (const double degrees : {-3.5, 0.0, 3.4}) {
        CHECK(at(motion, degrees).lift == 8.0);
        CHECK(at(motion, degrees).velocity == 0.0);
    }
    for (const double degrees : {-180.0, -84.0, 108.0, 179.0, 540.0})
        CHECK(at(motion, degrees).lift == 0.0);
}

TEST_CASE("a motion repeats after its period") {
    basalt::Job job = basalt::job(basalt::law(LawKind::cycloidal, 140.0, 4.0, 30.0, 25.0), basalt::flat());
    job.lobes.front().repeat = 4;
    const Motion motion = basalt::solved(job).motion;
    CHECK_NEAR(motion.period().degrees(), 90.0, 1e-12);
    for (const double degrees : {-41.0, -10.0, 3.0, 44.0})
        for (const double turn : {-360.0, -90.0, 90.0, 270.0})
            CHECK_NEAR(at(motion, degrees + turn).lift, at(motion, degrees).lift, 1e-12);
}

TEST_CASE("an event that reaches further than half a turn on one side goes round the seam") {
    const MotionProfile profile = basalt::law(LawKind::cycloidal, 30.0, 6.0, 250.0, 60.0);
    const Motion motion = motion_of(profile);
    CHECK(motion.pieces().front().start == -std::numbers::pi);
    CHECK(motion.pieces().back().end == std::numbers::pi);
    for (double degrees = -249.0; degrees < 60.0; degrees += 7.3) {
        const double wanted = static_cast<double>(
            precise::motion(profile, precise::Real(CamAngle::from_degrees(degrees).radians())));
        CHECK_NEAR(at(motion, degrees).lift, wanted, 1e-12);
    }
    const LiftEvents base = events_at(motion, 0.0), open = events_at(motion, 1e-3);
    CHECK_NEAR(base.opens.degrees(), -250.0, 1e-9);
    CHECK_NEAR(base.closes.degrees(), 60.0, 1e-9);
    CHECK(open.opens.degrees() < -200.0);
    CHECK_NEAR(motion.at(open.opens).lift, 1e-3, 1e-14);
}

TEST_CASE("events are where the lift passes the threshold, and at 0 the ends of the base circle") {
    const Motion motion = motion_of(full(LawKind::polynomial_345));
    const LiftEvents base = events_at(motion, 0.0);
    CHECK_NEAR(base.opens.degrees(), -(3.5 + 61.0 + 19.0), 1e-9);
    CHECK_NEAR(base.closes.degrees(), 3.5 + 73.0 + 31.0, 1e-9);
    for (const double threshold : {0.001, 0.1, 0.5, 4.0, 7.999}) {
        const LiftEvents events = events_at(motion, threshold);
        CHECK(events.opens < CamAngle{});
        CHECK(events.closes > CamAngle{});
        CHECK_NEAR(motion.at(events.opens).lift, threshold, 1e-13);
        CHECK_NEAR(motion.at(events.closes).lift, threshold, 1e-13);
        CHECK(motion.at(events.opens).velocity > 0.0);
        CHECK(motion.at(events.closes).velocity < 0.0);
    }
}

// Published exercises with h mm over opening/closing degrees at a speed in rev/min: velocity coefficient × h
// ω/β, and acceleration coefficient × h ω²/β².
TEST_CASE("published exercises on the laws' velocities and accelerations come out") {
    const double rpm = 2.0 * std::numbers::pi / 60.0;
    const auto largest = [&](LawKind kind, double lift, double degrees, double speed) {
        const MotionProfile profile = basalt::law(kind, 300.0, lift, degrees, 60.0);
        const Motion motion = motion_of(profile);
        Lift found;
        for (int i = 0; i <= 4800; ++i) {
            const Lift l = at(motion, -degrees * (1.0 - i / 4800.0));
            found.velocity = std::max(found.velocity, l.velocity * speed * rpm * 1e-3);
            found.acceleration =
                std::max(found.acceleration, l.acceleration * speed * speed * rpm * rpm * 1e-3);
        }
        return found;
    };
    // Sarkar, Theory of Machines, 9.2: printed 177.6 and 78.9 m/s² (with π = 3.141).
    CHECK_NEAR(largest(LawKind::simple_harmonic, 40.0, 60.0, 300.0).acceleration, 177.653, 5e-4);
    CHECK_NEAR(largest(LawKind::simple_harmonic, 40.0, 90.0, 300.0).acceleration, 78.957, 5e-4);
    // Sarkar 9.3, and Khurmi: printed velocities .39 and .78, accelerations 6.17 and 24.67 (.785 was cut
    // short).
    CHECK_NEAR(largest(LawKind::simple_harmonic, 50.0, 120.0, 100.0).velocity, 0.392699, 5e-7);
    CHECK_NEAR(largest(LawKind::simple_harmonic, 50.0, 60.0, 100.0).velocity, 0.785398, 5e-7);
    CHECK_NEAR(largest(LawKind::simple_harmonic, 50.0, 120.0, 100.0).acceleration, 6.168503, 5e-7);
    CHECK_NEAR(largest(LawKind::simple_harmonic, 50.0, 60.0, 100.0).acceleration, 24.674011, 5e-7);
    // Rattan, Theory of Machines (from memory): cycloidal 25 mm in 120 degrees at 300 rev/min, .75 m/s
    // and 35.34 m/s².
    CHECK_NEAR(largest(LawKind::cycloidal, 25.0, 120.0, 300.0).velocity, 0.75, 1e-9);
    CHECK_NEAR(largest(LawKind::cycloidal, 25.0, 120.0, 300.0).acceleration, 35.342917, 5e-7);
}
