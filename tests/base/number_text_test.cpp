#include "catch.h"

#include <lobewright/number_text.h>

#include <limits>
#include <stdexcept>

using namespace lobewright;

TEST_CASE("a number prints with its decimals, without exponent and without a negative zero") {
    CHECK(fixed(1.0 / 3.0, 4) == "0.3333");
    CHECK(fixed(-0.00001, 4) == "0.0000");
    CHECK(fixed(-0.00005001, 4) == "-0.0001");
    CHECK(fixed(1e-12, 9) == "0.000000000");
    CHECK(fixed(1e21, 0) == "1000000000000000000000");
    CHECK(shortest_fixed(12.0, 9) == "12");
    CHECK(shortest_fixed(0.5, 9) == "0.5");
    CHECK(shortest_fixed(-1e-12, 9) == "0");
    CHECK(shortest_fixed(100.0, 0) == "100");
}

TEST_CASE("to print a number that is none is a bug, and stops") {
    for (const double none :
         {std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity(),
          std::numeric_limits<double>::quiet_NaN()}) {
        CHECK_THROWS_AS(fixed(none, 3), std::logic_error);
        CHECK_THROWS_AS(shortest_fixed(none, 9), std::logic_error);
    }
}

TEST_CASE("steps of a grid print exactly") {
    CHECK(digits(-12345, 4) == "-1.2345");
    CHECK(digits(-5, 4) == "-0.0005");
    CHECK(digits(0, 3) == "0.000");
    CHECK(digits(7, 0) == "7");
    CHECK(digits(-9223372036854775807LL - 1, 3) == "-9223372036854775.808");
}

TEST_CASE("only a whole plain decimal number is one") {
    CHECK(parse_decimal("+1.5") == 1.5);
    CHECK(parse_decimal("-.5") == -0.5);
    for (const char* wrong : {"", "+", "1e5", "inf", "nan", "1,5", " 1", "1 ", "+-1", "--1", "0x10"}) {
        INFO(wrong);
        CHECK_FALSE(parse_decimal(wrong).has_value());
    }
}
