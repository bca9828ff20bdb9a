// Against elementary_table.txt: arguments, the result of 700 digits rounded to the nearest double, and how
// far the exact one lies from that, in units of its last place. The table's head says how it was made.

#include "base/elementary/elementary.h"

#include "catch.h"
#include "program.h"

#include <lobewright/plane.h>

#include <bit>
#include <charconv>
#include <cstdint>
#include <fstream>
#include <limits>
#include <map>
#include <sstream>
#include <vector>

using namespace lobewright;

namespace {

struct Entry {
    std::string function;
    std::vector<double> arguments;
    double rounded = 0.0;
    double off = 0.0;
};

double number(const std::string& word) {
    const bool negative = word.front() == '-', hexadecimal = word.find("0x") != std::string::npos;
    const std::string digits = word.substr((negative ? 1 : 0) + (hexadecimal ? 2 : 0));
    double value = 0.0;
    const auto result = std::from_chars(digits.data(), digits.data() + digits.size(), value,
                                        hexadecimal ? std::chars_format::hex : std::chars_format::fixed);
    REQUIRE(result.ptr == digits.data() + digits.size());
    return negative ? -value : value;
}

std::vector<Entry> table() {
    std::ifstream file(source_folder() / "tests/base/elementary_table.txt");
    std::vector<Entry> entries;
    for (std::string line; std::getline(file, line);) {
        if (line.starts_with('#')) continue;
        std::istringstream words(line);
        Entry entry;
        words >> entry.function;
        std::vector<double> numbers;
        for (std::string word; words >> word;)
            numbers.push_back(number(word));
        REQUIRE(numbers.size() >= 3);
        entry.off = numbers.back(), numbers.pop_back();
        entry.rounded = numbers.back(), numbers.pop_back();
        entry.arguments = std::move(numbers);
        entries.push_back(std::move(entry));
    }
    return entries;
}

double value_of(const Entry& entry) {
    const double x = entry.arguments.front();
    if (entry.function == "sin") return elementary::sin(x);
    if (entry.function == "cos") return elementary::cos(x);
    if (entry.function == "tan") return elementary::tan(x);
    if (entry.function == "atan") return elementary::atan(x);
    if (entry.function == "asin") return elementary::asin(x);
    if (entry.function == "acos") return elementary::acos(x);
    REQUIRE(entry.function == "atan2");
    return elementary::atan2(x, entry.arguments.back());
}

/// Doubles in their order, one apart where they are neighbours.
std::int64_t place(double x) {
    const auto bits = std::bit_cast<std::int64_t>(x);
    return bits < 0 ? std::numeric_limits<std::int64_t>::min() - bits : bits;
}

/// Units in the last place of the result by which `value` misses.
double error_of(double value, const Entry& entry) {
    const double steps = static_cast<double>(place(value) - place(entry.rounded));
    return std::abs(steps - entry.off);
}

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double pi = 0x1.921fb54442d18p+1;

bool same_bits(double a, double b) {
    return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b);
}

/// The same numbers everywhere, which the standard library's distributions are not.
class Numbers {
  public:
    double between(double low, double high) {
        state_ = state_ * 6364136223846793005U + 1442695040888963407U;
        return low + (high - low) * (static_cast<double>(state_ >> 11) * 0x1p-53);
    }

  private:
    std::uint64_t state_ = 1;
};

/// FNV-1a of bits.
class Digest {
  public:
    void add(double value) {
        auto bits = std::bit_cast<std::uint64_t>(value);
        for (int i = 0; i < 8; ++i, bits >>= 8)
            digest_ = (digest_ ^ (bits & 0xff)) * 0x100000001b3U;
    }
    [[nodiscard]] std::uint64_t value() const { return digest_; }

  private:
    std::uint64_t digest_ = 0xcbf29ce484222325U;
};

}  // namespace

TEST_CASE("sine, arctangent and their kin miss by less than one unit in the last place") {
    const auto entries = table();
    CHECK(entries.size() > 5000);
    std::map<std::string, double> worst;
    for (const Entry& entry : entries) {
        const double value = value_of(entry), error = error_of(value, entry);
        double& so_far = worst[entry.function];
        so_far = std::max(so_far, error);
        if (error < 0.85) continue;
        CAPTURE(entry.function, entry.arguments, value, entry.rounded, error);
        CHECK(error < 0.85);
    }
    CHECK(worst.size() == 7);
    for (const auto& [function, error] : worst) {
        CAPTURE(function, error);
        CHECK(error > 0.5);  // or the table is not hard enough
    }
}

TEST_CASE("sine and cosine of one angle are those of each alone, and a unit vector is made of them") {
    Numbers numbers;
    for (int i = 0; i < 20000; ++i) {
        const double x = numbers.between(-1.0, 1.0) * (i % 4 == 0 ? 1e9 : 10.0);
        const auto [sine, cosine] = elementary::sine_and_cosine(x);
        REQUIRE(same_bits(sine, elementary::sin(x)));
        REQUIRE(same_bits(cosine, elementary::cos(x)));
        REQUIRE(same_bits(unit(x).x, cosine));
        REQUIRE(same_bits(unit(x).y, sine));
    }
}

