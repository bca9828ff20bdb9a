#include "profile/spline/table_spline.h"

#include "catch.h"
#include "made_readings.h"

#include <algorithm>

using namespace lobewright;
using namespace lobewright::profile;
using known_law::Event;
using known_law::Law;
using namespace lift_table;

TEST_CASE("a table of a known law with noise of 2 µm comes back within 3 µm and without visible noise") {
    // The second differences of readings with ±2 µm, a degree apart, scatter by 2 µm x sqrt(6/3) = 2.8e-3
    // mm/deg²: some 20 % of these laws' largest acceleration. What is asserted is 2 %: no ripple of that size
    // can be seen in a plot, and most of it is the rounding of the laws' own steps in jerk. The total
    // variation of the acceleration counts every ripple, however small; the law's own is 4 sweeps of its
    // largest.
    const Law law =
        GENERATE(Law::cycloidal, Law::polynomial_345, Law::polynomial_4567, Law::power_2_10_18_26);
    const double smoothing = GENERATE(0.002, 0.003, 0.005);
    const unsigned seed = GENERATE(1u, 2u, 3u, 4u);
    CAPTURE(static_cast<int>(law), smoothing, seed);
    const Event event{law};
    TableProfile table = table_of(event);
    add_noise(table, 0.002, seed);
    table.smoothing = smoothing;
    const TableFit fit = fitted(table);
    CHECK(fit.moved <= smoothing);

    double worst_lift = 0, squares = 0, largest = 0, variation = 0, own_variation = 0;
    int count = 0;
    constexpr double step = 0.05;
    for (double degrees = -80; degrees <= 80; degrees += step, ++count) {
        const Lift got = lift_at(fit, degrees), law_lift = event.at(degrees);
        worst_lift = std::max(worst_lift, std::abs(got.lift - law_lift.lift));
        squares += std::pow(got.acceleration - law_lift.acceleration, 2);
        largest = std::max(largest, std::abs(law_lift.acceleration));
        variation += std::abs(got.jerk) * step * per_degree;
        own_variation += std::abs(law_lift.jerk) * step * per_degree;
    }
    CHECK(worst_lift <= 0.003);
    CHECK(std::sqrt(squares / count) <= 0.02 * largest);
    CHECK(variation <= 1.1 * own_variation);
}

TEST_CASE("smoothing 0 goes through every reading of an exact table") {
    const Law law = GENERATE(Law::cycloidal, Law::polynomial_345, Law::polynomial_4567, Law::simple_harmonic);
    CAPTURE(static_cast<int>(law));
    const Event event{law};
    const TableProfile table = table_of(event);
    const TableFit fit = fitted(table);
    for (const Reading& r : table.readings)
        CHECK_NEAR(lift_at(fit, r.cam_angle.degrees()).lift, r.lift, 1e-6);
    CHECK(fit.moved <= 1e-6);
    CHECK(fit.shift.radians() == 0.0);
    CHECK_NEAR(fit.lift, 8.0, 1e-4);
    // The base circle is left at most two readings before the law leaves it.
    CHECK(fit.opens.degrees() >= -66.0);
    CHECK(fit.opens.degrees() <= -64.0);
    CHECK(fit.closes.degrees() >= 68.0);
    CHECK(fit.closes.degrees() <= 70.0);
}

TEST_CASE("an exact table is hardly moved, however much smoothing may move it") {
    TableProfile table = table_of(Event{Law::polynomial_4567});
    table.smoothing = 0.01;
    CHECK(fitted(table).moved <
          0.0002);  // 4-5-6-7 has no step in its jerk: only its fourth derivative's is rounded
}

