/// A lift table put in order and judged, before anything is fitted to it.
#pragma once

#include <lobewright/diagnostic.h>
#include <lobewright/job.h>

#include <cstddef>
#include <vector>

namespace lobewright {

/// Changes to a reading below this are no changes, mm: lift tables are written to a micrometre, or to 1e-9 by
/// ourselves.
inline constexpr double table_resolution = 1e-6;

struct OrderedReading {
    double angle = 0.0;      ///< radians, ascending over less than one period
    double lift = 0.0;       ///< mm
    std::size_t source = 0;  ///< index in TableProfile::readings
};

struct OrderedReadings {
    std::vector<OrderedReading> readings;
    /// With a base circle: the readings `first` to `last` lie off it; the one before `first` (or the first of
    /// all) and the one after `last` are the nearest that are still at zero lift. Without: all of them.
    bool base_circle = true;
    std::size_t first = 0;
    std::size_t last = 0;
};

/// Orders the readings round one period and finds the event; refuses what fit_table (table_spline.h) refuses.
Outcome<OrderedReadings> order_readings(const TableProfile& table, double period, Units units);

}  // namespace lobewright
