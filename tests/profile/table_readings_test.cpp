#include "profile/readings/table_readings.h"

#include "made_readings.h"

#include <algorithm>

using namespace lift_table;

namespace {

/// The one complaint about a table that is refused for one cause.
Diagnostic only_complaint(const TableProfile& table, const std::string& code, int line) {
    const auto fit = fit_table(table, full_turn, Units::mm);
    const Diagnostic first = complaint(table, code, line);
    CHECK(told_once(fit.diagnostics()).size() == 1);
    return first;
}

void move_all(TableProfile& table, double by) {
    for (Reading& r : table.readings)
        r.lift += by;
}

/// What a remedy says with its key `dial_zero`, done as the job's reader does it.
void take_off(TableProfile& table, double dial_zero) {
    move_all(table, -dial_zero);
    table.dial_zero = dial_zero;
}

}  // namespace

TEST_CASE("a dial whose zero is high or low is told with the figure, and the key that is named cures it") {
    const double zero = GENERATE(0.01, 0.02, 0.03, 0.05, -0.03, 0.5);
    const bool noisy = GENERATE(false, true);
    const bool whole_turn = GENERATE(true, false);
    CAPTURE(zero, noisy, whole_turn);
    TableProfile table = table_of(Event{}, whole_turn ? -180 : -90, whole_turn ? 179 : 95);
    if (noisy) add_noise(table, 0.002, 4), table.smoothing = 0.0025;
    move_all(table, zero);
    const auto refused = fit_table(table, full_turn, Units::mm);
    REQUIRE_FALSE(refused.ok());
    REQUIRE(refused.diagnostics().size() == 1);
    const Diagnostic told = refused.diagnostics().front();
    CHECK(told.code == "table-dial-zero");
    CHECK(told.place.line >= 2);
    CHECK_NEAR(named(told, "dial_zero"), zero, noisy ? 5e-4 : 1e-9);
    take_off(table, named(told, "dial_zero"));
    CHECK_NEAR(fitted(table).lift, 8.0, noisy ? 0.003 : 1e-4);
}

TEST_CASE("a dial's zero between two of its steps is told in half steps") {
    TableProfile table = table_of(Event{}, -180, 179);
    move_all(table, 0.0349);
    add_noise(table, 0.001, 9);
    round_lifts(table, 0.01);  // the base circle reads 0.03 and 0.04
    const Diagnostic told = only_complaint(table, "table-dial-zero", 246);  // where the lift ends
    CHECK(named(told, "dial_zero") == 0.035);
    take_off(table, 0.035);
    CHECK_NEAR(fitted(table).lift, 8.0, 0.005);
}

TEST_CASE("the base circle's own scatter is told with the smoothing that evens it out") {
    const double noise = GENERATE(0.002, 0.01);
    const double smoothing = GENERATE(0.0, 0.0005);
    const double zero = GENERATE(0.0, 0.05);
    CAPTURE(noise, smoothing, zero);
    TableProfile table = table_of(Event{});
    add_noise(table, noise, 6);
    move_all(table, zero);
    if (smoothing > 0.0) table.smoothing = smoothing;
    const auto refused = fit_table(table, full_turn, Units::mm);
    REQUIRE_FALSE(refused.ok());
    REQUIRE(refused.diagnostics().size() == 1);
    const Diagnostic told = refused.diagnostics().front();
    CHECK(told.code == "table-heel-scatter");
    table.smoothing = named(told, "smoothing");
    CHECK_NEAR(*table.smoothing, noise, 0.1 * noise);
    if (zero > 0.0) take_off(table, named(told, "dial_zero"));
    CHECK(fitted(table).moved <= *table.smoothing + 1e-9);
}

TEST_CASE("a reading that stands up from the base circle is told with the smoothing that evens it out") {
    TableProfile table = table_of(Event{});
    table.readings[20].lift = 0.003;
    table.readings[300].lift = 0.002;
    const Diagnostic told = only_complaint(table, "table-heel-scatter", 22);
    CHECK_THAT(told.what, ContainsSubstring("0.003 mm"));
    table.smoothing = named(told, "smoothing");
    CHECK(fitted(table).moved <= *table.smoothing + 1e-9);
}

TEST_CASE(
    "on a dial's scale a flicker of one step on the base circle is its rounding, of two steps scatter") {
    TableProfile table = table_of(Event{});
    round_lifts(table, 0.01);
    for (const std::size_t i : {3u, 4u, 9u, 27u, 28u, 30u, 333u})
        table.readings[i].lift = i % 2 == 0 ? 0.01 : -0.01;
    CHECK(fitted(table).moved <= 0.01 + 1e-9);
    table.readings[20].lift = 0.02;
    CHECK(named(only_complaint(table, "table-heel-scatter", 22), "smoothing") == 0.02);
}