TEST_CASE("between an exact table's readings the spline follows a smooth law") {
    // A quintic's error is of the sixth order: (1 degree)^6 x the law's sixth derivative / 720 is below 1e-7
    // mm inside; at the ends the law's fourth derivative steps, by 840 x 8 mm / (64 degrees)^4 = 4e-4
    // mm/deg^4, worth 1e-5 mm.
    const Event event{Law::polynomial_4567};
    const TableFit fit = fitted(table_of(event));
    for (double degrees = -100; degrees <= 100; degrees += 0.37) {
        CHECK_NEAR(lift_at(fit, degrees).lift, event.at(degrees).lift, 1e-5);
    }
    CHECK_NEAR(lift_at(fit, -30.5).acceleration, event.at(-30.5).acceleration, 1e-3);
}

TEST_CASE("a fitted table has continuous lift, velocity, acceleration and jerk everywhere") {
    TableProfile table = table_of(Event{Law::cycloidal});
    add_noise(table, 0.002, 7);
    table.smoothing = 0.003;
    const TableFit fit = fitted(table);
    // The jerk's own change over 2e-8 rad is its derivative, below 1e5 mm/rad⁴, times that.
    constexpr double gap = 1e-8 / per_degree;
    for (const Reading& r : table.readings) {
        const double degrees = r.cam_angle.degrees();
        if (std::abs(degrees) > 179.5) continue;
        const Lift before = lift_at(fit, degrees - gap), after = lift_at(fit, degrees + gap);
        CHECK_NEAR(after.lift, before.lift, 1e-6);
        CHECK_NEAR(after.velocity, before.velocity, 1e-5);
        CHECK_NEAR(after.acceleration, before.acceleration, 1e-4);
        CHECK_NEAR(after.jerk, before.jerk, 2e-3);
    }
}

TEST_CASE("the base circle's lift is exactly 0, and the flanks leave it with all derivatives at 0") {
    const TableFit fit = fitted(table_of(Event{Law::polynomial_345}));
    REQUIRE(fit.pieces.size() == 4);
    CHECK(fit.pieces[0].name == "base circle");
    CHECK(fit.pieces[1].name == "opening flank");
    CHECK(fit.pieces[2].name == "closing flank");
    CHECK(fit.pieces[3].name == "base circle");
    for (const double at : {-179.0, -70.0, 75.0, 180.0}) {
        CHECK(lift_at(fit, at).lift == 0.0);
        CHECK(lift_at(fit, at).velocity == 0.0);
    }
    for (const double inside : {fit.pieces[1].start + 1e-7, fit.pieces[2].end - 1e-7}) {
        const Lift lift = lift_at(fit, inside / per_degree);
        CHECK_NEAR(lift.lift, 0.0, 1e-12);
        CHECK_NEAR(lift.velocity, 0.0, 1e-10);
        CHECK_NEAR(lift.acceleration, 0.0, 1e-6);
        CHECK_NEAR(lift.jerk, 0.0, 1e-1);
    }
    CHECK_NEAR(fit.pieces.front().start, -std::numbers::pi, 1e-15);
    CHECK_NEAR(fit.pieces.back().end, std::numbers::pi, 1e-15);
}

TEST_CASE("a table's derivatives are those of its lift") {
    const TableFit fit = fitted(table_of(Event{Law::cycloidal}));
    // Eight-point central differences of a quintic inside one knot interval are exact but for rounding.
    for (double degrees = -60.5; degrees < 66; degrees += 3) {
        constexpr double h = 0.1;
        const auto slope = [&](auto member) {
            const auto f = [&](double k) { return member(lift_at(fit, degrees + k * h)); };
            return (672 * (f(1) - f(-1)) - 168 * (f(2) - f(-2)) + 32 * (f(3) - f(-3)) - 3 * (f(4) - f(-4))) /
                   (840 * h * per_degree);
        };
        const Lift lift = lift_at(fit, degrees);
        CHECK_NEAR(lift.velocity, slope([](Lift l) { return l.lift; }), 1e-9 * 8);
        CHECK_NEAR(lift.acceleration, slope([](Lift l) { return l.velocity; }), 1e-9 * 30);
        CHECK_NEAR(lift.jerk, slope([](Lift l) { return l.acceleration; }), 1e-9 * 300);
    }
}

