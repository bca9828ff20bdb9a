#include "random_lobe.h"
#include "trials.h"

#include <lobewright/soundness.h>

#include <array>
#include <limits>
#include <numbers>

using namespace lobewright;

namespace {

constexpr double pi = std::numbers::pi;

/// What one row of the table says and what follows from it, all as figures whose largest value counts.
enum Figure {
    velocity,
    acceleration,
    deceleration,
    jerk,
    curvature,
    hollowness,
    radius,
    lift,
    rising_angle,
    falling_angle,
    force,
    lightness,
    pressure,
    standing_pressure,
    figures
};
constexpr const char* names[figures] = {
    "velocity", "acceleration", "deceleration",  "jerk",  "curvature", "hollowness", "radius",
    "lift",     "rising angle", "falling angle", "force", "lightness", "pressure",   "standing pressure"};
using Row = std::array<double, figures>;

/// What follows from a row with the spring, as everyone can work it out: F = k x + F0 + m a ω², and Hertz's
/// pressure sqrt(F E* κ / (π L cos φ)) (Johnson, Contact Mechanics, section 4.2, from memory).
class Spring {
  public:
    Spring(const Job& job, const SolvedLobe& lobe) : load_(*job.contact), lobe_(lobe) {}

    [[nodiscard]] double force(const FollowerContact& c, double crank_speed) const {
        const double cam = crank_speed / 2.0 * 2.0 * pi / 60.0;
        return load_.spring_preload + load_.spring_rate * c.lift.lift +
               load_.moving_mass * c.lift.acceleration * 1e-3 * cam * cam;
    }
    [[nodiscard]] double pressure(const FollowerContact& c, double crank_speed) const {
        const Follower& follower = lobe_.follower;
        if (follower.kind == FollowerKind::knife) return 0.0;
        const double own = follower.has_flat_face() ? 0.0 : 1.0 / follower.radius;
        const double steel = 207000.0 / (2.0 * (1.0 - 0.3 * 0.3));
        const double normal = std::max(0.0, force(c, crank_speed)) / std::cos(c.pressure_angle);
        return std::sqrt(normal * steel * (c.contact.curvature + own) / (pi * lobe_.width));
    }

