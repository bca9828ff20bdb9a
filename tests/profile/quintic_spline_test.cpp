#include "profile/spline/quintic_spline.h"

#include "catch.h"

#include <numeric>

using namespace lobewright;
using namespace lobewright::profile;

namespace {

const std::vector<double> knots{0.0, 0.4, 1.0, 1.1, 1.9, 2.5, 3.0, 3.2, 4.1, 4.6, 5.0, 5.5, 6.1, 6.4, 7.0};

}  // namespace

TEST_CASE("round a ring the B-splines sum to 1 and their derivatives to 0") {
    const QuinticBasis basis(knots, QuinticBasis::Ends::ring);
    CHECK(basis.size() == knots.size() - 1);
    for (double x = 0.0; x < 7.0; x += 0.13) {
        for (int order = 0; order <= 5; ++order) {
            const SplineRow row = basis.row(x, order);
            CHECK_NEAR(std::accumulate(row.coefficients.begin(), row.coefficients.end(), 0.0),
                       order == 0 ? 1.0 : 0.0, order < 3 ? 1e-12 : 1e-7);
        }
    }
}

TEST_CASE("a derivative's equation is the slope of the one before") {
    const QuinticBasis basis(knots, QuinticBasis::Ends::open);
    CHECK(basis.size() == knots.size() - 6);
    std::vector<double> coefficients(basis.size());
    for (std::size_t i = 0; i < coefficients.size(); ++i)
        coefficients[i] = std::sin(1.7 * static_cast<double>(i));
    const auto value = [&](double x, int order) {
        const SplineRow row = basis.row(x, order);
        double sum = 0;
        for (std::size_t i = 0; i < row.coefficients.size(); ++i)
            sum += row.coefficients[i] * coefficients[row.first + i];
        return sum;
    };
    // Central differences with h = 1e-4: their error is h²/6 of the third derivative, here below 1e-5.
    constexpr double h = 1e-4;
    for (double x = 0.05; x < 7.0; x += 0.1) {
        for (int order = 0; order < 4; ++order) {
            CHECK_NEAR(value(x, order + 1), (value(x + h, order) - value(x - h, order)) / (2 * h), 2e-5);
        }
    }
}

TEST_CASE("a spline is its basis times its coefficients, and 0 outside") {
    const QuinticBasis basis(knots, QuinticBasis::Ends::open);
    std::vector<double> coefficients(basis.size());
    for (std::size_t i = 0; i < coefficients.size(); ++i)
        coefficients[i] = std::cos(2.3 * static_cast<double>(i));
    const QuinticSpline spline(basis, coefficients);
    for (double x = 0.01; x < 7.0; x += 0.17) {
        const double wanted[4] = {spline.at(x).lift, spline.at(x).velocity, spline.at(x).acceleration,
                                  spline.at(x).jerk};
        for (int order = 0; order < 4; ++order) {
            const SplineRow row = basis.row(x, order);
            double sum = 0;
            for (std::size_t i = 0; i < row.coefficients.size(); ++i) {
                sum += row.coefficients[i] * coefficients[row.first + i];
            }
            CHECK_NEAR(wanted[order], sum, 1e-10);
        }
    }
    CHECK(spline.at(-0.1).lift == 0.0);
    CHECK(spline.at(7.1).jerk == 0.0);
}
