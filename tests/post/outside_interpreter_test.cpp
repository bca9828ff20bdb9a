#include "outside_interpreter.h"

#include "catch.h"

TEST_CASE("the outside interpreter's moves come with their places and times", "[outside]") {
    if (!outside::installed()) return outside::say_skipped();
    const outside::Reading reading = outside::interpret(
        "G18 G21 G90 G94\nT1 M6\nS100 M3\nG93\nG0 X10 Z5 A-20\nN70 G1 X12 A-30 F60\nG1 A-400 F4\nG94\nG1 X13 "
        "F100\nG4 P1.5\nM30\n");
    INFO(reading.error);
    REQUIRE(reading.accepted());
    REQUIRE(reading.moves.size() == 5);
    CHECK(reading.moves[0].kind == outside::Kind::rapid);
    CHECK(reading.moves[1].line_number == "70");
    CHECK_NEAR(reading.moves[1].at[0], 12.0, 1e-9);
    CHECK_NEAR(reading.moves[1].at[3], -30.0, 1e-9);
    CHECK_NEAR(reading.moves[1].seconds, 1.0, 1e-3);
    CHECK_NEAR(reading.moves[2].at[3], -400.0, 1e-9);
    CHECK_NEAR(reading.moves[2].seconds, 15.0, 1e-3);
    CHECK_NEAR(reading.moves[3].seconds, 0.6, 1e-3);
    CHECK_NEAR(reading.moves[4].seconds, 1.5, 1e-9);
}

TEST_CASE("the outside interpreter refuses inverse time without F", "[outside]") {
    if (!outside::installed()) return outside::say_skipped();
    const outside::Reading reading = outside::interpret("G21 G90 G93\nG1 X1\nM2\n");
    CHECK_FALSE(reading.accepted());
    CHECK_THAT(reading.error, ContainsSubstring("F word missing"));
}
