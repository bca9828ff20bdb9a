#include "profile/follower/contact_figures.h"
#include "profile/follower/lobe_curve.h"
#include "profile/motion/motion_piece.h"
#include "random_lobe.h"

using namespace lobewright;
using namespace lobewright::profile;

namespace {

constexpr unsigned seed = 20261130;

/// Random lobes of every kind, each handed on with a source of further numbers.
template <class Test>
void for_random_lobes(int count, const Test& test) {
    random_lobe::Source random(seed);
    int number = 0;
    for (int i = 0; i < count; ++number) {
        const auto job = random_lobe::draw(random, number);
        if (!job) continue;
        ++i;
        INFO("seed " << seed << ", lobe " << number);
        test(basalt::solved(*job), random);
    }
}

std::array<double, 4> values_of(const Lift& lift) {
    return {lift.lift, lift.velocity, lift.acceleration, lift.jerk};
}

}  // namespace

TEST_CASE("a piece's bounds hold its lift and derivatives, and of a single angle are these") {
    for_random_lobes(90, [](const SolvedLobe& lobe, random_lobe::Source& random) {
        for (const MotionPiece& piece : lobe.motion.pieces()) {
            std::array<double, 4> size{};
            for (int i = 0; i <= 50; ++i) {
                const auto values = values_of(piece.at(piece.start + (piece.end - piece.start) * i / 50));
                for (std::size_t k = 0; k < 4; ++k)
                    size[k] = std::max(size[k], std::abs(values[k]));
            }
            for (int i = 0; i < 20; ++i) {
                const double a = random.between(piece.start, piece.end),
                             b = random.between(piece.start, piece.end);
                const Interval stretch{std::min(a, b), std::min(std::max(a, b), std::min(a, b) + 0.05)};
                const double at = random.between(stretch.low, stretch.high);
                const auto values = values_of(piece.at(at));
                const LiftBounds bounds = piece.within(stretch), single = piece.within(at);
                INFO(piece.name << " at " << at);
                for (std::size_t k = 0; k < 4; ++k) {
                    const double rounding = 1e-10 * size[k] + 1e-13;
                    CHECK(bounds[k].low - rounding <= values[k]);
                    CHECK(values[k] <= bounds[k].high + rounding);
                    CHECK_NEAR(single[k].low, values[k], rounding);
                    CHECK(single[k].width() <= rounding);
                }
            }
        }
    });
}

TEST_CASE("the higher bounds are those of the jerk's slope and bend") {
    for_random_lobes(45, [](const SolvedLobe& lobe, random_lobe::Source& random) {
        for (const MotionPiece& piece : lobe.motion.pieces()) {
            const double length = piece.end - piece.start;
            if (length < 0.05) continue;
            const double low = random.between(piece.start, piece.end - 0.02), high = low + 0.02;
            const LiftBounds bounds = piece.within({low, high});
            const double grown = piece.at(high).jerk - piece.at(low).jerk;
            const double rounding =
                1e-9 * (1.0 + std::abs(piece.at(low).jerk) + std::abs(piece.at(high).jerk));
            INFO(piece.name << " at " << low);
            CHECK(0.02 * bounds[4].low <= grown + rounding);
            CHECK(grown <= 0.02 * bounds[4].high + rounding);
            const LiftBounds at_low = piece.within(low), at_high = piece.within(high);
            const double steeper = at_high[4].low - at_low[4].low;
            const double noise = 1e-9 * (1.0 + std::abs(at_low[4].low) + std::abs(at_high[4].low));
            CHECK(0.02 * bounds[5].low <= steeper + noise);
            CHECK(steeper <= 0.02 * bounds[5].high + noise);
        }
    });
}

TEST_CASE("the contact's closed forms are those of the follower's kinematics") {
    for_random_lobes(90, [](const SolvedLobe& lobe, random_lobe::Source& random) {
        const ContactFrame frame(lobe.follower, lobe.base_radius, lobe.turns);
        const Kinematics kinematics(lobe.follower, lobe.base_radius);
        for (int i = 0; i < 50; ++i) {
            const CamAngle alpha = basalt::cam_degrees(random.between(-180.0, 180.0));
            const double beta = -sign_of(lobe.turns) * alpha.radians();
            const Lift l = lobe.motion.at(alpha);
            const ContactFigures<double> figures(frame, l.lift, l.velocity, l.acceleration, l.jerk);
            const ContourPoint touch = kinematics.touch(beta, by_other_angle(l, lobe.turns)).contact;
            CHECK_NEAR(figures.speed(), touch.speed, 1e-11 * (1.0 + std::abs(touch.speed)));
            CHECK_NEAR(figures.curvature(), touch.curvature, 1e-10 * (1.0 + std::abs(touch.curvature)));
            CHECK_NEAR(figures.outward(), dot(touch.point, touch.normal), 1e-11);
            CHECK_NEAR(figures.distance_squared(), dot(touch.point, touch.point), 1e-9);
            const double angle = contact_at(lobe, alpha).pressure_angle;
            CHECK_NEAR(figures.pressure_tangent(), std::tan(angle),
                       1e-12 * (1.0 + std::abs(std::tan(angle))));
            CHECK_NEAR(figures.pressure_secant(), 1.0 / std::cos(angle), 1e-11 / std::cos(angle));
        }
    });
}

