/// The polar lift table of a lobe.
#pragma once

#include <lobewright/lobe.h>

#include <vector>

namespace lobewright {

/// One row; lengths in mm, derivatives per degree of cam angle.
struct LiftRow {
    CamAngle cam_angle;
    ShaftAngle shaft_angle;  ///< unwrapped: at - s·cam_angle
    double lift = 0.0;
    double velocity = 0.0;
    double acceleration = 0.0;
    double jerk = 0.0;
    double polar_radius = 0.0;      ///< the lobe's own radius in the direction shaft_angle
    Vec2 contact;                   ///< in the shaft's frame
    double curvature_radius = 0.0;  ///< at the contact; negative where hollow; infinite where straight
    double pressure_angle = 0.0;    ///< degrees
};

/// From -180 to 180 degrees of cam angle in steps of `every` (the last step is shorter if it does not divide).
/// Required: 0 < every <= 180 degrees.
std::vector<LiftRow> lift_table(const SolvedLobe& lobe, CamAngle every);

enum class TableFormat { csv, json, markdown };
/// Text in the job's units, by the contract's names and number format. In csv and markdown a straight flank's
/// curvature radius is an empty cell, in json null.
std::string lift_table_text(const std::vector<LiftRow>& rows, const SolvedLobe& lobe, Units units, TableFormat format);

}  // namespace lobewright
