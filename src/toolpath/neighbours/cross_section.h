/// Whether two outlines across the shaft meet.
#pragma once

#include <lobewright/contour.h>

#include <functional>
#include <vector>

namespace lobewright::toolpath {

using Outline = std::vector<Vec2>;  ///< corners in order, either way round, not closed

/// An outline just outside the contour with `left_on` on it: corners where the tangents of neighbouring
/// points meet.
Outline outline_of(const Contour& contour, double left_on);
Outline turned(const Outline& outline, ShaftAngle by);
/// Tells of an outline whether it has a point in common with `fixed` (Boost.Geometry), which is prepared
/// once.
std::function<bool(const Outline&)> meeting(const Outline& fixed);
/// How far a point stands off `fixed`, mm; 0 within.
std::function<double(Vec2)> distance_from(const Outline& fixed);

}  // namespace lobewright::toolpath
