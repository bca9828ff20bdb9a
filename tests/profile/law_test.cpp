#include "basalt.h"
#include "precise.h"

#include <lobewright/law.h>

using namespace lobewright;

namespace {

constexpr double pi = 3.14159265358979323846;

struct Extreme {
    double at, velocity, acceleration, jerk;
};

constexpr LawKind all_laws[] = {LawKind::simple_harmonic,  LawKind::cycloidal,
                                LawKind::polynomial_345,   LawKind::polynomial_4567,
                                LawKind::modified_sine,    LawKind::modified_trapezoid,
                                LawKind::power_polynomial, LawKind::parabolic};

/// Largest sizes of the derivatives over [0, 1], from a fine grid (values near a maximum: good to 1e-9 where
/// the grid hits it, as every maximum in the table below lies on a sixteenth but those of 3-4-5 and 4-5-6-7).
Extreme sizes(LawKind kind) {
    Extreme largest{0.0, 0.0, 0.0, 0.0};
    for (int i = 0; i <= 1600; ++i) {
        const LawValue v = law_value(kind, {}, i / 1600.0);
        largest.velocity = std::max(largest.velocity, std::abs(v.ds));
        largest.acceleration = std::max(largest.acceleration, std::abs(v.dds));
        largest.jerk = std::max(largest.jerk, std::abs(v.ddds));
    }
    return largest;
}

}  // namespace

// From the laws' definitions, which are those of Norton, Design of Machinery, and Rothbart, Cams (from
// memory): the largest of the derivatives of S.
TEST_CASE("the laws' largest velocities, accelerations and jerks are the handbooks' coefficients") {
    const struct {
        LawKind kind;
        double velocity, acceleration, jerk;
    } handbook[] = {
        {LawKind::simple_harmonic, pi / 2, 4.934802201, 15.503138340},
        {LawKind::cycloidal, 2.0, 6.283185307, 39.478417604},
        {LawKind::modified_sine, 1.759603386, 5.527957071, 69.466357289},
        {LawKind::modified_trapezoid, 2.0, 4.888123763, 61.425974812},
        {LawKind::parabolic, 2.0, 4.0, 0.0},
    };
    for (const auto& law : handbook) {
        const Extreme largest = sizes(law.kind);
        CHECK_NEAR(largest.velocity, law.velocity, 1e-9);
        CHECK_NEAR(largest.acceleration, law.acceleration, 1e-9);
        CHECK_NEAR(largest.jerk, law.jerk, 1e-9);
    }
    CHECK_NEAR(law_value(LawKind::modified_sine, {}, 0.125).dds, 4 * pi * pi / (4 + pi), 1e-12);
    CHECK_NEAR(law_value(LawKind::polynomial_345, {}, 0.5).ds, 1.875, 1e-12);
    CHECK_NEAR(law_value(LawKind::polynomial_345, {}, 0.211324865).dds, 5.773502692, 1e-9);
    CHECK_NEAR(law_value(LawKind::polynomial_345, {}, 0.0).ddds, 60.0, 1e-12);
    CHECK_NEAR(law_value(LawKind::polynomial_345, {}, 0.5).ddds, -30.0, 1e-12);
    CHECK_NEAR(law_value(LawKind::polynomial_4567, {}, 0.5).ds, 2.1875, 1e-12);
    CHECK_NEAR(law_value(LawKind::polynomial_4567, {}, 0.276393202).dds, 7.513188404, 1e-9);
    CHECK_NEAR(law_value(LawKind::polynomial_4567, {}, 0.5).ddds, -52.5, 1e-12);
    CHECK_NEAR(law_value(LawKind::polynomial_4567, {}, 0.112701665).ddds, 42.0, 1e-9);
    CHECK_NEAR(law_value(LawKind::polynomial_4567, {}, 0.0).ddds, 0.0, 1e-12);
}