TEST_CASE("a motion's parts rise, fall and rest as they say, and join end to end") {
    for_random_lobes(90, [](const SolvedLobe& lobe, random_lobe::Source& random) {
        const auto& pieces = lobe.motion.pieces();
        const std::vector<MonotonePart> parts = monotone_parts(pieces);
        double end = pieces.front().start;
        for (const MonotonePart& part : parts) {
            CHECK_NEAR(part.angles.low, end, 1e-12);
            end = part.angles.high;
            for (int i = 0; i < 20; ++i) {
                const double velocity = pieces[part.piece].at(random.between(part.angles.low, end)).velocity;
                const double rounding = 1e-11 * lobe.lift;
                if (part.phase == Phase::rise) CHECK(velocity >= -rounding);
                if (part.phase == Phase::fall) CHECK(velocity <= rounding);
                // What is too short to turn in counts as what it does in its middle, where it may stand.
                const double standing = part.angles.width() <= shortest_turning ? rounding : 0.0;
                if (part.phase == Phase::dwell) CHECK(std::abs(velocity) <= standing);
            }
        }
        CHECK_NEAR(end, pieces.back().end, 1e-12);
    });
}

TEST_CASE("a rise never falls, nor a fall rises, by more than is claimed") {
    for_random_lobes(90, [](const SolvedLobe& lobe, random_lobe::Source& random) {
        const auto& pieces = lobe.motion.pieces();
        for (const MonotonePart& part : monotone_parts(pieces)) {
            if (part.phase == Phase::dwell) continue;
            const double sense = part.phase == Phase::rise ? 1.0 : -1.0;
            const auto lift = [&](double angle) { return sense * pieces[part.piece].at(angle).lift; };
            const double start = part.angles.low, end = part.angles.high;
            for (int i = 0; i < 20; ++i) {
                const double low = random.between(start, end), high = random.between(low, end);
                CHECK(lift(high) >= lift(low) - turning_lift * lobe.lift);
                // Next to the turns, where a stretch too short to be proven may have been taken along.
                const double near = shortest_turning * random.between(0.0, 1.0);
                if (start + near >= end) continue;
                CHECK(lift(start + near) >= lift(start) - turning_lift * lobe.lift);
                CHECK(lift(end) >= lift(end - near) - turning_lift * lobe.lift);
            }
        }
    });
}

TEST_CASE("a peak far narrower than half a degree is found") {
    // A lift that is all but a straight ramp, with a bell of 1 µm and 0.02 degrees (sigma) on it.
    const double sigma = 0.02 * std::numbers::pi / 180.0, at = 0.0123456;
    const auto formula = [=](const auto& alpha) {
        const auto x = (alpha - at) / sigma;  // 1 / (1 + x²) serves as a bell
        return 2.0 + alpha + 1e-3 / (1.0 + square(x));
    };
    const std::vector<MotionPiece> pieces{piece_of("flank", -0.5, 0.5, formula)};
    const LobeCurve curve(pieces, basalt::flat(), 1e6, Sense::ccw);
    // The second derivative of 1 / (1 + x²) is -2 at its top, and 1/2 at x = ±1: h (6x² - 2) / (1 + x²)³.
    const FigureAt least = curve.least([](const LobeCurve::Contact& c) { return c.acceleration; });
    CHECK_RELATIVE(least.value, -2.0 * 1e-3 / (sigma * sigma), 1e-12);
    CHECK_NEAR(least.at->radians(), at, 1e-12);
    const FigureAt largest = curve.largest([](const LobeCurve::Contact& c) { return c.acceleration; });
    CHECK_RELATIVE(largest.value, 0.5 * 1e-3 / (sigma * sigma), 1e-12);
    CHECK_NEAR(largest.at->radians(), at - sigma, 1e-12);
}

TEST_CASE("a figure that is the same all over has no place, and the same extreme twice has the first") {
    const SolvedLobe disc =
        basalt::solved(basalt::law(LawKind::simple_harmonic, 25.0, 50.0, 180.0, 180.0), basalt::flat());
    const LobeCurve curve(disc.motion.pieces(), disc.follower, 25.0, Sense::ccw);
    const FigureAt curvature = curve.largest([](const LobeCurve::Contact& c) { return c.curvature(); });
    CHECK_NEAR(curvature.value, 1.0 / 50.0, 1e-15);
    CHECK_FALSE(curvature.at.has_value());
    const FigureAt velocity = curve.farthest([](const LobeCurve::Contact& c) { return c.velocity; });
    CHECK_NEAR(velocity.value, 25.0, 1e-13);
    CHECK_NEAR(velocity.at->degrees(), -90.0, 1e-9);
}
