#include "profile/readings/reading_limits.h"

#include "made_readings.h"

using namespace lift_table;

TEST_CASE("the step that readings are rounded to is seen, in millimetres and in inches") {
    for (const double step : {0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001, 0.0001, 0.00001, 0.0254, 0.0127,
                              0.00254, 0.001 * 25.4 / 2, 0.00001 * 25.4}) {
        CAPTURE(step);
        TableProfile table = table_of(Event{});
        round_lifts(table, step);
        CHECK_NEAR(rounding_step(table.readings), step, 1e-12);
        for (Reading& r : table.readings)
            r.lift -= 0.0346;  // a zero between two steps
        CHECK_NEAR(rounding_step(table.readings), step, 1e-12);
    }
}

TEST_CASE("no step is seen where there is none, nor in a handful of lifts") {
    CHECK(rounding_step(table_of(Event{}).readings) == 0.0);
    CHECK(rounding_step(
              table_of([](double d) { return std::abs(d) < 30 ? 2.0 : 0.0; }, -60, 60, 1).readings) == 0.0);
    TableProfile one_off = table_of(Event{});
    round_lifts(one_off, 0.01);
    one_off.readings[200].lift += 0.0033;
    CHECK_NEAR(rounding_step(one_off.readings), 0.0001, 1e-12);
}

TEST_CASE("smoothing is a hard limit, and without it the step of the readings is") {
    TableProfile table = table_of(Event{});
    round_lifts(table, 0.01);
    CHECK_NEAR(reading_limits(table).limit, 0.01, 1e-12);
    CHECK_NEAR(reading_limits(table).step, 0.01, 1e-12);
    table.smoothing = 0.003;
    CHECK(reading_limits(table).limit == 0.003);
    table.smoothing = 0.0;
    CHECK(reading_limits(table).limit == table_resolution);
    CHECK(reading_limits(table_of(Event{})).limit == table_resolution);
}
