#include "base/taylor.h"

#include "catch.h"

#include <array>
#include <random>

using namespace lobewright;

namespace {

using Series = Taylor<double, 5>;

/// The coefficients of the series against these derivatives.
void check_derivatives(const Series& series, const std::array<double, 6>& wanted) {
    double factorial = 1.0;
    for (std::size_t k = 0; k < wanted.size(); ++k) {
        if (k > 0) factorial *= static_cast<double>(k);
        INFO("derivative " << k);
        CHECK_NEAR(series.c[k] * factorial, wanted[k], 1e-12 * (1.0 + std::abs(wanted[k])));
    }
}

}  // namespace

TEST_CASE("a series has the derivatives of its formula") {
    const double x = 0.7;
    const Series v = Series::variable(x);
    const double s = std::sin(2 * x), c = std::cos(2 * x);
    check_derivatives(sine_and_cosine(2.0 * v).first, {s, 2 * c, -4 * s, -8 * c, 16 * s, 32 * c});
    check_derivatives(sine_and_cosine(2.0 * v).second, {c, -2 * s, -4 * c, 8 * s, 16 * c, -32 * s});
    check_derivatives(whole_power(v, 4), {x * x * x * x, 4 * x * x * x, 12 * x * x, 24 * x, 24, 0});
    const double r = 1 / x;
    check_derivatives(
        1.0 / v, {r, -r * r, 2 * r * r * r, -6 * std::pow(r, 4), 24 * std::pow(r, 5), -120 * std::pow(r, 6)});
    const double q = std::sqrt(x);
    check_derivatives(sqrt(v), {q, 0.5 / q, -0.25 / std::pow(q, 3), 0.375 / std::pow(q, 5),
                                -0.9375 / std::pow(q, 7), 3.28125 / std::pow(q, 9)});
}

TEST_CASE("an inverse function's series undoes the function's") {
    const double x = 0.7;
    const Series v = Series::variable(x);
    const auto [sine, cosine] = sine_and_cosine(v);
    check_derivatives(arccosine(cosine), {x, 1, 0, 0, 0, 0});
    check_derivatives(direction(cosine, sine), {x, 1, 0, 0, 0, 0});
    check_derivatives(direction(3.0 * v * cosine, 3.0 * v * sine), {x, 1, 0, 0, 0, 0});
    check_derivatives(near_zero(v + 4.0 * std::numbers::pi), {x, 1, 0, 0, 0, 0});
}

TEST_CASE("a series over an interval holds the series at every number in it") {
    using Bounds = Taylor<Interval, 5>;
    const auto formula = [](const auto& x) {
        const auto [sine, cosine] = sine_and_cosine(x);
        return arccosine(0.5 * cosine) * sqrt(2.0 + whole_power(x, 3)) / (3.0 + sine);
    };
    std::mt19937 random(20261129);
    INFO("seed 20261129");
    const auto between = [&random](double low, double high) {
        return low + (high - low) * static_cast<double>(random()) / 4294967295.0;
    };
    for (int i = 0; i < 2000; ++i) {
        const double low = between(0.0, 2.0), high = low + between(0.0, 0.1), x = between(low, high);
        const Bounds bounds = formula(Bounds::variable({low, high}));
        const Series at = formula(Series::variable(x));
        for (std::size_t k = 0; k < at.c.size(); ++k) {
            CHECK(bounds.c[k].low <= at.c[k] + 1e-12);
            CHECK(at.c[k] <= bounds.c[k].high + 1e-12);
        }
    }
}
