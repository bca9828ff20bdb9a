/// A lift table put in order and judged, before anything is fitted to it. This room holds the readings of a
/// table as they were measured, and all that can be wrong with them.
#pragma once

#include "profile/readings/ordered_readings.h"
#include "profile/readings/reading_limits.h"

#include <lobewright/diagnostic.h>
#include <lobewright/job.h>

namespace lobewright::profile {

struct OrderedReadings {
    ReadingRing ring;
    ReadingLimits limits;
    /// With a base circle: the readings `first` to `last` lie off it; the one before `first` (or the first of
    /// all) and the one after `last` are the nearest that are still at zero lift. Without: all of them.
    bool base_circle = true;
    std::size_t first = 0;
    std::size_t last = 0;
};

/// Orders the readings round one period and finds the event; refuses what fit_table (table_spline.h) refuses.
Outcome<OrderedReadings> order_readings(const TableProfile& table, double period, Units units);

}  // namespace lobewright::profile
