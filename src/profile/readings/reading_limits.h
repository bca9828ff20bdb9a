/// How far the readings of a lift table may be wrong: as the user says, or as their own rounding shows.
#pragma once

#include <lobewright/job.h>

namespace lobewright::profile {

/// Changes to a reading below this are no changes, mm: lift tables are written to a micrometre, or to 1e-9 by
/// ourselves.
inline constexpr double table_resolution = 1e-6;

/// Lifts that differ by less are one lift but for the rounding of doubles, mm: a metre's last bits are 1e-13.
inline constexpr double lift_rounding = 1e-9;

/// The largest step of a dial or of decimals of which all readings are multiples, counted from the first of
/// them, mm; 0 where there is none, or where so few lifts differ that it may be chance. Looked for: 1, 2 and
/// 5 times a power of ten of millimetres, and of inches, from 0.1 mm to 2e-6 mm.
double rounding_step(const std::vector<Reading>& readings);

/// mm.
struct ReadingLimits {
    double step = 0.0;   ///< that the readings are rounded to; 0 where none is seen
    double limit = 0.0;  ///< no reading is moved by more, and one within this of zero may be the base circle
};

/// `smoothing` is a hard limit. Where it is absent, a reading may be moved by the step that it is rounded to:
/// half of it for the rounding, and half for the dial's zero, which was set no better.
ReadingLimits reading_limits(const TableProfile& table);

}  // namespace lobewright::profile
