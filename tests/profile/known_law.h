/// Lift laws written out in the tests' own words, independent of src/profile: rise over `opening`, return
/// over `closing`, base circle elsewhere. Angles in degrees, lift in mm, derivatives per radian.
#pragma once

#include <lobewright/motion.h>

#include <cmath>
#include <numbers>
#include <random>

namespace known_law {

/// Even in [-1, 1]; the same on every machine, which the library's own distributions are not.
inline double even(std::mt19937& random) {
    return 2.0 * static_cast<double>(random()) / 4294967295.0 - 1.0;
}

enum class Law { cycloidal, polynomial_345, polynomial_4567, power_2_10_18_26, simple_harmonic };

struct S {
    double s, ds, dds, ddds;
};

/// The handbooks' definitions (Norton, Design of Machinery; from memory), differentiated by hand.
inline S value(Law law, double x) {
    constexpr double pi = std::numbers::pi;
    using std::cos, std::pow, std::sin;
    switch (law) {
        case Law::cycloidal:
            return {x - sin(2 * pi * x) / (2 * pi), 1 - cos(2 * pi * x), 2 * pi * sin(2 * pi * x),
                    4 * pi * pi * cos(2 * pi * x)};
        case Law::polynomial_345:
            return {x * x * x * (10 - 15 * x + 6 * x * x), 30 * x * x * (1 - x) * (1 - x),
                    60 * x - 180 * x * x + 120 * x * x * x, 60 - 360 * x + 360 * x * x};
        case Law::polynomial_4567:
            return {pow(x, 4) * (35 - 84 * x + 70 * x * x - 20 * x * x * x), 140 * pow(x * (1 - x), 3),
                    420 * x * x - 1680 * pow(x, 3) + 2100 * pow(x, 4) - 840 * pow(x, 5),
                    840 * x - 5040 * x * x + 8400 * pow(x, 3) - 4200 * pow(x, 4)};
        case Law::power_2_10_18_26: {
            const double c[4] = {-195.0 / 128, 117.0 / 128, -65.0 / 128, 15.0 / 128};
            const int p[4] = {2, 10, 18, 26};
            const double u = 1 - x;
            S v{1, 0, 0, 0};
            for (int i = 0; i < 4; ++i) {
                v.s += c[i] * pow(u, p[i]);
                v.ds -= c[i] * p[i] * pow(u, p[i] - 1);
                v.dds += c[i] * p[i] * (p[i] - 1) * pow(u, p[i] - 2);
                if (p[i] > 2) v.ddds -= c[i] * p[i] * (p[i] - 1) * (p[i] - 2) * pow(u, p[i] - 3);
            }
            return v;
        }
        case Law::simple_harmonic:
            return {(1 - cos(pi * x)) / 2, pi / 2 * sin(pi * x), pi * pi / 2 * cos(pi * x),
                    -pi * pi * pi / 2 * sin(pi * x)};
    }
    return {};
}

struct Event {
    Law law = Law::cycloidal;
    double lift = 8.0;
    double opening = 64.0;
    double closing = 68.0;

    [[nodiscard]] lobewright::Lift at(double degrees) const {
        if (degrees <= -opening || degrees >= closing) return {};
        const bool rising = degrees <= 0.0;
        const double angle = (rising ? opening : closing) * std::numbers::pi / 180;
        const S v = value(law, rising ? 1 + degrees / opening : 1 - degrees / closing);
        const double way = rising ? 1.0 : -1.0;
        return {lift * v.s, way * lift * v.ds / angle, lift * v.dds / (angle * angle),
                way * lift * v.ddds / (angle * angle * angle)};
    }
};

}  // namespace known_law
