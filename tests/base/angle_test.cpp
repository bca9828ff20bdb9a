#include "catch.h"

#include <lobewright/angle.h>

using namespace lobewright;

TEST_CASE("a direction has one spelling, from -180 (left out) to 180 degrees") {
    CHECK_NEAR(wrapped(ShaftAngle::from_degrees(540.0)).degrees(), 180.0, 1e-12);
    CHECK_NEAR(wrapped(ShaftAngle::from_degrees(-180.0)).degrees(), 180.0, 1e-12);
    CHECK_NEAR(wrapped(ShaftAngle::from_degrees(-179.5)).degrees(), -179.5, 1e-12);
    CHECK_NEAR(wrapped(ShaftAngle::from_degrees(725.0)).degrees(), 5.0, 1e-12);
}