TEST_CASE("the order of the readings, and where they start, does not matter") {
    const Event event{Law::polynomial_4567};
    const TableFit fit = fitted(table_of(event, -90, 90));
    TableProfile backwards = table_of(event, -90, 90);
    std::reverse(backwards.readings.begin(), backwards.readings.end());
    TableProfile wrapped = table_of(event, -90, 90);
    for (Reading& r : wrapped.readings) {
        if (r.cam_angle.degrees() < 0.0) r.cam_angle += CamAngle::from_degrees(360);
    }
    for (const TableProfile& other : {backwards, wrapped}) {
        const TableFit same = fitted(other);
        for (double degrees = -179.5; degrees < 180; degrees += 1.3) {
            CHECK_NEAR(lift_at(same, degrees).lift, lift_at(fit, degrees).lift, 1e-9);
        }
    }
}

TEST_CASE("readings at uneven angles are fitted as well") {
    const Event event{Law::polynomial_4567};
    std::mt19937 random(11);
    TableProfile table;
    double degrees = -90;
    for (int i = 0; degrees < 90; ++i) {
        table.readings.push_back(
            {CamAngle::from_degrees(degrees), event.at(degrees).lift, Place{"lift.csv", i + 2, 1}});
        degrees += 1.3 + known_law::even(random);
    }
    const TableFit fit = fitted(table);
    for (double at = -100; at <= 100; at += 0.7)
        CHECK_NEAR(lift_at(fit, at).lift, event.at(at).lift, 2e-4);
}

TEST_CASE("a table that only touches the base circle is fitted round the whole turn") {
    const auto eccentric = [](double degrees) { return 10.0 * (1 + std::cos(degrees * per_degree)); };
    for (const double last : {175.0, 180.0}) {  // without and with the first reading again
        const TableFit fit = fitted(table_of(eccentric, -180, last, 5));
        for (double at = -180; at <= 180; at += 1.7)
            CHECK_NEAR(lift_at(fit, at).lift, eccentric(at), 2e-6);
        const Lift end = lift_at(fit, 180), start = lift_at(fit, -180);
        CHECK_NEAR(end.lift, start.lift, 1e-12);
        CHECK_NEAR(end.velocity, start.velocity, 1e-10);
        CHECK_NEAR(end.acceleration, start.acceleration, 1e-9);
        CHECK_NEAR(end.jerk, start.jerk, 1e-7);
        CHECK_NEAR((fit.closes - fit.opens).degrees(), 360.0, 1e-9);
    }
}

TEST_CASE("a table with its own zero is turned so that its peak stands at 0") {
    // An exact table is followed to 1e-6 mm, which leaves a peak with an acceleration of 6 mm/rad² uncertain
    // by 0.03 degrees; the flank there runs at 0.23 mm per degree.
    const Event event{Law::power_2_10_18_26};
    const TableFit fit =
        fitted(table_of([&](double degrees) { return event.at(degrees - 108.4).lift; }, 0, 250, 1));
    CHECK_NEAR(fit.shift.degrees(), 108.4, 0.03);
    const double late = fit.shift.degrees() - 108.4;
    for (double at = -90; at <= 90; at += 2.3)
        CHECK_NEAR(lift_at(fit, at).lift, event.at(at + late).lift, 1e-4);
}

TEST_CASE("a dwell's middle is a shifted table's peak") {
    const Event event{Law::polynomial_4567, 8.0, 60, 60};
    const auto dwelling = [&](double degrees) {
        const double from_middle = degrees - 150.0;
        return event.at(from_middle > 10 ? from_middle - 10 : std::min(from_middle + 10, 0.0)).lift;
    };
    CHECK_NEAR(fitted(table_of(dwelling, 0, 300, 1)).shift.degrees(), 150.0, 0.1);
}

