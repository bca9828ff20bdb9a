/// The area under a lift curve.
#pragma once

#include <lobewright/motion.h>

#include <vector>

namespace lobewright::profile {

/// Lift × cam angle over all pieces, mm × radians: Gauss's rule of 15 points on sixteenths of every piece,
/// exact for polynomials of degree 29 there; its error is below 1e-12 of the area for every law (a test holds
/// it to closed forms).
double lift_area(const std::vector<MotionPiece>& pieces);

}  // namespace lobewright::profile
