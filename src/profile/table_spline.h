/// A lift table, measured or supplied, made into a smooth motion.
#pragma once

#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <vector>

namespace lobewright {

/// What the fit makes of a table. Cam angles are the lobe's own: the peak is at 0.
struct TableFit {
    std::vector<MotionPiece>
        pieces;          ///< in order over [-period/2, period/2], "base circle", "opening flank", ...
    double lift = 0.0;   ///< largest, mm
    CamAngle opens;      ///< where the base circle is left, and
    CamAngle closes;     ///< where it is reached again; a whole period apart where there is none
    double moved = 0.0;  ///< the largest change to a reading, mm
    Place moved_at;      ///< that reading's place
    CamAngle shift;      ///< table's cam angle of the peak, taken off its angles; 0 where they are kept
};

/// Fits the smoothest spline that moves no reading by more than `table.smoothing`; with 0 it goes through
/// them all (to 1e-6 mm, as for every smaller smoothing).
///
/// The spline is of degree 5 with simple knots at the readings: lift and its first four derivatives are
/// continuous everywhere, also at the joints with the base circle, where all of them vanish; on the base
/// circle the lift is exactly 0. A law whose jerk or acceleration steps (cycloidal at its ends, simple
/// harmonic, arcs) is rounded over about the distance of two readings there.
///
/// Angles may be uneven, in either order, and start anywhere; they are taken modulo the period. The table
/// begins and ends on the base circle, or goes round the whole period; then its last reading may repeat the
/// first. Where the lift at the table's 0 is the largest, as far as `smoothing` can tell, the angles are
/// kept; else the peak's angle is taken off them.
///
/// Refused, each at the reading's line: too few readings, more than one period, a repeated angle, lift below
/// the base circle, a table that does not close, an outlier. Required: period_radians > 0.
Outcome<TableFit> fit_table(const TableProfile& table, double period_radians, Units units);

}  // namespace lobewright