TEST_CASE("a zero that is the peak as far as the smoothing can tell is kept") {
    TableProfile table = table_of(Event{Law::cycloidal});
    add_noise(table, 0.002, 3);
    table.smoothing = 0.003;
    CHECK(fitted(table).shift.radians() == 0.0);
}

TEST_CASE("a lobe of a ring is fitted over its part of the turn") {
    const Event event{Law::polynomial_4567, 5.0, 30, 32};
    const TableFit fit = fitted(table_of(event, -45, 44, 1), full_turn / 4);
    CHECK_NEAR(fit.pieces.front().start, -full_turn / 8, 1e-15);
    CHECK_NEAR(fit.pieces.back().end, full_turn / 8, 1e-15);
    for (double at = -45; at <= 45; at += 0.9)
        CHECK_NEAR(lift_at(fit, at).lift, event.at(at).lift, 1e-4);
}

TEST_CASE("the largest move and its place are those of the readings") {
    TableProfile table = table_of(Event{Law::cycloidal});
    add_noise(table, 0.002, 5);
    table.smoothing = 0.003;
    const TableFit fit = fitted(table);
    double largest = 0;
    int line = 0;
    for (const Reading& r : table.readings) {
        const double moved = std::abs(lift_at(fit, r.cam_angle.degrees()).lift - r.lift);
        if (moved > largest) largest = moved, line = r.place.line;
    }
    CHECK_NEAR(fit.moved, largest, 1e-12);
    CHECK(fit.moved_at.line == line);
    CHECK(fit.moved > 0.0015);
}

TEST_CASE("a table with too few readings is refused") {
    complaint(table_of(Event{}, -80, 80, 16), "table-too-short", 12);
    const auto steep = [](double degrees) { return std::max(0.0, 3.0 - std::abs(degrees)); };
    complaint(table_of(steep, -180, 179, 1), "table-too-short", 182);
    complaint(table_of(Event{Law::cycloidal, 8, 20, 20}, -180, 179, 10), "table-too-short", 20);
    TableProfile empty;
    empty.file = "lift.csv";
    complaint(empty, "table-too-short", 0);
}

TEST_CASE("a table of more than one turn is refused at the reading that is too far") {
    complaint(table_of(Event{}, -180, 181, 1), "table-too-long", 363);
}

TEST_CASE("a repeated angle is refused at its second reading") {
    TableProfile table = table_of(Event{});
    table.readings[120].cam_angle = table.readings[100].cam_angle;
    const Diagnostic repeated = complaint(table, "table-angle-repeated", 122);
    CHECK_THAT(repeated.what, ContainsSubstring("first in line 102"));
    TableProfile struck_out = table;
    struck_out.readings.erase(struck_out.readings.begin() + 120);
    CHECK(fit_table(struck_out, full_turn, Units::mm).ok());
}

TEST_CASE("a reading below the base circle is refused unless smoothing may lift it") {
    TableProfile table = table_of(Event{});
    table.readings[20].lift = -0.004;
    CHECK_THAT(complaint(table, "table-lift-negative", 22).what, ContainsSubstring("-0.004 mm"));
    table.smoothing = 0.005;
    CHECK(fit_table(table, full_turn, Units::mm).ok());
}

TEST_CASE("a table that begins or ends off the base circle is refused at that reading") {
    CHECK_THAT(complaint(table_of(Event{}, -90, 40), "table-not-closed", 132).what,
               ContainsSubstring("ends at lift"));
    CHECK_THAT(complaint(table_of(Event{}, -40, 90), "table-not-closed", 2).what,
               ContainsSubstring("begins at lift"));
    CHECK(fit_table(table_of(Event{}, -90, 70), full_turn, Units::mm).ok());  // the remedy: measure on
}

