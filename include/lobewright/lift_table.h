/// The polar lift table of a lobe.
#pragma once

#include <lobewright/lobe.h>

#include <vector>

namespace lobewright {

/// One row; lengths in mm, angles in radians.
struct LiftRow {
    CamAngle cam_angle;
    ShaftAngle shaft_angle;  ///< unwrapped: at - s·cam_angle
    Lift lift;
    double polar_radius = 0.0;  ///< the lobe's own radius in the direction shaft_angle
    Vec2 contact;               ///< in the shaft's frame
    double curvature_radius =
        0.0;  ///< at the contact; negative where hollow; infinite where straight (beyond 1e9 mm)
    double pressure_angle = 0.0;  ///< with the sign of FollowerContact
};

/// From -180 to 180 degrees of cam angle in steps of `every` (the last step is shorter if it does not
/// divide). Required: 0 < every <= 180 degrees.
std::vector<LiftRow> lift_table(const SolvedLobe& lobe, CamAngle every);

enum class TableFormat { csv, json, markdown };
/// Text in `units`, by the names of examples/job-file.md: lengths in mm or inch, derivatives of the lift in
/// that length per degree of cam angle, its square and its cube, the rest in degrees. csv and json: nine
/// decimals at most; json is an object with `lobe`, `units` and `rows`. markdown is for people: as many
/// decimals as a bench can use. A straight flank's radius of curvature is an empty cell in csv and markdown,
/// null in json.
std::string lift_table_text(const std::vector<LiftRow>& rows, const SolvedLobe& lobe, Units units,
                            TableFormat format);

}  // namespace lobewright
