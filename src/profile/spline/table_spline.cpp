#include "profile/spline/table_spline.h"

#include "profile/motion/motion_piece.h"
#include "profile/readings/table_complaints.h"
#include "profile/roots.h"
#include "profile/spline/smoothing_fit.h"

#include <algorithm>
#include <cmath>
#include <memory>

namespace lobewright::profile {
namespace {

/// All readings that the spline reaches, in the order of its angle. Outside its knots it is 0, whatever it
/// does.
std::vector<FitReading> fit_readings(const TableProfile& table, const OrderedReadings& ordered,
                                     const TableKnots& knots) {
    const double start = knots.knots.front();
    const bool ring = knots.ends == QuinticBasis::Ends::ring;
    std::vector<FitReading> readings;
    for (const Reading& reading : table.readings) {
        const double x = reduced(reading.cam_angle.radians(), start, ordered.ring.period());
        if (!ring && (x <= start || x >= knots.knots.back())) continue;
        readings.push_back({x, reading.lift, ordered.limits.limit});
    }
    std::stable_sort(readings.begin(), readings.end(),
                     [](const FitReading& a, const FitReading& b) { return a.angle < b.angle; });
    return readings;
}

/// Where the spline is largest: the best of four samples between two knots, and the turn beside it, if the
/// samples show one.
double peak_of(const QuinticSpline& spline) {
    constexpr std::size_t parts = 4;
    const auto& knots = spline.knots();
    const auto sample = [&](std::size_t k) {
        const std::size_t i = std::min(k / parts, knots.size() - 2);
        return knots[i] + (knots[i + 1] - knots[i]) * static_cast<double>(k - parts * i) / parts;
    };
    const std::size_t count = parts * (knots.size() - 1);
    std::size_t best = 0;
    for (std::size_t k = 1; k < count; ++k) {
        if (spline.at(sample(k)).lift > spline.at(sample(best)).lift) best = k;
    }
    const double period = knots.back() - knots.front();
    const double low = best > 0 ? sample(best - 1) : sample(count - 1) - period;
    const double high = sample(best + 1);
    const auto velocity = [&spline](double x) { return spline.at(x).velocity; };
    return velocity(low) >= 0.0 && velocity(high) <= 0.0 ? root_of(velocity, low, high) : sample(best);
}

/// One end of the stretch round the peak on which the lift is at least `floor`, with the knots in it counted;
/// no farther away than a turn through all knots.
struct DwellEnd {
    double angle = 0.0;
    std::size_t knots = 0;
};
DwellEnd dwell_end(const QuinticSpline& spline, double peak, double floor, bool forwards) {
    const auto& knots = spline.knots();
    const std::size_t intervals = knots.size() - 1;
    const double period = knots.back() - knots.front();
    const auto above = [&](double x) { return spline.at(x).lift - floor; };
    const auto after = std::upper_bound(knots.begin() + 1, knots.end() - 1, peak) - knots.begin();
    std::size_t i = static_cast<std::size_t>(forwards ? after : after - 1);
    double turn = 0.0;
    DwellEnd end{peak, 0};
    for (; end.knots < intervals; ++end.knots) {
        const double next = knots[i] + turn;
        if (above(next) < 0.0) {
            end.angle = root_of(above, end.angle, next);
            return end;
        }
        end.angle = next;
        if (forwards && ++i > intervals) i = 1, turn += period;
        if (!forwards && i-- == 0) i = intervals - 1, turn -= period;
    }
    return end;
}

/// The peak, or, where three knots and more are on a dwell there, its middle. Readings of one lift may be
/// moved by `band` either way.
double middle_of_peak(const QuinticSpline& spline, double peak, double band) {
    double highest = 0.0;
    for (const double knot : spline.knots())
        highest = std::max(highest, spline.at(knot).lift);
    const double floor = highest - 2.0 * band;
    const DwellEnd before = dwell_end(spline, peak, floor, false);
    const DwellEnd behind = dwell_end(spline, peak, floor, true);
    return before.knots + behind.knots < 3 ? peak : 0.5 * (before.angle + behind.angle);
}

/// Whether the table's angles already count from the peak: its 0 is as high, within what a reading may move,
/// or as near as half the way between two readings.
bool zero_is_peak(const QuinticSpline& spline, double peak, double period, double band) {
    const double zero = reduced(0.0, spline.knots().front(), period);
    if (spline.at(zero).lift >= spline.at(peak).lift - band) return true;
    const auto& knots = spline.knots();
    const auto after = std::upper_bound(knots.begin() + 1, knots.end() - 1, peak);
    return std::abs(zero - peak) <= 0.5 * (*after - *(after - 1));
}

/// The event and the base circle as pieces over the period; a stretch that crosses its ends is cut there.
std::vector<MotionPiece> pieces_of(const std::shared_ptr<const QuinticSpline>& spline, const TableFit& fit,
                                   double period) {
    const double opens = fit.opens.radians(), closes = fit.closes.radians();
    const double shift = fit.shift.radians(), start = spline->knots().front();
    const auto event = [&](const char* name, double from, double to) {
        return MotionPiece{name, from, to,
                           [=](double alpha) { return spline->at(reduced(alpha + shift, start, period)); },
                           [=](const Interval& alpha) {
                               const double way = alpha.middle() + shift;
                               return spline->within(alpha + (reduced(way, start, period) - alpha.middle()));
                           }};
    };
    const MotionPiece stretches[] = {event("opening flank", opens, 0.0), event("closing flank", 0.0, closes),
                                     standing_piece("base circle", closes, opens + period, 0.0)};
    std::vector<MotionPiece> pieces;
    for (const double turn : {-period, 0.0, period}) {
        for (MotionPiece piece : stretches) {
            piece.start = std::max(piece.start + turn, -0.5 * period);
            piece.end = std::min(piece.end + turn, 0.5 * period);
            if (piece.start < piece.end) pieces.push_back(std::move(piece));
        }
    }
    return pieces;
}

/// The largest change to a reading, and where.
void note_moves(TableFit& fit, const TableProfile& table, const QuinticSpline& spline, double period) {
    const double start = spline.knots().front();
    for (const Reading& reading : table.readings) {
        const double moved =
            spline.at(reduced(reading.cam_angle.radians(), start, period)).lift - reading.lift;
        if (std::abs(moved) > fit.moved) fit.moved = std::abs(moved), fit.moved_at = reading.place;
    }
}

/// Where the spline begins and ends, with its peak at 0.
void place_peak(TableFit& fit, const QuinticSpline& spline, double period, double band) {
    const double peak = peak_of(spline);
    const double start = spline.knots().front();
    fit.lift = spline.at(peak).lift;
    if (!zero_is_peak(spline, peak, period, band)) {
        fit.shift = CamAngle::from_radians(middle_of_peak(spline, peak, band));
    }
    const double opens = reduced(start - fit.shift.radians(), -period, period);
    fit.opens = CamAngle::from_radians(opens);
    fit.closes = CamAngle::from_radians(opens + spline.knots().back() - start);
}

}  // namespace

Outcome<TableFit> fit_table(const TableProfile& table, double period_radians, Units units) {
    const auto ordered = order_readings(table, period_radians, units);
    if (!ordered) return ordered.diagnostics();
    const TableKnots ends = table_knots(*ordered, [](double, double) { return false; });
    const SmoothedCurve curve = smoothed_curve(*ordered, fit_readings(table, *ordered, ends));
    if (!curve.spline) {
        TableComplaints complaints(table, units, ordered->limits);
        complaints.scattered(ordered->ring[ordered->ring.highest_at()], curve.scatter);
        return complaints.all();
    }
    TableFit fit;
    fit.limit = ordered->limits.limit;
    fit.step = ordered->limits.step;
    fit.scatter = curve.scatter;
    fit.rotations = curve.rotations;
    place_peak(fit, *curve.spline, period_radians, fit.limit);
    fit.pieces = pieces_of(curve.spline, fit, period_radians);
    note_moves(fit, table, *curve.spline, period_radians);
    return fit;
}

}  // namespace lobewright::profile