TEST_CASE("a whole turn whose ends differ is refused, and the smoothing it names closes it") {
    const auto eccentric = [](double degrees) { return 10.0 * (1.1 + std::cos(degrees * per_degree)); };
    TableProfile table = table_of(eccentric, -180, 180, 5);
    table.readings.back().lift += 0.02;
    const Diagnostic open = complaint(table, "table-not-closed", 74);
    CHECK_THAT(open.what, ContainsSubstring("0.02 mm"));
    const auto at = open.remedy.find("smoothing = ");
    REQUIRE(at != std::string::npos);
    table.smoothing = std::stod(open.remedy.substr(at + 12));
    CHECK_NEAR(*table.smoothing, 0.01, 1e-5);
    CHECK(fitted(table).moved <= *table.smoothing);
}

TEST_CASE("an outlier is refused by its line, and the lift that its neighbours name is accepted") {
    const double size = GENERATE(0.05, -0.02, 1.0);
    const std::size_t index = GENERATE(std::size_t{120}, std::size_t{178}, std::size_t{40}, std::size_t{246});
    CAPTURE(size, index);
    TableProfile table = table_of(Event{Law::cycloidal});
    add_noise(table, 0.0005, 2);
    table.smoothing = 0.001;
    if (table.readings[index].lift + size < -0.001) return;  // that is refused as below the base circle
    table.readings[index].lift += size;
    const Diagnostic outlier = complaint(table, "table-outlier", static_cast<int>(index) + 2);
    const auto at = outlier.remedy.find("neighbours say ");
    REQUIRE(at != std::string::npos);
    table.readings[index].lift = std::stod(outlier.remedy.substr(at + 15));
    CHECK(fit_table(table, full_turn, Units::mm).ok());
}

TEST_CASE("two outliers side by side are both refused, and others in the same run") {
    TableProfile table = table_of(Event{Law::polynomial_345});
    table.readings[150].lift += 0.3;
    table.readings[151].lift += 0.25;
    table.readings[200].lift -= 0.1;
    table.readings[20].lift = -0.1;  // below the base circle, which is told of first and once
    const auto fit = fit_table(table, full_turn, Units::mm);
    REQUIRE_FALSE(fit.ok());
    std::vector<int> lines;
    for (const Diagnostic& d : fit.diagnostics())
        lines.push_back(d.place.line);
    CHECK(lines == std::vector<int>{22, 152, 153, 202});
}

TEST_CASE("steps in the acceleration are no outliers") {
    for (const double step : {0.5, 1.0, 2.0, 5.0}) {
        CAPTURE(step);
        CHECK(fit_table(table_of(Event{Law::simple_harmonic}, -180, 179, step), full_turn, Units::mm).ok());
        CHECK(fit_table(table_of(Event{Law::simple_harmonic, 8, 63.7, 51.2}, -180, 179, step), full_turn,
                        Units::mm)
                  .ok());
    }
}

TEST_CASE("scatter alone is no outlier") {
    for (unsigned seed = 1; seed <= 50; ++seed) {
        CAPTURE(seed);
        TableProfile table = table_of(Event{Law::cycloidal});
        add_noise(table, 0.004, seed);
        table.smoothing = 0.004;
        CHECK(fit_table(table, full_turn, Units::mm).ok());
    }
}

TEST_CASE("messages about a table are in the job's units") {
    TableProfile table = table_of(Event{});
    table.readings[20].lift = -0.0254;
    const auto fit = fit_table(table, full_turn, Units::inch);
    REQUIRE_FALSE(fit.ok());
    CHECK_THAT(fit.diagnostics().front().what, ContainsSubstring("-0.001 in"));
}

