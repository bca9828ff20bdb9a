// Digits by whole numbers alone are those of the standard library's own conversions, where it has them.
#include "base/exact_decimal.h"

#include "catch.h"
#include "trials.h"

#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

using namespace lobewright;

namespace {

constexpr unsigned seed = 20261;

/// Doubles that are awkward by themselves, then such as figures of a job are, then any bits at all.
std::vector<double> doubles(int count) {
    const double lowest = std::numeric_limits<double>::denorm_min();
    std::vector<double> all{0.0,  -0.0,   0.1,     0.3,    1.0,       9.5,
                            0.5,  2.5,    1e15,    1e22,   1e23,      9.99e22,
                            5e-7, lowest, -lowest, 1e-310, 0x1p-1022, 0x1.fffffffffffffp1023};
    for (int power = -1074; power < 1024; power += 7) {
        const double two = std::ldexp(1.0, power);  // below a power of two the doubles stand closer
        all.insert(all.end(), {two, std::nextafter(two, 0.0), std::nextafter(two, 1e308)});
    }
    std::mt19937_64 engine(seed);
    for (int i = 0; i < count; ++i) {
        const double figure = std::bit_cast<double>(engine());
        if (std::isfinite(figure)) all.push_back(figure);
        all.push_back(static_cast<double>(engine() % 2'000'000'000) / 1e6 - 1000.0);
        all.push_back(std::ldexp(static_cast<double>(engine() >> 11), static_cast<int>(engine() % 80) - 70));
    }
    return all;
}

template <class... How>
std::string by_library(double value, How... how) {
    char text[2000];
    return {text, std::to_chars(std::begin(text), std::end(text), value, how...).ptr};
}

std::optional<double> read_by_library(const std::string& text) {
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

bool same(const std::optional<double>& a, const std::optional<double>& b) {
    if (!a || !b) return a.has_value() == b.has_value();
    return std::bit_cast<std::uint64_t>(*a) == std::bit_cast<std::uint64_t>(*b);
}

}  // namespace

TEST_CASE("the shortest digits of a double are the standard library's") {
    INFO("seed " << seed);
    for (const double value : doubles(trials(4000)))
        CHECK(scientific_text(value) == by_library(value, std::chars_format::scientific));
}

TEST_CASE("a double in fixed digits is rounded as the standard library does") {
    INFO("seed " << seed);
    for (const double value : doubles(trials(600)))
        for (const int decimals : {0, 1, 3, 9, 40}) {
            CAPTURE(value, decimals);
            CHECK(exactly_fixed(value, decimals) == by_library(value, std::chars_format::fixed, decimals));
        }
}

TEST_CASE("a decimal number is read as the nearest double, as the standard library does") {
    INFO("seed " << seed);
    std::mt19937_64 engine(seed);
    for (const double value : doubles(trials(600))) {
        std::string digits = scientific_text(value), exact = exactly_fixed(value, 1080);
        for (const std::string& text : {digits, exact, exact + "1", exactly_fixed(value, 20)}) {
            CAPTURE(text);
            CHECK(same(nearest_double(text), read_by_library(text)));
        }
        CHECK(same(nearest_double(digits), value));
        digits.insert(digits.find('e'), std::to_string(engine()));
        CAPTURE(digits);
        CHECK(same(nearest_double(digits), read_by_library(digits)));
    }
}

TEST_CASE("half way between two doubles the even one is read, and a hair beside it the nearer") {
    const std::string half = "9007199254740993";  // 2^53 + 1
    CHECK(nearest_double(half) == 9007199254740992.0);
    CHECK(nearest_double(half + ".00000000000000000000000000000001") == 9007199254740994.0);
    CHECK(nearest_double("9007199254740995") == 9007199254740996.0);
    CHECK(nearest_double("2.4703282292062327208e-324") == std::nullopt);  // less than half of the least
    CHECK(nearest_double("2.4703282292062328e-324") == std::numeric_limits<double>::denorm_min());
    CHECK(nearest_double("179769313486231580793e289") == std::nullopt);
    CHECK(nearest_double("17976931348623157e292") == std::numeric_limits<double>::max());
}

TEST_CASE("what is no number, or none that a double can be, is not read") {
    for (const char* text : {"",
                             "-",
                             ".",
                             "-.",
                             "e5",
                             ".e5",
                             "1e",
                             "1e+",
                             "1e5x",
                             "1.2.3",
                             "--1",
                             "+1",
                             " 1",
                             "1 ",
                             "0x1p3",
                             "inf",
                             "nan",
                             "1,5",
                             "1e400",
                             "1e-400",
                             "1e99999999999",
                             "-1e-99999999999"}) {
        CAPTURE(text);
        CHECK_FALSE(nearest_double(text).has_value());
        CHECK((read_by_library(text).has_value()
                   ? std::isinf(*read_by_library(text)) || std::isnan(*read_by_library(text))
                   : true));
    }
    for (const char* text : {"1.", ".5", "-.5", "00012", ".5e-2", "1E+5", "0e999999999999", "0.0", "-0"}) {
        CAPTURE(text);
        CHECK(same(nearest_double(text), read_by_library(text)));
    }
}
