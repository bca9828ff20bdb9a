#include "base/text/angle_text.h"

#include "catch.h"

using namespace lobewright;

TEST_CASE("degrees have no needless zeros") {
    CHECK(short_degrees(12.5) == "12.5");
    CHECK(short_degrees(12.3456) == "12.346");
    CHECK(short_degrees(12.3456, 1) == "12.3");
}

TEST_CASE("degrees and minutes carry, and keep their sign") {
    CHECK(degrees_and_minutes(12.5, 0) == "12° 30'");
    CHECK(degrees_and_minutes(12.99999, 0) == "13° 0'");
    CHECK(degrees_and_minutes(-0.5, 1) == "-0° 30.0'");
    CHECK(degrees_and_minutes(-0.0001, 0) == "0° 0'");
}

TEST_CASE("a direction is told within one turn") {
    CHECK_NEAR(full_circle_degrees(ShaftAngle::from_degrees(-90)), 270, 1e-12);
    CHECK_NEAR(full_circle_degrees(ShaftAngle::from_degrees(360 - 1e-12)), 0, 0);
}

TEST_CASE("a count's word follows the count") {
    CHECK(counted(1, "cut") == "1 cut");
    CHECK(counted(0, "cut") == "0 cuts");
    CHECK(counted(2, "pass", "passes") == "2 passes");
    CHECK(counted(1, "pass", "passes") == "1 pass");
}

TEST_CASE("the ways round have their words") {
    CHECK(sense_words(Sense::ccw) == "counter-clockwise");
    CHECK(sense_words(Sense::cw) == "clockwise");
}