TEST_CASE("readings rounded to a dial's steps are fitted without the steps, though smoothing is absent") {
    // Rounding to 0.01 mm leaves second differences of 0.01 mm/deg², as much as the acceleration itself. None
    // of it may be seen: 5 % of the largest acceleration, as a root of the mean square, and never a fifth of
    // it more than the law's own largest deceleration, which is what undercuts a flat follower's lobe.
    const Law law =
        GENERATE(Law::cycloidal, Law::polynomial_345, Law::polynomial_4567, Law::power_2_10_18_26);
    const double step = GENERATE(0.01, 0.0254, 0.005);
    const double phase = GENERATE(0.0, 0.31, 0.5);
    CAPTURE(static_cast<int>(law), step, phase);
    const Event event{law};
    TableProfile table = table_of(event, -180 + phase, 179 + phase);
    round_lifts(table, step);
    const TableFit fit = fitted(table);
    CHECK(fit.moved <= step + 1e-9);
    CHECK_NEAR(fit.step, step, 1e-12);
    double squares = 0, largest = 0, deepest = 0, own_deepest = 0;
    int count = 0;
    for (double degrees = -80; degrees <= 80; degrees += 0.05, ++count) {
        const Lift got = lift_at(fit, degrees), law_lift = event.at(degrees);
        CHECK_NEAR(got.lift, law_lift.lift, step);
        squares += std::pow(got.acceleration - law_lift.acceleration, 2);
        largest = std::max(largest, std::abs(law_lift.acceleration));
        deepest = std::min(deepest, got.acceleration);
        own_deepest = std::min(own_deepest, law_lift.acceleration);
    }
    CHECK(std::sqrt(squares / count) <= 0.05 * largest);
    CHECK(deepest >= own_deepest - 0.2 * largest);
}

TEST_CASE("the work of a fit grows with the readings, not with their square") {
    // Pairs of rows turned, from 0.36 to 0.0036 degrees between readings. Counted, not timed.
    const bool noisy = GENERATE(false, true);
    const bool ring = GENERATE(false, true);
    CAPTURE(noisy, ring);
    const auto rotations = [&](int count) {
        const auto eccentric = [](double degrees) { return 10.0 * (1 + std::cos(degrees * per_degree)); };
        const double step = 360.0 / count, last = 180 - step;
        TableProfile table = ring ? table_of(eccentric, -180, last, step)
                                  : table_of(Event{Law::polynomial_4567}, -180, last, step);
        if (noisy) add_noise(table, 0.002, 1), table.smoothing = 0.0025;
        return static_cast<double>(fitted(table).rotations);
    };
    const double few = rotations(1'000), many = rotations(10'000), most = rotations(100'000);
    CAPTURE(few, many, most);
    CHECK(many <= 10.5 * few);
    CHECK(most <= 10.5 * many);
}

TEST_CASE("readings much closer than knots are still moved by no more than smoothing") {
    const Law law = GENERATE(Law::simple_harmonic, Law::cycloidal);
    CAPTURE(static_cast<int>(law));
    const Event event{law};  // simple harmonic: the acceleration steps at three places
    TableProfile table = table_of(event, -180, 179.96, 0.04);
    CHECK(fitted(table).moved <= 1e-6);
    add_noise(table, 0.002, 3);
    table.smoothing = 0.0022;
    CHECK(fitted(table).moved <= 0.0022);
    CHECK_NEAR(fitted(table).lift, 8.0, 0.002);
    table.smoothing = 0.0015;  // on the base circle already too little
    CHECK_NEAR(named(fit_table(table, full_turn, Units::mm).diagnostics().front(), "smoothing"), 0.002, 1e-5);
}

TEST_CASE(
    "readings much closer than knots that scatter more than smoothing are told with what evens them out") {
    TableProfile table = table_of(Event{}, -180, 179.96, 0.04);
    std::mt19937 random(5);
    for (Reading& r : table.readings) {
        if (std::abs(r.cam_angle.degrees()) < 60) r.lift += 0.002 * known_law::even(random);
    }
    table.smoothing = 0.001;
    const auto refused = fit_table(table, full_turn, Units::mm);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.diagnostics().front().code == "table-scatter");
    table.smoothing = named(refused.diagnostics().front(), "smoothing");
    CHECK_NEAR(*table.smoothing, 0.002, 4e-4);
    CHECK(fitted(table).moved <= *table.smoothing + 1e-9);
}
