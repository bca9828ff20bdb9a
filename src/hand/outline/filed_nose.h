/// A nose filed to a circle, and what the file leaves of an outline.
#pragma once

#include "hand/outline/outline.h"

#include <lobewright/lobe.h>

#include <vector>

namespace lobewright::hand {

/// Its arc between the directions of its joints with the flanks, and the tangents there, which a file that
/// rolls off the nose does not go below. Shaft's frame, mm.
struct FiledNose {
    ShaftAngle facing;    ///< direction of the nose
    double centre = 0.0;  ///< distance of its centre from the shaft's axis
    double radius = 0.0;
    ShaftAngle half_angle;  ///< between `facing` and the normal at either joint, < 90 degrees
};

/// The noses of a solved arcs lobe. Required: lobe.arcs.
std::vector<FiledNose> filed_noses(const SolvedLobe& lobe);

/// Radius that the filed nose allows in a direction; infinite where its tangents don't reach.
double radius_under_file(const FiledNose& nose, ShaftAngle direction);
/// As exit_along, of the filed nose as a whole.
double exit_along(const FiledNose& nose, Vec2 point, Vec2 normal);

/// The outline with that nose filed on it. Required: the outline is of swept cuts.
Outline filed(const Outline& outline, const FiledNose& nose);

}  // namespace lobewright::hand