TEST_CASE("a hole in the readings is told with its ends") {
    const auto without = [](double from, double to) {
        TableProfile table = table_of(Event{});
        std::erase_if(table.readings, [&](const Reading& r) {
            return r.cam_angle.degrees() > from + 0.5 && r.cam_angle.degrees() < to - 0.5;
        });
        return table;
    };
    struct Hole {
        double from, to;
        const char* told;
    };
    // On a flank, over the foot of one, over the nose.
    for (const Hole hole : {Hole{-40, -20, "from cam angle -40 to -20: 20 degrees"},
                            Hole{-75, -50, "from cam angle -75 to -50: 25 degrees"},
                            Hole{-5, 15, "from cam angle -5 to 15: 20 degrees"}}) {
        CAPTURE(hole.told);
        const int line = static_cast<int>(hole.to) + 180 + 2;
        CHECK_THAT(only_complaint(without(hole.from, hole.to), "table-readings-missing", line).what,
                   ContainsSubstring(hole.told));
    }
    CHECK(fit_table(without(80, 150), full_turn, Units::mm).ok());  // on the base circle none is missed

    TableProfile part = without(-40, -20);
    std::erase_if(part.readings, [](const Reading& r) { return std::abs(r.cam_angle.degrees()) > 90.5; });
    only_complaint(part, "table-readings-missing", 162);
}

TEST_CASE("readings closer where the lift bends and wider elsewhere are no holes") {
    TableProfile table;
    const Event event{Law::polynomial_4567};
    for (double degrees = -90; degrees <= 90;) {
        table.readings.push_back({CamAngle::from_degrees(degrees), event.at(degrees).lift, Place{"t", 2, 1}});
        degrees += std::abs(degrees) > 40 ? 0.5 : std::abs(degrees) > 12 ? 1 : 4;
    }
    CHECK(fit_table(table, full_turn, Units::mm).ok());
}

TEST_CASE("tables that are no lobe's are refused, each with one complaint at its line") {
    const auto cut = [](std::size_t count) {
        TableProfile table = table_of(Event{});
        table.readings.resize(count);
        return table;
    };
    only_complaint(cut(1), "table-too-short", 2);
    only_complaint(cut(2), "table-too-short", 3);
    for (const double lift : {0.0, 3.0, -2.0}) {
        TableProfile level = table_of([lift](double) { return lift; }, -180, 179, 1);
        CHECK_THAT(only_complaint(level, "table-no-lift", 2).what,
                   ContainsSubstring("all 360 readings are " + std::to_string(static_cast<int>(lift))));
    }
    only_complaint(table_of([](double d) { return Event{}.at(d < 360 ? d : d - 360).lift; }, -180, 539, 1),
                   "table-too-long", 721);
    TableProfile doubled = table_of(Event{});
    for (Reading r : table_of(Event{}).readings) {
        r.place.line += 360;
        doubled.readings.push_back(r);
    }
    only_complaint(doubled, "table-angle-repeated", 362);
    TableProfile backwards = table_of(Event{});  // a dial that counts down
    for (Reading& r : backwards.readings)
        r.lift = -r.lift;
    CHECK_FALSE(fit_table(backwards, full_turn, Units::mm).ok());
}

TEST_CASE("readings of any kind are judged in a bounded time") {
    // Noise, steps, flat tops, huge and tiny lifts: a refusal or a fit, and always an end.
    for (unsigned seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        std::mt19937 random(seed);
        const auto even = [&random] { return known_law::even(random); };
        const double size = std::pow(10.0, 3.0 * even());
        const auto kind = random() % 5;
        TableProfile table = table_of(
            [&](double degrees) {
                if (kind == 0) return size * even();
                if (kind == 1) return degrees > 20 * even() ? size : 0.0;
                if (kind == 2) return size;
                if (kind == 3) return size * std::cos(degrees * per_degree * (1.0 + double(random() % 2)));
                return std::max(0.0, Event{}.at(degrees).lift + size * 0.01 * even());
            },
            -180, 179, 2);
        if (random() % 2 == 0) table.smoothing = size * std::pow(10.0, -3.0 + 2.0 * even());
        const auto fit = fit_table(table, full_turn, Units::mm);
        CHECK(fit.ok() == fit.diagnostics().empty());
    }
}
