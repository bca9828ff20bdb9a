/// A lift table, measured or supplied, made into a smooth motion. This room holds the spline that does it,
/// and the least squares that settle it.
#pragma once

#include <lobewright/job.h>
#include <lobewright/motion.h>

#include <vector>

namespace lobewright::profile {

/// What the fit makes of a table. Cam angles are the lobe's own: the peak is at 0.
struct TableFit {
    std::vector<MotionPiece>
        pieces;            ///< in order over [-period/2, period/2], "base circle", "opening flank", ...
    double lift = 0.0;     ///< largest, mm
    CamAngle opens;        ///< where the base circle is left, and
    CamAngle closes;       ///< where it is reached again; a whole period apart where there is none
    double moved = 0.0;    ///< the largest change to a reading, mm
    Place moved_at;        ///< that reading's place
    CamAngle shift;        ///< table's cam angle of the peak, taken off its angles; 0 where they are kept
    double limit = 0.0;    ///< the most that a reading off the base circle might be moved, mm
    double step = 0.0;     ///< that the readings are rounded to, mm; 0 where none is seen
    double scatter = 0.0;  ///< the most that a curve as smooth as the readings ask for would move one, mm
    std::size_t rotations = 0;  ///< pairs of rows turned by the fit (banded_least_squares.h): the work done
};

/// Fits a smoothing spline: as smooth as the readings' own scatter asks for (generalised cross-validation),
/// and never so smooth that it moves a reading by more than `table.smoothing`; with 0 it goes through them
/// all (to 1e-6 mm, as for every smaller smoothing). Where `smoothing` is absent, the readings' own rounding
/// stands for it (reading_limits.h).
///
/// The spline is of degree 5 with simple knots at the readings (where these are nearer than a quarter of a
/// degree, at few of them, unless that does not do): lift and its first four derivatives are
/// continuous everywhere, also at the joints with the base circle, where all of them vanish; on the base
/// circle the lift is exactly 0. A law whose jerk or acceleration steps (cycloidal at its ends, simple
/// harmonic, arcs) is rounded over about the distance of two readings there. The base circle is left as much
/// earlier as `smoothing` hides.
///
/// Measured, readings every degree with an even scatter of ±2 µm, smoothing 2 to 10 µm, cycloidal, 3-4-5,
/// 4-5-6-7 and power polynomial over 132 degrees: the lift comes back within 3 µm, the acceleration
/// within 1.5 % of its largest (root of the mean square), and without ripple (its total variation within 10 %
/// of the law's own).
///
/// Angles may be uneven, in either order, and start anywhere; they are taken modulo the period. The table
/// begins and ends on the base circle, or goes round the whole period; then its last reading may repeat the
/// first. Where the lift at the table's 0 is the largest, within `smoothing` or half the way from reading to
/// reading, the angles are kept; else the peak's angle (the middle of its dwell) is taken off them.
///
/// Refused, each at the reading's line: too few readings, more than one period, a repeated angle, readings on
/// the base circle that are not zero, a table that does not close or has a hole, an outlier. The work grows
/// with the readings, not with their square. Required: period_radians > 0.
Outcome<TableFit> fit_table(const TableProfile& table, double period_radians, Units units);

}  // namespace lobewright::profile
