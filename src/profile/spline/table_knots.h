/// Where the spline through a lift table has its knots.
#pragma once

#include "profile/readings/table_readings.h"
#include "profile/spline/quintic_spline.h"

#include <functional>

namespace lobewright::profile {

/// x plus as many periods as bring it to [from, from + period).
double reduced(double x, double from, double period);

/// The part of the period that the spline covers, with its knots.
struct TableKnots {
    std::vector<double> knots;
    QuinticBasis::Ends ends = QuinticBasis::Ends::open;
};

/// Knots nearer to each other than this part of a period (a quarter of a degree of a turn) are set only where
/// the readings can't be followed without.
inline constexpr double least_knot_spacing = 1.0 / 1440.0;

/// Readings between knots that all become knots, radians: whether the stretch from one knot to the next is
/// among them.
using IsFine = std::function<bool(double from, double to)>;

/// Knots at the readings off the base circle, `least_knot_spacing` apart where readings are nearer and the
/// stretch is not `fine`; before and behind the event as many more as the vanishing ends take up, and two.
/// Without a base circle, round the ring.
TableKnots table_knots(const OrderedReadings& ordered, const IsFine& fine);

}  // namespace lobewright::profile