// The pieces by hand: k = 1 / (2 + π), 2 k (x - sin(4πx) / (4π)), and so on with value and slope carried
// over.
TEST_CASE("the modified trapezoid's pieces have the printed coefficients") {
    const auto s = [](double x) { return law_value(LawKind::modified_trapezoid, {}, x).s; };
    CHECK_NEAR(s(0.1), 0.3889845296 * 0.1 - 0.03095440534 * std::sin(0.4 * pi), 1e-10);
    CHECK_NEAR(s(0.3), 2.444061881 * 0.09 - 0.2220309407 * 0.3 + 0.007234061557, 1e-9);
    CHECK_NEAR(s(0.6), 1.611015470 * 0.6 + 0.03095440534 * std::sin(2.4 * pi) - 0.3055077352, 1e-9);
    CHECK_NEAR(s(0.8), -2.444061881 * 0.64 + 4.666092822 * 0.8 - 1.229265002, 1e-9);
    CHECK_NEAR(s(0.9), 0.3889845296 * 0.9 - 0.03095440534 * std::sin(3.6 * pi) + 0.6110154703, 1e-9);
}

// The product formula, equal to the solution of the linear system that lets S and its derivatives vanish;
// exponents of the form in Rothbart (ed.), Cam Design Handbook, p. 99, which credits Thoren et al. 1952.
TEST_CASE("the power polynomial's coefficients are the product formula's") {
    const struct {
        std::vector<int> powers;
        std::vector<double> coefficients;
        double at_nose, largest, largest_at, speed, speed_at;
    } table[] = {
        {{2, 4, 6, 8}, {-4, 6, -4, 1}, -8, 5.224490, 0.6547, 1.904148, 0.3780},
        {{2, 6, 10, 14},
         {-35. / 16, 35. / 16, -21. / 16, 5. / 16},
         -4.375,
         6.627219,
         0.7875,
         1.812199,
         0.5266},
        {{2, 10, 18, 26},
         {-195. / 128, 117. / 128, -65. / 128, 15. / 128},
         -3.046875,
         9.984000,
         0.8801,
         1.802710,
         0.6687},
        {{2, 6, 8, 10, 12}, {-3, 10, -15, 9, -2}, -6, 6.550372, 0.6742, 1.981485, 0.4343},
        {{2, 8, 14, 20, 26},
         {-455. / 243, 455. / 243, -130. / 81, 182. / 243, -35. / 243},
         -3.744856,
         8.386560,
         0.8088,
         1.860073,
         0.5848},
        {{2, 10, 12, 14, 16}, {-2, 14, -28, 20, -5}, -4, 8.130560, 0.7746, 1.916739, 0.5579},
        {{2, 10, 18, 26, 34},
         {-3315. / 2048, 663. / 512, -1105. / 1024, 255. / 512, -195. / 2048},
         -3.237305,
         9.962434,
         0.8501,
         1.848900,
         0.6459},
    };
    for (const auto& row : table) {
        const auto c = power_coefficients(row.powers);
        REQUIRE(c.size() == row.coefficients.size());
        for (std::size_t i = 0; i < c.size(); ++i)
            CHECK_RELATIVE(c[i], row.coefficients[i], 1e-13);
        const auto at = [&](double from_nose) {
            return law_value(LawKind::power_polynomial, row.powers, 1.0 - from_nose);
        };
        CHECK_NEAR(at(0.0).dds, row.at_nose, 1e-6);
        // The places are printed with four places, and both are maxima: their error shows squared.
        CHECK_NEAR(at(row.largest_at).dds, row.largest, 1e-5);
        CHECK_NEAR(at(row.speed_at).ds, row.speed, 1e-5);
    }
}

TEST_CASE("a power polynomial starts with as many still derivatives as it has powers, less one") {
    const std::vector<int> powers{2, 7, 11, 18};
    const LawValue start = law_value(LawKind::power_polynomial, powers, 0.0);
    CHECK_NEAR(start.s, 0.0, 1e-13);
    CHECK_NEAR(start.ds, 0.0, 1e-12);
    CHECK_NEAR(start.dds, 0.0, 1e-11);
    CHECK_NEAR(start.ddds, 0.0, 1e-9);
    CHECK(law_value(LawKind::power_polynomial, powers, 1.0).s == 1.0);
    CHECK(law_value(LawKind::power_polynomial, powers, 1.0).ds == 0.0);
}

