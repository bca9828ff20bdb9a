#include "profile/spline/banded_least_squares.h"

#include "catch.h"
#include "known_law.h"

using lobewright::profile::BandedLeastSquares;
using lobewright::profile::InverseBand;
using Matrix = std::vector<std::vector<double>>;

namespace {

/// Dense Gaussian elimination with pivots, the tests' own.
std::vector<double> solved(Matrix a, std::vector<double> b) {
    const std::size_t n = b.size();
    for (std::size_t i = 0; i < n; ++i) {
        std::size_t pivot = i;
        for (std::size_t r = i; r < n; ++r) {
            if (std::abs(a[r][i]) > std::abs(a[pivot][i])) pivot = r;
        }
        std::swap(a[i], a[pivot]);
        std::swap(b[i], b[pivot]);
        for (std::size_t r = i + 1; r < n; ++r) {
            const double f = a[r][i] / a[i][i];
            for (std::size_t c = i; c < n; ++c)
                a[r][c] -= f * a[i][c];
            b[r] -= f * b[i];
        }
    }
    for (std::size_t i = n; i-- > 0;) {
        for (std::size_t c = i + 1; c < n; ++c)
            b[i] -= a[i][c] * b[c];
        b[i] /= a[i][i];
    }
    return b;
}

struct Equation {
    std::size_t first;
    std::vector<double> coefficients;
    double value;
};

std::vector<Equation> random_equations(std::size_t unknowns, std::size_t band, BandedLeastSquares::Ends ends,
                                       unsigned seed) {
    std::mt19937 random(seed);
    const auto number = [&random] { return known_law::even(random); };
    const bool ring = ends == BandedLeastSquares::Ends::ring;
    std::vector<Equation> equations;
    for (std::size_t i = 0; i < 4 * unknowns; ++i) {
        const std::size_t first = i % (ring ? unknowns : unknowns - band + 1);
        Equation e{first, {}, number()};
        for (std::size_t k = 0; k < band; ++k)
            e.coefficients.push_back(number());
        equations.push_back(std::move(e));
    }
    return equations;
}

}  // namespace

TEST_CASE("banded least squares agrees with the dense normal equations, open and round a ring") {
    const auto ends = GENERATE(BandedLeastSquares::Ends::open, BandedLeastSquares::Ends::ring);
    const unsigned seed = GENERATE(1u, 2u, 3u);
    CAPTURE(static_cast<int>(ends), seed);
    constexpr std::size_t unknowns = 17, band = 4;
    const auto equations = random_equations(unknowns, band, ends, seed);
    BandedLeastSquares system(unknowns, band, ends);
    Matrix normal(unknowns, std::vector<double>(unknowns));
    std::vector<double> right(unknowns);
    for (const Equation& e : equations) {
        system.add(e.first, e.coefficients, e.value);
        for (std::size_t i = 0; i < band; ++i) {
            const std::size_t row = (e.first + i) % unknowns;
            right[row] += e.coefficients[i] * e.value;
            for (std::size_t j = 0; j < band; ++j) {
                normal[row][(e.first + j) % unknowns] += e.coefficients[i] * e.coefficients[j];
            }
        }
    }
    const auto x = system.solve();
    const auto wanted = solved(normal, right);
    for (std::size_t i = 0; i < unknowns; ++i)
        CHECK_NEAR(x[i], wanted[i], 1e-12);

    // The leverages of all equations sum to the number of unknowns.
    const InverseBand inverse(system);
    double sum = 0;
    for (const Equation& e : equations)
        sum += inverse.leverage(e.first, e.coefficients);
    CHECK_NEAR(sum, static_cast<double>(unknowns), 1e-9);
    CHECK_NEAR(system.freedoms_in(inverse), static_cast<double>(unknowns), 1e-9);
}

TEST_CASE("an equation's leverage is how far the fit follows it") {
    constexpr std::size_t unknowns = 9, band = 3;
    auto equations = random_equations(unknowns, band, BandedLeastSquares::Ends::open, 5);
    const auto fitted_value = [&](const Equation& of) {
        BandedLeastSquares system(unknowns, band, BandedLeastSquares::Ends::open);
        for (const Equation& e : equations)
            system.add(e.first, e.coefficients, e.value);
        const auto x = system.solve();
        double value = 0;
        for (std::size_t i = 0; i < band; ++i)
            value += of.coefficients[i] * x[of.first + i];
        return value;
    };
    BandedLeastSquares system(unknowns, band, BandedLeastSquares::Ends::open);
    for (const Equation& e : equations)
        system.add(e.first, e.coefficients, e.value);
    const double leverage = InverseBand(system).leverage(equations[10].first, equations[10].coefficients);
    const double before = fitted_value(equations[10]);
    equations[10].value += 1.0;
    CHECK_NEAR(fitted_value(equations[10]) - before, leverage, 1e-12);
}

TEST_CASE("sets of equations combine as if they had been added one by one with their weights") {
    const auto ends = GENERATE(BandedLeastSquares::Ends::open, BandedLeastSquares::Ends::ring);
    CAPTURE(static_cast<int>(ends));
    constexpr std::size_t unknowns = 17, band = 4;
    constexpr double weight = 0.3;
    const auto first = random_equations(unknowns, band, ends, 8);
    const auto second = random_equations(unknowns, band, ends, 9);
    BandedLeastSquares a(unknowns, band, ends), b = a, all = a;
    for (const Equation& e : first)
        a.add(e.first, e.coefficients, e.value), all.add(e.first, e.coefficients, e.value);
    for (Equation e : second) {
        b.add(e.first, e.coefficients, e.value);
        for (double& c : e.coefficients)
            c *= std::sqrt(weight);
        all.add(e.first, e.coefficients, std::sqrt(weight) * e.value);
    }
    const BandedLeastSquares::Part parts[] = {{&a, 1.0}, {&b, weight}};
    const auto combined = BandedLeastSquares::combined(parts);
    const auto x = combined.solve(), wanted = all.solve();
    for (std::size_t i = 0; i < unknowns; ++i)
        CHECK_NEAR(x[i], wanted[i], 1e-12);

    double squares = 0;
    for (const Equation& e : first) {
        double off = -e.value;
        for (std::size_t i = 0; i < band; ++i)
            off += e.coefficients[i] * x[(e.first + i) % unknowns];
        squares += off * off;
    }
    CHECK_NEAR(a.squares_at(x), squares, 1e-11);
    const InverseBand inverse(combined);
    CHECK_NEAR(a.freedoms_in(inverse) + weight * b.freedoms_in(inverse), static_cast<double>(unknowns), 1e-9);
}

TEST_CASE("the work of banded least squares grows with the number of equations in order, and no faster") {
    const auto ends = GENERATE(BandedLeastSquares::Ends::open, BandedLeastSquares::Ends::ring);
    CAPTURE(static_cast<int>(ends));
    constexpr std::size_t band = 6, border = band - 1;
    const auto rotations = [ends](std::size_t unknowns) {
        const std::vector<double> ones{1, 2, 3, 4, 5, 6};
        BandedLeastSquares system(unknowns, band, ends);
        for (std::size_t i = 0; i + band <= unknowns; ++i)
            system.add(i, ones, 1.0);
        const BandedLeastSquares::Part parts[] = {{&system, 1.0}, {&system, 2.0}, {&system, 3.0}};
        return static_cast<double>(system.rotations() + BandedLeastSquares::combined(parts).rotations());
    };
    CHECK(rotations(40'000) < 4.1 * rotations(10'000));
    CHECK(rotations(40'000) <= 4 * 40'000 * (band + border));
}
