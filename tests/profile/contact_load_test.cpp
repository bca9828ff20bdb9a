#include "profile/judge/contact_load.h"

#include "catch.h"
#include "known_law.h"

using namespace lobewright;
using namespace lobewright::profile;

namespace {

/// Cycloidal 10 mm in 120 degrees at 1000 rev/min, 15 N/mm, 2.5 mm preload, 1.8 kg:
/// adapala-academy.com/forum/index.php/1522 has the inputs; the answers follow from F = k (x + x₀) + m a.
const known_law::Event rise{known_law::Law::cycloidal, 10.0, 120.0, 120.0};
ContactLoad adapala() {
    ContactLoad load;
    load.spring_preload = 37.5;
    load.spring_rate = 15.0;
    load.moving_mass = 1.8;
    return load;
}
constexpr double speed = 1000 * 2 * std::numbers::pi / 60;

double force_at(double degrees_from_start) {
    return contact_force(adapala(), rise.at(degrees_from_start - 120), speed);
}

}  // namespace

TEST_CASE("the cycloidal example loses contact at 100 degrees by 61.688 N") {
    const Lift lift = rise.at(-20);
    CHECK_NEAR(lift.lift, 9.711656, 5e-7);
    CHECK_NEAR(lift.acceleration * 1e-3 * speed * speed, -136.035, 5e-4);
    CHECK_NEAR(force_at(100), -61.688, 5e-4);
}

TEST_CASE("the cycloidal example loses contact from 69.58 to 106.28 degrees") {
    CHECK(force_at(69.57) > 0);
    CHECK(force_at(69.59) < 0);
    CHECK(force_at(106.27) < 0);
    CHECK(force_at(106.29) > 0);
}

TEST_CASE("the cycloidal example is worst at 88.236 degrees, by 109.972 N") {
    CHECK_NEAR(force_at(88.236), -109.972, 5e-4);
    CHECK(force_at(88.236) < force_at(88.2));
    CHECK(force_at(88.236) < force_at(88.27));
}

TEST_CASE("the cycloidal example is safe below 779.83 rev/min") {
    double worst = 0;
    for (double degrees = 0; degrees <= 120; degrees += 0.001) {
        worst = std::max(worst, float_tendency(adapala(), rise.at(degrees - 120)));
    }
    CHECK_NEAR(60 / (2 * std::numbers::pi) / std::sqrt(worst), 779.83, 0.005);
}

TEST_CASE("the eccentric disc lifts off at 590.68 rev/min without its weight") {
    // Khurmi (from memory): e 25 mm, 2.3 kg, 3.5 N/mm, 45 N at the lowest; 620.23 rev/min with the follower's
    // weight, which the contact force leaves out, 590.68 without: ω² = (45 N + 3.5 N/mm x 50 mm) / (2.3 kg x
    // 25 mm).
    ContactLoad load;
    load.spring_preload = 45;
    load.spring_rate = 3.5;
    load.moving_mass = 2.3;
    const Lift top{50.0, 0.0, -25.0, 0.0};
    CHECK_NEAR(60 / (2 * std::numbers::pi) / std::sqrt(float_tendency(load, top)), 590.68, 0.005);
    CHECK_NEAR(contact_force(load, top, 590.68 * 2 * std::numbers::pi / 60), 0.0, 0.01);
}

TEST_CASE("the preload and the rate that are named just hold the follower") {
    const Lift lift = rise.at(-31.764);
    ContactLoad load = adapala();
    load.spring_preload = preload_needed(load, lift, speed);
    CHECK_NEAR(contact_force(load, lift, speed), 0.0, 1e-9);
    load = adapala();
    load.spring_rate = rate_needed(load, lift, speed);
    CHECK_NEAR(contact_force(load, lift, speed), 0.0, 1e-9);
    CHECK(rate_needed(load, Lift{1.0, 0.0, 5.0, 0.0}, speed) == 0.0);
    CHECK(std::isinf(rate_needed(load, Lift{0.0, 0.0, -5000.0, 0.0}, speed)));
}

TEST_CASE("the cam turns at half the crank's speed unless the engine says otherwise") {
    Job job;
    CHECK_NEAR(cam_speed(job, 6000), 50 * 2 * std::numbers::pi, 1e-12);
    job.engine = Engine{};
    job.engine->cam_per_crank = 0.125;
    CHECK_NEAR(cam_speed(job, 6000), 12.5 * 2 * std::numbers::pi, 1e-12);
    CHECK_NEAR(crank_speed(job, cam_speed(job, 4321)), 4321, 1e-9);
}