TEST_CASE("every law rises from 0 to 1 and starts and ends at rest") {
    const std::vector<int> powers{2, 10, 18, 26};
    for (const LawKind kind : all_laws) {
        CHECK_NEAR(law_value(kind, powers, 0.0).s, 0.0, 1e-13);
        CHECK_NEAR(law_value(kind, powers, 1.0).s, 1.0, 1e-13);
        CHECK_NEAR(law_value(kind, powers, 0.0).ds, 0.0, 1e-12);
        CHECK_NEAR(law_value(kind, powers, 1.0).ds, 0.0, 1e-12);
    }
}

TEST_CASE("lift, velocity, acceleration and jerk run through the joints of the modified laws") {
    for (const LawKind kind : {LawKind::modified_sine, LawKind::modified_trapezoid}) {
        REQUIRE_FALSE(law_joints(kind).empty());
        for (const double x : law_joints(kind)) {
            constexpr double step = 1e-13;
            const LawValue before = law_value(kind, {}, x - step), after = law_value(kind, {}, x + step);
            CHECK_NEAR(before.s, after.s, 1e-11);
            CHECK_NEAR(before.ds, after.ds, 1e-10);
            CHECK_NEAR(before.dds, after.dds, 1e-9);
            CHECK_NEAR(before.ddds, after.ddds, 1e-8);
        }
    }
    CHECK(law_joints(LawKind::cycloidal).empty());
}

TEST_CASE("the laws' derivatives are those of their own lift, taken by differences in 113 bits") {
    const std::vector<int> powers{2, 9, 16, 25};
    for (const LawKind kind : all_laws) {
        double sizes[4] = {1.0, 0.0, 0.0, 0.0};
        for (int i = 0; i <= 200; ++i) {
            const LawValue v = law_value(kind, powers, i / 200.0);
            sizes[1] = std::max(sizes[1], std::abs(v.ds));
            sizes[2] = std::max(sizes[2], std::abs(v.dds));
            sizes[3] = std::max(sizes[3], std::abs(v.ddds));
        }
        for (int i = 0; i < 1000; ++i) {
            const double x = (i + 0.5) / 1000.0;
            const LawValue v = law_value(kind, powers, x);
            const Lift wanted = precise::differences(
                [&](const precise::Real& at) { return precise::law(kind, powers, at); }, x);
            INFO("law " << static_cast<int>(kind) << ", x = " << x);
            CHECK_NEAR(v.s, wanted.lift, 1e-9 * std::abs(wanted.lift) + 1e-13 * sizes[0]);
            CHECK_NEAR(v.ds, wanted.velocity, 1e-9 * std::abs(wanted.velocity) + 1e-13 * sizes[1]);
            CHECK_NEAR(v.dds, wanted.acceleration, 1e-9 * std::abs(wanted.acceleration) + 1e-13 * sizes[2]);
            CHECK_NEAR(v.ddds, wanted.jerk, 1e-9 * std::abs(wanted.jerk) + 1e-11 * sizes[3]);
        }
    }
}

namespace {

/// Least of s + s'' (mm and radians) on a stretch that goes from `from` to `to` in 60 degrees.
double least_curvature_sum(LawKind kind, double from, double to) {
    const double beta = std::numbers::pi / 3.0;
    double least = 1e300;
    for (int i = 0; i <= 2000000; ++i) {
        const LawValue v = law_value(kind, {}, i / 2000000.0);
        least = std::min(least, from + (to - from) * (v.s + v.dds / (beta * beta)));
    }
    return least;
}

}  // namespace

