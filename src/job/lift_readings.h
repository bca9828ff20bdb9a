/// The readings of a lift table from its file.
#pragma once

#include <lobewright/job.h>

namespace lobewright {

/// Columns cam_angle (degrees) and lift (`units`), in any order; the other columns that a lift table of our
/// own has may stand beside them and are passed over. Whether the readings close, repeat or jump is for the
/// profile solver.
Outcome<std::vector<Reading>> read_lift_readings(const std::string& text, const std::string& file,
                                                 Units units);

}  // namespace lobewright
