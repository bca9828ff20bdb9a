/// The ridge that two neighbouring cuts leave between them, over a surface of constant radius of curvature.
///
/// `radius` is the surface's, mm; `step` the angle between its normals at the two cuts. Heights are above the
/// wanted surface, exact; all three come to radius²·step²/8 · (1/radius + K), K = 0, 1/cutter, -1/swept, for
/// small steps. Derived: the two cuts cross on the bisector of their normals.
#pragma once

#include <lobewright/angle.h>

namespace lobewright::hand {

/// Between two flats.
double ridge_between_flats(double radius, ShaftAngle step);
/// Between two cuts with the side of a round cutter parallel to the surface's axis. Required: the cuts meet:
/// (radius + cutter_radius)·sin(step/2) <= cutter_radius.
double ridge_between_rounds(double radius, double cutter_radius, ShaftAngle step);
/// Between two arcs of a larger radius that enclose the surface. Required: swept_radius >= radius; 0 where
/// equal.
double ridge_between_arcs(double radius, double swept_radius, ShaftAngle step);

/// The widest step whose ridge is `height`. Required: height > 0. With arcs, a full turn where no step leaves
/// as much; with rounds, at most the step at which the cuts still meet.
ShaftAngle step_for_flats(double radius, double height);
ShaftAngle step_for_rounds(double radius, double cutter_radius, double height);
ShaftAngle step_for_arcs(double radius, double swept_radius, double height);

}  // namespace lobewright::hand