  private:
    const ContactLoad& load_;
    const SolvedLobe& lobe_;
};

Row row_at(const Job& job, const SolvedLobe& lobe, CamAngle angle) {
    const FollowerContact c = contact_at(lobe, angle);
    const Spring spring(job, lobe);
    const double running = job.contact->crank_speed, force = spring.force(c, running);
    return {std::abs(c.lift.velocity),
            c.lift.acceleration,
            -c.lift.acceleration,
            std::abs(c.lift.jerk),
            c.contact.curvature,
            -c.contact.curvature,
            length(c.contact.point),
            c.lift.lift,
            std::abs(c.pressure_angle),
            std::abs(c.pressure_angle),
            force,
            -force,
            spring.pressure(c, running),
            spring.pressure(c, 0.0)};
}

/// Whether the row counts for the figure: of the pressure angles one is the rise's, the other the fall's.
bool counts(std::size_t figure, double velocity) {
    return (figure != rising_angle || velocity >= 0.0) && (figure != falling_angle || velocity <= 0.0);
}

/// A figure of the report, and where it stands, if the report tells.
struct Claim {
    double value = 0.0;
    std::optional<CamAngle> at;
};

std::array<Claim, figures> claims_of(const LobeReport& report, const SolvedLobe& lobe) {
    const auto of = [](const FigureAt& figure, double sign = 1.0) {
        return Claim{sign * figure.value, figure.at};
    };
    const auto size = [](const FigureAt& figure) { return Claim{std::abs(figure.value), figure.at}; };
    const FigureAt none;
    return {of(report.max_velocity),
            of(report.max_acceleration),
            of(report.min_acceleration, -1.0),
            of(report.max_jerk),
            Claim{1.0 / report.min_curvature_radius.value, report.min_curvature_radius.at},
            Claim{report.min_hollow_radius ? 1.0 / *report.min_hollow_radius : 0.0, {}},
            Claim{lobe.contour.largest_radius(), {}},
            Claim{report.lift, {}},
            size(report.rise_pressure_angle),
            size(report.fall_pressure_angle),
            of(*report.greatest_force),
            of(*report.least_force, -1.0),
            of(report.max_contact_stress_mpa.value_or(none)),
            of(report.standing_contact_stress_mpa.value_or(none))};
}

/// Every 0.01 degrees, but on the base circle, where nothing changes, every degree.
std::vector<CamAngle> table_angles(const SolvedLobe& lobe) {
    std::vector<CamAngle> angles;
    for (int i = -18000; i <= 18000; ++i) {
        const CamAngle angle = CamAngle::from_degrees(0.01 * i);
        if (i % 100 == 0 || !lobe.motion.piece_at(angle).piece.constant) angles.push_back(angle);
    }
    return angles;
}

/// Largest values over the table, and the largest sizes.
struct Brute {
    Row largest, size;
};

Brute brute_force(const Job& job, const SolvedLobe& lobe) {
    Brute brute{{}, {}};
    brute.largest.fill(-std::numeric_limits<double>::infinity());
    for (const CamAngle angle : table_angles(lobe)) {
        const Row row = row_at(job, lobe, angle);
        const double speed = lobe.motion.at(angle).velocity;
        for (std::size_t i = 0; i < figures; ++i) {
            if (!counts(i, speed)) continue;
            brute.largest[i] = std::max(brute.largest[i], row[i]);
            brute.size[i] = std::max(brute.size[i], std::abs(row[i]));
        }
    }
    return brute;
}

/// The value at the place, from the side of a joint that has it.
double attained(const Job& job, const SolvedLobe& lobe, std::size_t figure, CamAngle at, double wanted) {
    const CamAngle hair = CamAngle::from_radians(1e-12);
    double nearest = std::numeric_limits<double>::infinity();
    for (const CamAngle angle : {at, at - hair, at + hair}) {
        const double value = row_at(job, lobe, angle)[figure];
        if (std::abs(value - wanted) < std::abs(nearest - wanted)) nearest = value;
    }
    return nearest;
}

/// Of random lobes: with the ways to say which it is.
template <class Judge>
void for_random_lobes(int count, unsigned seed, const Judge& judge_lobe) {
    random_lobe::Source random(seed);
    int number = 0;
    for (int i = 0; i < count; ++number) {
        const auto job = random_lobe::draw(random, number);
        if (!job) continue;
        ++i;
        INFO("seed " << seed << ", lobe " << number << ", follower " << number % random_lobe::follower_kinds);
        const SolvedLobe lobe = basalt::solved(*job);
        judge_lobe(*job, lobe, judge(*job, {lobe}).lobes.front());
    }
}

constexpr int lobes_drawn = trials(500);

}  // namespace

TEST_CASE("no row of a table at 0.01 degrees beats a reported extreme, which stands at its place") {
    constexpr double rounding =
        2.0 * extreme_margin;  // of the figure's largest size; the tests' own as much again
    for_random_lobes(
        lobes_drawn, 20261126, [](const Job& job, const SolvedLobe& lobe, const LobeReport& report) {
            const Brute brute = brute_force(job, lobe);
            const auto claims = claims_of(report, lobe);
            for (std::size_t i = 0; i < figures; ++i) {
                INFO(names[i]);
                const double margin = rounding * brute.size[i];
                CHECK(brute.largest[i] <= claims[i].value + margin);
                if (claims[i].at)
                    CHECK_NEAR(attained(job, lobe, i, *claims[i].at, claims[i].value), claims[i].value,
                               margin);
                else if (i != hollowness || claims[i].value > 0.0)  // 0.01 degrees lose little of it
                    CHECK(brute.largest[i] >= claims[i].value - 1e-2 * brute.size[i]);
            }
        });
}

TEST_CASE(
    "below the speed that floats no row of a table at 0.01 degrees lacks force, and above it one does") {
    for_random_lobes(
        lobes_drawn / 5, 20261127, [](Job job, const SolvedLobe& lobe, const LobeReport& report) {
            const Spring spring(job, lobe);
            const auto least_force = [&](double crank_speed) {
                double least = std::numeric_limits<double>::infinity();
                for (const CamAngle angle : table_angles(lobe))
                    least = std::min(least, spring.force(contact_at(lobe, angle), crank_speed));
                return least;
            };
            const double size = job.contact->spring_preload + job.contact->spring_rate * lobe.lift;
            const double fastest = report.float_speed_rpm ? *report.float_speed_rpm : 1e5;
            if (fastest > 0.0) CHECK(least_force(fastest * (1.0 - 1e-12)) >= -1e-9 * size);
            if (report.float_speed_rpm) CHECK(least_force(1.001 * fastest + 1.0) < 1e-9 * size);
        });
}
