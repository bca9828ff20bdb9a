#include "basalt.h"

#include <lobewright/timing.h>
#include <lobewright/valve_train.h>

using namespace lobewright;

namespace {

Follower rocker(std::vector<ValveLift> points) {
    Follower follower = basalt::endless_flat();
    follower.valve_lift = std::move(points);
    return follower;
}

/// The curve of the page on the job file, and one that bends harder.
const std::vector<ValveLift> measured{{0.0, 0.0}, {2.0, 2.7}, {4.0, 5.6}};
const std::vector<ValveLift> bent{{0.0, 0.0}, {1.0, 1.2}, {1.5, 2.4}, {4.0, 4.0}, {5.0, 8.0}};

}  // namespace

TEST_CASE("a rocker's curve passes its points, rises all the way, and its slope runs on without a step") {
    for (const auto& points : {measured, bent}) {
        const Follower follower = rocker(points);
        for (const ValveLift& point : points)
            CHECK_NEAR(valve_lift_of(follower, point.follower), point.valve, 1e-12);
        const double most = points.back().follower;
        double last = -1.0;
        for (int i = 0; i <= 1000; ++i) {
            const double lift = most * i / 1000.0;
            CHECK(valve_lift_of(follower, lift) > last);
            last = valve_lift_of(follower, lift);
            CHECK(valve_ratio_at(follower, lift) > 0.0);
            constexpr double step = 1e-6;
            if (i == 0 || i == 1000) continue;
            const double slope =
                (valve_lift_of(follower, lift + step) - valve_lift_of(follower, lift - step)) / (2.0 * step);
            CHECK_NEAR(valve_ratio_at(follower, lift), slope, 1e-5);
        }
    }
}

TEST_CASE("a rocker's curve and its inverse undo each other, beyond its last point too") {
    for (const auto& points : {measured, bent}) {
        const Follower follower = rocker(points);
        for (int i = 0; i <= 120; ++i) {
            const double lift = points.back().follower * i / 100.0;
            CHECK_NEAR(lift_for_valve(follower, valve_lift_of(follower, lift)), lift, 1e-12);
        }
    }
}

TEST_CASE("a curve of one slope is a ratio") {
    Follower follower = basalt::endless_flat();
    follower.valve_ratio = 1.4;
    const Follower curve = rocker({{0.0, 0.0}, {1.0, 1.4}, {3.0, 4.2}, {5.0, 7.0}});
    for (double lift = 0.0; lift <= 6.0; lift += 0.25) {
        CHECK_NEAR(valve_lift_of(curve, lift), valve_lift_of(follower, lift), 1e-12);
        CHECK_NEAR(lift_for_valve(curve, lift), lift_for_valve(follower, lift), 1e-12);
        CHECK_NEAR(valve_ratio_at(curve, lift), 1.4, 1e-12);
    }
}

TEST_CASE("a measured rocker's events are where its curve has the clearance and the checking lift") {
    MotionProfile motion = basalt::lopsided(14.0, 3.9);
    motion.opening_share = 0.5;
    Job job = basalt::job(motion, rocker(measured));
    job.engine = Engine{};
    job.engine->firing_angles = {CrankAngle{}};
    job.engine->inlet = basalt::timing(10.0, 50.0, 0.15);
    job.engine->inlet->at_lift = 1.0;
    job.lobes.front().at.reset();
    job.lobes.front().cylinder = 1;
    const SolvedLobe lobe = basalt::solved(job);
    const auto card = card_events(job, lobe), seat = valve_events(job, lobe);
    CHECK_NEAR(card->opens.degrees(), 10.0, 1e-9);
    CHECK_NEAR(card->closes.degrees(), 50.0, 1e-9);
    // At the seat the follower's lift is the curve's inverse of the clearance.
    CHECK_NEAR(valve_lift_of(job.followers.at("follower"), lobe.motion.at(seat->closes_at).lift), 0.15,
               1e-12);
    CHECK(seat->duration > card->duration);
}

TEST_CASE("a rocker that is measured up to less than the lobe's lift is refused") {
    Job job = basalt::job(basalt::lopsided(14.0, 5.0), rocker(measured));
    job.places["follower.follower.valve_lift"] = Place{job.file, 9, 2};
    const auto lobes = solve_lobes(job);
    REQUIRE_FALSE(lobes.ok());
    const Diagnostic& refused = lobes.diagnostics().front();
    CHECK(refused.code == "valve-lift");
    CHECK(refused.place.line == 9);
    CHECK_THAT(refused.what, ContainsSubstring("up to a lift of 4 mm") && ContainsSubstring("lifts 5 mm"));
    job.followers["follower"].valve_lift.push_back({5.0, 7.0});
    CHECK(solve_lobes(job).ok());
}