TEST_CASE("odd functions keep the sign of their argument, that of a zero too") {
    for (const double x : {0.0, 5e-324, 1e-310, 1e-9, 0.3, 0.5, 0.7, 1.0}) {
        CAPTURE(x);
        CHECK(same_bits(elementary::sin(-x), -elementary::sin(x)));
        CHECK(same_bits(elementary::tan(-x), -elementary::tan(x)));
        CHECK(same_bits(elementary::asin(-x), -elementary::asin(x)));
        CHECK(same_bits(elementary::atan(-x), -elementary::atan(x)));
        CHECK(same_bits(elementary::atan2(-x, -0.4), -elementary::atan2(x, -0.4)));
        CHECK(same_bits(elementary::cos(-x), elementary::cos(x)));
        CHECK_FALSE(std::signbit(elementary::sin(x)));
    }
}

TEST_CASE("the direction of zeros and of infinite points is the standard's") {
    CHECK(same_bits(elementary::atan2(0.0, 0.0), 0.0));
    CHECK(same_bits(elementary::atan2(-0.0, 0.0), -0.0));
    CHECK(same_bits(elementary::atan2(0.0, -0.0), pi));
    CHECK(same_bits(elementary::atan2(-0.0, -0.0), -pi));
    CHECK(same_bits(elementary::atan2(0.0, -1.0), pi));
    CHECK(same_bits(elementary::atan2(-0.0, -1.0), -pi));
    CHECK(same_bits(elementary::atan2(1.0, 0.0), 0.5 * pi));
    CHECK(same_bits(elementary::atan2(-1.0, -0.0), -0.5 * pi));
    CHECK(same_bits(elementary::atan2(infinity, infinity), 0.25 * pi));
    CHECK(same_bits(elementary::atan2(-infinity, -infinity), -0.75 * pi));
    CHECK(same_bits(elementary::atan2(infinity, 3.0), 0.5 * pi));
    CHECK(same_bits(elementary::atan2(3.0, -infinity), pi));
    CHECK(same_bits(elementary::atan2(-3.0, infinity), -0.0));
    CHECK(same_bits(elementary::atan(infinity), 0.5 * pi));
}

TEST_CASE("what has no value is not a number") {
    for (const double x : {not_a_number, infinity, -infinity}) {
        CHECK(std::isnan(elementary::sin(x)));
        CHECK(std::isnan(elementary::cos(x)));
        CHECK(std::isnan(elementary::tan(x)));
        CHECK(std::isnan(elementary::sine_and_cosine(x).cosine));
    }
    for (const double x : {not_a_number, 1.0000000000000002, -1.0000000000000002, infinity}) {
        CHECK(std::isnan(elementary::asin(x)));
        CHECK(std::isnan(elementary::acos(x)));
    }
    CHECK(std::isnan(elementary::atan(not_a_number)));
    CHECK(std::isnan(elementary::atan2(1.0, not_a_number)));
}

TEST_CASE("whole powers are products, those of ten exact to the 22nd") {
    CHECK(elementary::power(10.0, 22) == 1e22);
    CHECK(elementary::power(10.0, -9) == 1e-9);
    CHECK(elementary::power(10.0, 0) == 1.0);
    CHECK(elementary::power(-1.5, 3) == -3.375);
    CHECK(elementary::power(0.0, 0) == 1.0);
}

TEST_CASE("the decimal exponent is that of the number as it is written") {
    CHECK(elementary::decimal_exponent(1.0) == 0);
    CHECK(elementary::decimal_exponent(9.999999999999998) == 0);
    CHECK(elementary::decimal_exponent(10.0) == 1);
    CHECK(elementary::decimal_exponent(-123456.0) == 5);
    CHECK(elementary::decimal_exponent(5e-324) == -324);
    CHECK(elementary::decimal_exponent(1.7976931348623157e308) == 308);
    for (int n = -30; n <= 30; ++n)
        CHECK(elementary::decimal_exponent(std::stod("1e" + std::to_string(n))) == n);
}

TEST_CASE("the bits are the same on every machine") {
    // The digest is our own, taken once: any machine, compiler or degree of optimising that gives another
    // breaks the promise.
    Numbers numbers;
    Digest digest;
    for (int i = 0; i < 20000; ++i) {
        const double x = numbers.between(-30.0, 30.0), y = numbers.between(-1.0, 1.0);
        for (const double value :
             {elementary::sin(x), elementary::cos(x), elementary::tan(x), elementary::sin(x * 1e7),
              elementary::sin(x * 1e11), elementary::atan2(x, y), elementary::atan(x), elementary::asin(y),
              elementary::acos(y)})
            digest.add(value);
    }
    CHECK(digest.value() == 0x99cdafaf29fa629cU);
}
