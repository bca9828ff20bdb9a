#include "base/interval_arithmetic.h"
#include "catch.h"

#include <random>

using namespace lobewright;

namespace {

class Source {
  public:
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_()) / 4294967295.0;
    }
    Interval interval(double low, double high) {
        const double a = between(low, high), b = between(low, high);
        return {std::min(a, b), std::max(a, b)};
    }
    double in(const Interval& a) { return between(a.low, a.high); }

  private:
    std::mt19937 engine_{20261128};
};

/// But for rounding.
bool holds(const Interval& bounds, double value) {
    const double rounding = 1e-14 * (1.0 + std::abs(value));
    return bounds.low - rounding <= value && value <= bounds.high + rounding;
}

}  // namespace

TEST_CASE("what numbers of two intervals make lies in what the intervals make") {
    INFO("seed 20261128");
    Source random;
    for (int i = 0; i < 20000; ++i) {
        const Interval a = random.interval(-4.0, 4.0), b = random.interval(-4.0, 4.0);
        const double x = random.in(a), y = random.in(b);
        CHECK(holds(a + b, x + y));
        CHECK(holds(a - b, x - y));
        CHECK(holds(a * b, x * y));
        if (std::abs(y) > 1e-3) CHECK(holds(a / b, x / y));
        CHECK(holds(square(a), x * x));
        if (x >= 0.0) CHECK(holds(sqrt(a), std::sqrt(x)));
        if (std::abs(x) <= 1.0) CHECK(holds(arccosine(a), std::acos(x)));
        const SineCosine both = sine_cosine(10.0 * a);
        CHECK(holds(both.sine, std::sin(10.0 * x)));
        CHECK(holds(both.cosine, std::cos(10.0 * x)));
        const Interval angle = direction(a, b);
        const double turn = std::atan2(y, x);
        CHECK((holds(angle, turn) || holds(angle, turn + 2.0 * std::numbers::pi) ||
               holds(angle, turn - 2.0 * std::numbers::pi)));
    }
}

TEST_CASE("an interval's ends are reached: no wider than the numbers make it") {
    CHECK((Interval{-2.0, 3.0} * Interval{-5.0, 1.0}).low == -15.0);
    CHECK((Interval{-2.0, 3.0} * Interval{-5.0, 1.0}).high == 10.0);
    CHECK(square(Interval{-2.0, 1.0}).low == 0.0);
    CHECK(square(Interval{-2.0, 1.0}).high == 4.0);
    const SineCosine over_the_crest = sine_cosine({1.0, 2.0});
    CHECK(over_the_crest.sine.high == 1.0);
    CHECK_NEAR(over_the_crest.sine.low, std::sin(1.0), 1e-15);
    CHECK_NEAR(over_the_crest.cosine.high, std::cos(1.0), 1e-15);
    CHECK_NEAR(over_the_crest.cosine.low, std::cos(2.0), 1e-15);
    CHECK_NEAR(direction(Interval{-1.0, -1.0}, Interval{-0.1, 0.1}).width(), 2.0 * std::atan(0.1), 1e-15);
}

TEST_CASE("of what an interval can't do nothing is known") {
    CHECK_FALSE(is_bounded(Interval{1.0, 2.0} / Interval{-1.0, 1.0}));
    CHECK_FALSE(is_bounded(sqrt(Interval{-1.0, 1.0})));
    CHECK_FALSE(is_bounded(arccosine(Interval{0.0, 1.5})));
    CHECK_FALSE(is_bounded(direction(Interval{-1.0, 1.0}, Interval{-1.0, 1.0})));
    CHECK_FALSE(is_bounded(any_number * Interval{0.0, 1.0}));
    CHECK((0.0 * any_number).high == 0.0);
}