TEST_CASE("a flat follower's cam of four laws in 60 degree stretches needs the recomputed base and face") {
    // Inputs: tutorbin.com, "a cam is to be designed having input speed of 1 rad/s for a flat face ..."
    // gives the inputs; the answers are the least of s + s'' and 2 x the largest s'.
    CHECK_RELATIVE(least_curvature_sum(LawKind::cycloidal, 0.0, 4.0), -19.290787, 1e-6);
    CHECK_RELATIVE(least_curvature_sum(LawKind::polynomial_345, 2.0, 4.0), -6.667381, 1e-6);
    CHECK_RELATIVE(least_curvature_sum(LawKind::simple_harmonic, 4.0, 2.0), -5.0, 1e-6);
    // Where the return's slowing starts, at half the lift: 2 - 16 / (π / 3)².
    CHECK_RELATIVE(least_curvature_sum(LawKind::parabolic, 4.0, 0.0), 2.0 - 144.0 / (pi * pi), 1e-6);
    const double steepest = 4.0 * law_value(LawKind::cycloidal, {}, 0.5).ds / (std::numbers::pi / 3.0);
    CHECK_RELATIVE(2.0 * steepest, 15.278875, 1e-7);
}

// Khurmi and Gupta, Theory of Machines, tables of uniform acceleration and retardation: 20 mm in 60 degrees,
// by sixths of the angle. From memory; recomputed from s = 2h(θ/β)² and its mirror.
TEST_CASE("20 mm of parabolic motion in 60 degrees rise as the handbooks' tables have it") {
    const double printed[] = {0.0, 1.11, 4.44, 10.0, 15.56, 18.89, 20.0};
    for (int i = 0; i <= 6; ++i)
        CHECK_NEAR(20.0 * law_value(LawKind::parabolic, {}, i / 6.0).s, printed[i], 0.0051);
}

// Sarkar, Theory of Machines, example 9.5 (FOSSEE Python Textbook Companions): 25 mm in 120 and in 90 degrees
// at 1000 rev/min. Printed 25000 and 44444.4 with a unit that is wrong by a hundred: they are cm/s².
TEST_CASE("the published accelerations of a parabolic rise and fall come out") {
    const double w = 1000.0 * 2.0 * pi / 60.0;
    const auto cm_per_s2 = [&](double degrees) {
        const double beta = degrees * pi / 180.0;
        return 2.5 * law_value(LawKind::parabolic, {}, 0.25).dds * w * w / (beta * beta);
    };
    CHECK_RELATIVE(cm_per_s2(120.0), 25000.0, 1e-9);
    CHECK_RELATIVE(cm_per_s2(90.0), 44444.4, 2e-6);
}

// Rothbart (ed.), Cam Design Handbook, McGraw-Hill 2004, p. 445: the polynomials 2-4-5 and 2-5-6 at half the
// angle.
TEST_CASE("the handbook's polynomials 2-4-5 and 2-5-6 pass their printed middles") {
    CHECK_NEAR(law_value(LawKind::power_polynomial, {2, 4, 5}, 0.5).s, 0.395833333, 5.1e-10);
    CHECK_NEAR(law_value(LawKind::power_polynomial, {2, 5, 6}, 0.5).s, 0.4609375, 1e-14);
}

TEST_CASE("a parabolic law's acceleration changes its sign in the middle, and each piece has its own there") {
    CHECK(law_joints(LawKind::parabolic) == std::vector<double>{0.5});
    CHECK(law_value(LawKind::parabolic, {}, 0.5).dds == 4.0);
    CHECK(law_value(LawKind::parabolic, {}, 0.5 + 1e-12).dds == -4.0);
    const SolvedLobe lobe =
        basalt::solved(basalt::law(LawKind::parabolic, 25.0, 4.0, 60.0, 60.0), basalt::endless_flat());
    const double beta = pi / 3.0;
    CHECK_NEAR(lobe.motion.at(basalt::cam_degrees(-30.0)).acceleration, -16.0 / (beta * beta), 1e-9);
    CHECK_NEAR(lobe.motion.at(basalt::cam_degrees(-30.0 - 1e-9)).acceleration, 16.0 / (beta * beta), 1e-9);
}
