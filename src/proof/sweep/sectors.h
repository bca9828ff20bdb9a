/// The full turn in sectors of a degree, by which a plane's steps are found.
#pragma once

#include <lobewright/angle.h>

namespace lobewright::proof {

inline constexpr int sectors_of_turn = 360;
inline constexpr double sector_width = full_turn / sectors_of_turn;

/// The sector that the direction `psi` (radians) lies in.
unsigned sector_of(double psi);

/// A section that faces from so many sectors away, or more, reaches no ray.
inline constexpr int sector_reach = 92;
/// Of the least turn between a ray in sector 0 and a section that faces from sector `k`, over at most one
/// sector's width; |k| at most sector_reach. It reaches no lower on the ray than its least height by this.
double gap_cosine(int k);

}  // namespace lobewright::proof
