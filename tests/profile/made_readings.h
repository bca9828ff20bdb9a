/// Lift tables made of known laws, and what becomes of them.
#pragma once

#include "catch.h"
#include "known_law.h"
#include "profile/spline/table_spline.h"

#include <functional>

namespace lift_table {

using namespace lobewright;
using namespace lobewright::profile;
using known_law::Event;
using known_law::Law;

inline constexpr double per_degree = std::numbers::pi / 180;

/// Readings every `step` degrees over [from, to]; line n of the file holds reading n - 1, line 1 the heading.
inline TableProfile table_of(const std::function<double(double)>& lift, double from, double to, double step) {
    TableProfile table;
    table.base_radius = 15.0;
    table.file = "lift.csv";
    for (int i = 0; from + i * step <= to + 1e-9; ++i) {
        const double degrees = from + i * step;
        table.readings.push_back(
            {CamAngle::from_degrees(degrees), lift(degrees), Place{"lift.csv", i + 2, 1}});
    }
    return table;
}

inline TableProfile table_of(const Event& event, double from = -180, double to = 179, double step = 1) {
    return table_of([&event](double degrees) { return event.at(degrees).lift; }, from, to, step);
}

inline void add_noise(TableProfile& table, double size, unsigned seed) {
    std::mt19937 random(seed);
    for (Reading& r : table.readings)
        r.lift += size * known_law::even(random);
}

inline TableFit fitted(const TableProfile& table, double period = full_turn) {
    const auto fit = fit_table(table, period, Units::mm);
    for (const Diagnostic& d : fit.diagnostics())
        UNSCOPED_INFO(to_text(d));
    REQUIRE(fit.ok());
    return fit.value();
}

inline Lift lift_at(const TableFit& fit, double degrees) {
    const double angle = degrees * per_degree;
    for (const MotionPiece& piece : fit.pieces) {
        if (angle >= piece.start && angle <= piece.end) return piece.at(angle);
    }
    FAIL("no piece at " << degrees);
    return {};
}

/// The one complaint about a table, checked for its code and its line.
inline Diagnostic complaint(const TableProfile& table, const std::string& code, int line) {
    const auto fit = fit_table(table, full_turn, Units::mm);
    REQUIRE_FALSE(fit.ok());
    for (const Diagnostic& d : fit.diagnostics())
        UNSCOPED_INFO(to_text(d));
    const Diagnostic first = fit.diagnostics().front();
    CHECK(first.fault == Fault::bad_input);
    CHECK(first.code == code);
    CHECK(first.place.file == "lift.csv");
    CHECK(first.place.line == line);
    CHECK_FALSE(first.remedy.empty());
    return first;
}

/// As a dial shows them that has steps of that many mm.
inline void round_lifts(TableProfile& table, double step) {
    for (Reading& r : table.readings)
        r.lift = step * std::round(r.lift / step);
}

/// The figure that stands behind `key = ` in a remedy.
inline double named(const Diagnostic& diagnostic, const std::string& key) {
    const auto at = diagnostic.remedy.find(key + " = ");
    INFO(diagnostic.remedy);
    REQUIRE(at != std::string::npos);
    return std::stod(diagnostic.remedy.substr(at + key.size() + 3));
}

}  // namespace lift_table
